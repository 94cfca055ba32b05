import type { Language } from './language'

/** Dutch. */
export const dutch: Language = {
  verbLast: true,
  words: {
    next: 'daarna|vervolgens|en daarna|en vervolgens|gevolgd door|daarna nog|vervolgens nog',
    plus: 'plus',
    and: 'en',
    or: 'ofwel|oftewel',
    to: 'tot',
    between: 'tussen|van',
    filler:
      'aandraaien|aandraaien met|aandraaien tot|vastdraaien|vastdraaien met|vastdraaien tot|aanhalen|aanhalen met|aanhalen tot|vastzetten|' +
      'vastzetten met|natrekken|natrekken met|natrekken tot|opnieuw|opnieuw aandraaien met|verdraaien|doordraaien|verder draaien|' +
      'nog verder draaien|verder|nog|nogmaals|met|een|over|aanhaalmoment|aandraaimoment|aantrekkoppel|aanhaalkoppel|aandraaikoppel|koppel|' +
      'draaimoment|moment|moment van|aanhaalmoment van|aandraaimoment van|hoek|aandraaihoek|hoekverdraaiing|waarde|graden verder',
    min: 'minimaal|minstens|ten minste|tenminste',
    max: 'maximaal|hoogstens|ten hoogste',
    limit: 'niet meer dan|niet hoger dan|niet overschrijden|mag niet overschrijden',
    about: 'ongeveer',
    slacken: 'losdraaien|lossen|losmaken|terugdraaien|weer losdraaien|loshalen',
    fully: 'volledig|geheel|helemaal',
    thing:
      'bout|bouten|moer|moeren|schroef|schroeven|tapeind|tapeinden|stuks|alle|elk|elke|per|deksel|cilinder|cilinders|plug|bougie|bougies',
    reference:
      'bladzijde|blz|blz.|pagina|afb|afb.|afbeelding|figuur|positie|tabel|regel|zie|sleutelwijdte|punt|klasse|kwaliteit|hoofdstuk',
    condition:
      'droog|droge|geolied|geoliede|ingevet|olie|nieuw|nieuwe|gebruikt|gebruikte|oude|warme|koud|koude|staal|aluminium|gietijzer|zonder|' +
      'lange|korte|binnenste|buitenste',
    change:
      'als|indien|behalve|anders|voorheen|vroeger|in plaats van|respectievelijk|verhogen|verlagen|verminderen|te veel|fout|vervallen|ongeldig',
    later: 'uur|inlopen|later|na',
    kind:
      'losbreekmoment|losbreekkoppel|wrijvingsmoment|loopmoment|restmoment|toerental|vermogen|meetbereik|bereik|breukmoment|voorspanning|' +
      'motorkoppel|rolweerstand|losdraaimoment|omw/min|t/min|draaiweerstand',
    check: 'controleren|controle|controlemoment|nakijken|controlewaarde',
    not: 'niet|geen|nooit',
    harmless:
      'niet te vast aandraaien|niet smeren|niet oliën|niet invetten|niet hergebruiken|niet opnieuw gebruiken',
    seat: 'handvast|met de hand|vingervast|handvast aandraaien|tot aanslag',
  },
  orBetween: 'of',
  degrees: 'graad|graden',
  turn: 'omwenteling|omwentelingen|slag|slagen|draai',
  amounts: {
    kwart: 1 / 4,
    'een kwart': 1 / 4,
    halve: 1 / 2,
    'een halve': 1 / 2,
    'een derde': 1 / 3,
    'twee derde': 2 / 3,
    driekwart: 3 / 4,
    'een hele': 1,
    één: 1,
    twee: 2,
  },
  turned: { kwartslag: 1 / 4, 'een kwartslag': 1 / 4 },
  stage: 'stap|fase|trap|ronde|gang',
  act: 'aanhalen|aandraaien',
  suffix: 'ste|de',
  suffixBesideStage: 'e',
  ordinals: ['eerste|eerst', 'tweede', 'derde', 'vierde', 'vijfde'],
  counts: ['een|één', 'twee', 'drie', 'vier', 'vijf', 'zes'],
  unnumbered: 'ten slotte|tenslotte|tot slot|als laatste',
  staged: { before: 'in', stages: 'stappen|fasen|fases|trappen|ronden|rondes' },
}
