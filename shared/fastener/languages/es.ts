import type { VocabularyWords } from './language'

/** Spanish. */
export const spanish: VocabularyWords = {
  lubrication: {
    dry: 'seco|seca|secos|secas|en seco|limpio y seco|limpios y secos|limpia y seca|rosca seca|roscas secas',
    oil:
      'aceitado|aceitada|aceitados|aceitadas|aceite|aceite de motor|con aceite|con aceite de motor|lubricado con aceite|' +
      'lubricado con aceite de motor|rosca aceitada|roscas aceitadas',
    grease: 'grasa|con grasa|grasa de litio|grasa multiuso',
    paste:
      'pasta MoS2|pasta de MoS2|bisulfuro de molibdeno|disulfuro de molibdeno|pasta de bisulfuro de molibdeno|' +
      'pasta de disulfuro de molibdeno|pasta de grafito',
    anti_seize: 'grasa de cobre|pasta de cobre|antigripante|pasta antigripante|pasta cerámica|grasa cerámica',
    threadlocker: 'fijador de roscas|fijador de rosca|bloqueador de roscas|fijatornillos',
    zinc_plated: 'electrocincado|cincado electrolítico|zincado electrolítico',
    wax: 'encerado|encerada|encerados|recubierto de cera',
  },
  material: {
    cast_iron: 'hierro fundido|hierro colado|fundición gris|hierro fundido gris|fundición de hierro',
    ductile_iron:
      'fundición nodular|fundición dúctil|hierro dúctil|hierro nodular|fundición de grafito esferoidal',
    cast_aluminium: 'aluminio inyectado|aluminio fundido a presión',
    cast_aluminium_gravity:
      'aluminio fundido en arena|aluminio fundido por gravedad|aluminio fundido en coquilla',
    steel: 'acero|acero dulce|acero estructural',
    bronze: 'bronce|bronce al estaño|bronce fundido',
  },
  grade: 'clase|clase de resistencia|calidad|tornillo|tornillos',
  stainless: 'inox|inoxidable|acero inoxidable|acero inox',
  hints: {
    dry: 'sin no ni limpio limpia desengrasado desengrasada',
    oil: 'engrasado engrasada engrasados engrasadas aceitar lubricado lubricada lubricar lubricante lubricación',
    grease:
      'engrasado engrasada engrasados engrasadas engrasar lubricado lubricada lubricar lubricante lubricación',
    paste: 'pasta molibdeno grafito grafitada',
    anti_seize: 'cobre cerámica pasta',
    threadlocker: 'fijador sellador',
    zinc_plated: 'cincado zincado galvanizado recubierto',
    wax: 'cera recubierto',
    cast_iron: 'hierro fundición',
    ductile_iron: 'hierro fundición',
    cast_aluminium: 'aluminio aleación ligera fundido fundición',
    cast_aluminium_gravity: 'aluminio aleación ligera fundido fundición',
    cast_aluminium_heat_treated: 'aluminio aleación ligera fundido fundición templado',
    wrought_aluminium: 'aluminio aleación ligera forjado',
    wrought_aluminium_strong: 'aluminio aleación ligera forjado',
    steel: 'inoxidable',
    steel_500: 'acero inoxidable',
    steel_700: 'acero templado',
  },
}
