import type { Language } from './language'

/** Portuguese, of Portugal and Brazil. */
export const portuguese: Language = {
  words: {
    next: 'depois|e depois|em seguida|e em seguida|a seguir|então|seguido de|posteriormente',
    plus: 'mais|e mais',
    and: 'e',
    or: 'ou|ou então',
    to: 'até',
    between: 'entre',
    filler:
      'apertar|apertar a|apertar com|apertar até|aperte|aperte a|aperte com|aperto|aperto a|aperto angular|aperto angular de|binário|binário de|' +
      'binário de aperto|par de aperto|torque de aperto|torque|torque de|momento de aperto|torquear|torquear a|reapertar|reapertar a|girar|girar mais|' +
      'rodar|rodar mais|com|um|uma|de|outros|outro|outra|adicional|adicionais|ângulo|ângulo de|ao binário de|valor|dar|novamente|voltar a apertar|' +
      'voltar a apertar a',
    min: 'mínimo|mín|mín.|no mínimo|pelo menos',
    max: 'máximo|máx|máx.|no máximo',
    limit: 'não exceder|não ultrapassar|não mais de|sem exceder',
    about: 'aprox|aprox.|aproximadamente|cerca de',
    slacken: 'desapertar|afrouxar|soltar|aliviar|desaparafusar',
    fully: 'completamente|totalmente|por completo',
    thing:
      'parafuso|parafusos|porca|porcas|prisioneiro|prisioneiros|bujão|bujões|unid|unid.|unidades|peças|cada|todos|todas|vela|velas|tampa',
    reference:
      'página|páginas|pág|pág.|figura|fig.|posição|n.º|nº|tabela|linha|ver|nota|ponto|classe|chave|item',
    condition:
      'seco|seca|secos|secas|a seco|oleado|oleados|óleo|lubrificado|lubrificados|novo|novos|nova|novas|usado|usados|usada|usadas|velho|velhos|' +
      'quente|frio|a quente|a frio|aço|alumínio|ferro|sem|longo|longos|comprido|compridos|curto|curtos',
    change:
      'se|salvo|exceto|excepto|caso contrário|anteriormente|em vez de|respetivamente|respectivamente|aumentar|reduzir|demasiado|incorreto|anulado|cancelado',
    later: 'após|horas|mais tarde|depois de|rodagem',
    kind:
      'binário de atrito|binário de rotação|binário residual|binário do motor|torque do motor|torque residual|torque de atrito|binário de arranque|' +
      'binário de desaperto|potência|gama|faixa|rotura|ruptura|pré-carga|torque de rotação|torque de arranque|torque de desaperto',
    check:
      'verificar|verificação|controlar|controlo|inspecionar|torque de verificação|binário de verificação',
    not: 'não|nunca|nenhum|nem',
    harmless:
      'não apertar em excesso|não apertar demasiado|não lubrificar|não reutilizar|não olear|não reaproveitar',
    seat: 'à mão|apertar à mão|com a mão|até encostar|manualmente',
  },
  degrees: 'grau|graus',
  turn: 'volta|voltas|de volta',
  amounts: {
    'um quarto de': 1 / 4,
    'um quarto': 1 / 4,
    'quarto de': 1 / 4,
    meia: 1 / 2,
    'um terço de': 1 / 3,
    'um terço': 1 / 3,
    'dois terços de': 2 / 3,
    'três quartos de': 3 / 4,
    'um sexto de': 1 / 6,
    uma: 1,
    duas: 2,
  },
  stage: 'etapa|fase|passo|passagem|estágio',
  act: 'aperto|volta',
  suffixBesideStage: '\\.?[ºª°]|o|a',
  ordinals: ['primeiro|primeira', 'segundo|segunda', 'terceiro|terceira', 'quarto aperto|quarta'],
  counts: ['um|uma', 'dois|duas', 'três', 'quatro', 'cinco', 'seis'],
  unnumbered: 'finalmente|por fim|aperto final|por último',
  staged: { before: 'em', stages: 'etapas|fases|passos|passagens' },
}
