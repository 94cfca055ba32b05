import type { Language } from './language'

/** Swedish, with the commonest words of Danish and Norwegian. */
export const swedish: Language = {
  words: {
    next: 'sedan|därefter|och sedan|och därefter|derefter|så|deretter',
    plus: 'samt',
    and: 'och|og',
    or: 'eller|alternativt',
    to: 'till|til',
    between: 'mellan|från|mellem|fra',
    filler:
      'dra|dra till|dra åt|dra åt till|dras|dras med|åtdragning|åtdragningsmoment|moment|vridmoment|momentdra|momentdra till|efterdra|' +
      'efterdra till|vinkeldra|vinkeldra ytterligare|vinkeldragning|ytterligare|vinkel|med|ett|en|grader till|värde|moment av|tilspændingsmoment|tiltrekkingsmoment|drag åt|igen|dra igen|dra igen med|dra igen till|dra åt igen med',
    min: 'minst|lägst|mindst',
    max: 'högst|maximalt|højst',
    limit: 'inte över|ej över|inte mer än|överskrid ej',
    about: 'ca|cirka|ungefär',
    slacken: 'lossa|lossa med|släpp|lossas|skruva loss|backa|løsne',
    fully: 'helt|fullständigt',
    thing:
      'skruv|skruvar|skruvarna|mutter|muttrar|bult|bultar|pinnskruv|pinnskruvar|st|st.|stycken|alla|vardera|per|plugg|kontakt',
    reference:
      'sida|sidan|sid|sid.|bild|bilder|figur|fig.|nr|nr.|nummer|tabell|rad|pos.|läge|se bild|se sida|se sid|se fig|se fig.|punkt|anm.|klass|nyckelvidd|nv|del',
    condition:
      'torr|torra|torrt|oljad|oljade|inoljad|smord|smorda|fettad|ny|nya|nytt|begagnad|begagnade|gammal|gamla|använda|varm|kall|' +
      'stål|aluminium|gjutjärn|mässing|utan|lång|långa|kort|korta|övre|undre',
    change:
      'om|utom|annars|tidigare|förut|istället|i stället|respektive|resp|öka|minska|beroende|för mycket|fel',
    later: 'efter|timmar|tim|inkörning|senare',
    kind:
      'lossbrytningsmoment|lossningsmoment|rullmotstånd|rullmoment|friktionsmoment|släpmoment|varv/min|r/min|motorns vridmoment|' +
      'effekt|område|mätområde|brottmoment|förspänning|rotationsmoment|vridmotstånd|startmoment|låsmoment|motoreffekt',
    check: 'kontrollera|kontroll|kontrollmoment|kontrollmät|verifiera',
    not: 'inte|ej|icke|aldrig|ingen|inga|ikke',
    harmless:
      'dra inte för hårt|överdra inte|överdra ej|olja ej|olja inte|återanvänd inte|återanvänd ej|får ej återanvändas|smörj inte',
    seat: 'för hand|handdra|fingerdra|till anliggning|dra för hand',
  },
  degrees: 'grad|grader',
  turn: 'varv',
  amounts: {
    kvarts: 1 / 4,
    'ett kvarts': 1 / 4,
    'ett fjärdedels': 1 / 4,
    halvt: 1 / 2,
    'ett halvt': 1 / 2,
    tredjedels: 1 / 3,
    'ett tredjedels': 1 / 3,
    'en tredjedels': 1 / 3,
    'två tredjedels': 2 / 3,
    'en sjättedels': 1 / 6,
    trekvarts: 3 / 4,
    'ett trekvarts': 3 / 4,
    ett: 1,
    två: 2,
  },
  stage: 'steg|steget|omgång|omgången|etapp|etappen',
  act: 'åtdragning|åtdragningen|dragning|dragningen',
  dated: 'från|från och med|till och med|till|fr.o.m.|t.o.m.|sedan',
  suffixBesideStage: ':a|:e|:dje|\\.',
  ordinals: ['första', 'andra', 'tredje', 'fjärde', 'femte'],
  counts: ['ett', 'två', 'tre', 'fyra', 'fem', 'sex'],
  unnumbered: 'slutligen|till sist|slutdragning|sluddra',
  staged: { before: 'i', stages: 'steg|omgångar|etapper' },
}
