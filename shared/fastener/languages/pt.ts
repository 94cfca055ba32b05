import type { VocabularyWords } from './language'

/** Portuguese, of Portugal and Brazil. */
export const portuguese: VocabularyWords = {
  lubrication: {
    dry: 'seco|seca|secos|secas|a seco|limpo e seco|limpos e secos|rosca seca|roscas secas',
    oil:
      'óleo|óleo de motor|óleo do motor|com óleo|com óleo de motor|com óleo do motor|oleado|oleada|oleados|oleadas|' +
      'lubrificado com óleo|lubrificado com óleo de motor|rosca oleada|roscas oleadas',
    grease:
      'graxa|massa lubrificante|com graxa|com massa lubrificante|graxa de lítio|massa de lítio|lubrificado com graxa',
    paste:
      'pasta MoS2|pasta de MoS2|bissulfeto de molibdênio|dissulfeto de molibdênio|bissulfureto de molibdénio|' +
      'dissulfureto de molibdénio|pasta de grafite',
    anti_seize: 'pasta de cobre|massa de cobre|graxa de cobre|antigripante|pasta antigripante|pasta cerâmica',
    threadlocker: 'trava-rosca|trava-roscas|fixador de roscas',
    zinc_plated: 'zincado eletrolítico|zincado electrolítico',
    wax: 'encerado|encerada|encerados',
  },
  material: {
    cast_iron: 'ferro fundido|ferro fundido cinzento',
    ductile_iron: 'ferro fundido nodular|ferro fundido dúctil|ferro nodular|ferro dúctil',
    cast_aluminium: 'alumínio injetado|alumínio fundido sob pressão',
    cast_aluminium_gravity: 'alumínio fundido em areia|alumínio fundido por gravidade',
    steel: 'aço|aço estrutural',
    bronze: 'bronze fundido',
  },
  hints: {
    dry: 'sem não nem limpo desengordurado',
    oil: 'olear lubrificado lubrificar lubrificante lubrificação',
    grease: 'massa lubrificado lubrificar lubrificante lubrificação',
    paste: 'pasta molibdénio molibdênio grafite',
    anti_seize: 'cobre cerâmica pasta',
    threadlocker: 'trava fixador',
    zinc_plated: 'zincado galvanizado revestido',
    wax: 'cera revestido',
    cast_iron: 'ferro fundição',
    ductile_iron: 'ferro fundição',
    cast_aluminium: 'alumínio liga leve fundido',
    cast_aluminium_gravity: 'alumínio liga leve fundido',
    cast_aluminium_heat_treated: 'alumínio liga leve fundido',
    wrought_aluminium: 'alumínio liga leve forjado',
    wrought_aluminium_strong: 'alumínio liga leve forjado',
    steel: 'inoxidável',
    steel_500: 'aço inoxidável',
    steel_700: 'aço temperado',
  },
}
