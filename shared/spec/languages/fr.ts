import type { Language } from './language'

/** French. */
export const french: Language = {
  words: {
    next: 'puis|ensuite|et puis|après quoi|suivi de|suivi par',
    plus: 'et encore|plus',
    and: 'et',
    or: 'ou|ou bien|soit',
    a: 'à',
    between: 'entre',
    filler:
      'serrer|serrer à|serrage|serrage à|serrage angulaire|serrage angulaire de|serrage au couple|serrer de|resserrer|resserrer à|' +
      'serrer au couple de|au couple de|couple|couple de|couple de serrage|couple de serrage de|couples de serrage|préserrage|préserrage à|' +
      "pré-serrage|tourner de|tourner|angle|angle de|au|de|d'|d'un|d'une|un|une|le|la|encore|supplémentaire|supplémentaires|valeur|" +
      "à l'angle|un angle de|resserrer au couple de|en croix|à nouveau",
    min: 'mini|minimum|au moins|au minimum|mini.',
    max: "maxi|maxi.|au plus|maximum|au maximum|jusqu'à",
    limit: 'ne pas dépasser|sans dépasser|pas plus de',
    about: 'environ|env|env.',
    slacken: 'desserrer|desserrer de|desserrage|desserrage de|dévisser|dévisser de|relâcher|débloquer',
    fully: 'complètement|totalement|entièrement',
    thing:
      'vis|écrou|écrous|boulon|boulons|goujon|goujons|bouchon|bouchons|chapeau|chapeaux|chaque|toutes|tous|pièces|pcs|chacune|chacun',
    reference:
      'page|pages|fig|fig.|figure|figures|repère|rep|rep.|repères|n°|nº|numéro|tableau|ligne|voir|position|planche|section|note|classe|clé de|clé',
    condition:
      'sec|sèche|à sec|huilé|huilée|huilées|huilés|graissé|graissée|neuf|neufs|neuve|neuves|usagé|usagés|usagée|réutilisé|réutilisés|' +
      'réutilisée|réutilisées|ancien|anciens|anciennes|chaud|froid|à chaud|à froid|acier|aluminium|alu|fonte|laiton|sans|' +
      'longue|longues|courte|courtes|intérieur|extérieur',
    change:
      'si|sauf|sinon|auparavant|anciennement|au lieu|respectivement|augmenter|réduire|diminuer|excepté|trop|erroné',
    later: 'après|heures|plus tard|rodage',
    kind:
      'décollement|couple de décollement|couple de frottement|couple de rotation|couple résiduel|couple de roulement|couple moteur|' +
      'tr/min|puissance|plage|gamme|rupture|précharge|couple de freinage|couple de desserrage|couple maxi du moteur',
    check: 'contrôler|contrôle|vérifier|vérification|couple de contrôle',
    not: 'pas|ne|non|jamais|aucun|aucune',
    harmless: 'ne pas trop serrer|ne pas graisser|ne pas huiler|ne pas réutiliser|ne pas forcer',
    seat: "à la main|au contact|jusqu'au contact|en contact|serrer à la main|approcher",
  },
  degrees: 'degré|degrés',
  turn: 'tour|tours|de tour',
  amounts: {
    quart: 1 / 4,
    'un quart': 1 / 4,
    'un quart de': 1 / 4,
    demi: 1 / 2,
    'un demi': 1 / 2,
    tiers: 1 / 3,
    'un tiers': 1 / 3,
    'un tiers de': 1 / 3,
    'deux tiers de': 2 / 3,
    'trois quarts de': 3 / 4,
    'un sixième de': 1 / 6,
    "d'un quart de": 1 / 4,
    "d'un tiers de": 1 / 3,
    "d'un sixième de": 1 / 6,
    "d'un": 1,
    un: 1,
    deux: 2,
  },
  turned: {
    'demi-tour': 1 / 2,
    'demi tour': 1 / 2,
    'un demi-tour': 1 / 2,
    "d'un demi-tour": 1 / 2,
    'quart-de-tour': 1 / 4,
  },
  stage: 'phase|étape|passe|stade|temps|passage',
  act: 'serrage',
  before: 'préserrage|préserrage à|pré-serrage',
  dated: "à partir de|depuis|depuis l'année|jusqu'en|jusqu'à|dès",
  suffix: 're|ère|er|ème|eme|nde',
  suffixBesideStage: 'e|è|°|º',
  ordinals: ['premier|première', 'deuxième|second|seconde', 'troisième', 'quatrième', 'cinquième'],
  times: { 'deux fois': 2, 'trois fois': 3 },
  counts: ['un', 'deux', 'trois', 'quatre', 'cinq', 'six'],
  unnumbered: 'enfin|finalement|serrage final|pour finir|serrage définitif',
  staged: { before: 'en', stages: 'étapes|phases|passes|temps|fois' },
}
