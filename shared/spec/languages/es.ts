import type { Language } from './language'

/** Spanish. */
export const spanish: Language = {
  words: {
    next: 'luego|después|y luego|y después|a continuación|seguido de',
    plus: 'más|y otros',
    and: 'y',
    or: 'o|u|o bien',
    to: 'hasta',
    between: 'entre|desde',
    filler:
      'apretar|apretar a|apriete|apriete a|apriete angular|apriete angular de|par de apriete|par de apriete de|par|par de|reapretar|' +
      'reapretar a|girar|girar otros|con|un|una|de|del|otros|otro|otra|adicional|adicionales|ángulo|ángulo de|al par de|valor|' +
      'momento de apriete|torque de apriete|dar|volver a apretar a|volver a apretar|y girar|y apretar|en cruz',
    min: 'mínimo|mín|mín.|al menos|como mínimo|no menos de',
    max: 'máximo|máx|máx.|como máximo',
    limit: 'no más de|no exceder|no superar|sin exceder|no sobrepasar',
    about: 'aprox|aprox.|aproximadamente|unos',
    slacken: 'aflojar|aflojar de|desapretar|soltar|desenroscar|aflojar un|aflojar una',
    fully: 'completamente|totalmente|del todo|por completo',
    thing:
      'tornillo|tornillos|tuerca|tuercas|perno|pernos|espárrago|espárragos|tapón|uds|uds.|unidades|cada|todos|piezas',
    reference:
      'página|páginas|pág|pág.|figura|figuras|fig.|posición|n.º|nº|núm.|tabla|línea|ver|véase|nota|punto|clase|llave|pieza',
    condition:
      'seco|seca|en seco|aceitado|aceitados|aceitada|lubricado|engrasado|nuevo|nuevos|nueva|nuevas|usado|usados|usada|usadas|' +
      'reutilizado|reutilizados|viejo|viejos|caliente|frío|en caliente|en frío|acero|aluminio|hierro|sin|largo|largos|corto|cortos',
    change:
      'si|salvo|excepto|anteriormente|en lugar de|aumentar|reducir|respectivamente|de lo contrario|demasiado|incorrecto',
    later: 'tras|horas|más tarde|después de|rodaje',
    kind:
      'par de arranque|par de giro|par de rotación|par de rozamiento|par de fricción|par resistente|par motor|potencia|gama|rango|' +
      'rotura|precarga|par máximo del motor|par residual|par de frenado|rodadura|par de rodadura|par de despegue|par de aflojamiento',
    check: 'comprobar|comprobación|verificar|verificación|controlar|revisar|par de control',
    not: 'no|nunca|ningún|ninguna|ni',
    harmless:
      'no apretar en exceso|no apretar demasiado|no engrasar|no lubricar|no reutilizar|no aceitar|no forzar',
    seat: 'a mano|apretar a mano|con la mano|hasta hacer contacto|a tope|hasta el tope',
  },
  degrees: 'grado|grados',
  turn: 'vuelta|vueltas|giro|giros|de vuelta',
  amounts: {
    cuarto: 1 / 4,
    'un cuarto': 1 / 4,
    'un cuarto de': 1 / 4,
    'cuarto de': 1 / 4,
    media: 1 / 2,
    medio: 1 / 2,
    tercio: 1 / 3,
    'un tercio': 1 / 3,
    'un tercio de': 1 / 3,
    'dos tercios de': 2 / 3,
    'tres cuartos de': 3 / 4,
    'un sexto de': 1 / 6,
    'un sexto': 1 / 6,
    una: 1,
    dos: 2,
  },
  stage: 'fase|paso|etapa|pasada',
  act: 'apriete|vuelta',
  dated: 'desde|hasta|a partir de|desde el año|hasta el año',
  suffixBesideStage: '\\.?[ºª°]|\\.?er|ro|do|a|o',
  ordinals: ['primero|primer|primera', 'segundo|segunda', 'tercero|tercer|tercera', 'cuarto paso|cuarta'],
  times: { 'dos veces': 2, 'tres veces': 3 },
  counts: ['uno', 'dos', 'tres', 'cuatro', 'cinco', 'seis'],
  unnumbered: 'finalmente|por último|apriete final',
  staged: { before: 'en', stages: 'etapas|fases|pasos|pasadas|vueltas' },
}
