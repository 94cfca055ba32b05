import type { Language } from './language'

/** German. */
export const german: Language = {
  verbLast: true,
  words: {
    next: 'dann|danach|anschließend|anschliessend|und dann|darauf|hierauf|sodann',
    plus: 'und weitere|zuzüglich|plus',
    and: 'und',
    or: 'oder|bzw|bzw.|beziehungsweise',
    to: 'bis',
    between: 'von|zwischen',
    filler:
      'anziehen|anziehen mit|anziehen auf|festziehen|festziehen mit|nachziehen|nachziehen mit|weiterdrehen|weiterdrehen um|' +
      'vorziehen|vorziehen mit|voranziehen|fertig anziehen|mit|auf|um|eine|einer|einen|ein|weitere|weiteren|weiterer|weiter|noch|' +
      'anzugsdrehmoment|anziehdrehmoment|anzugsmoment|anziehmoment|drehmoment|drehwinkel|winkel|weiterdrehwinkel|' +
      'vorgeschriebenes anzugsdrehmoment|sollwert|wert|md|ma|anzug|anzugswert|drehmomente|erneut|erneut mit|erneut anziehen mit|wieder|wieder mit|wieder anziehen mit|über kreuz|kreuzweise',
    min: 'mind.|mindestens|wenigstens|minimal|nicht unter',
    max: 'höchstens|maximal|bis zu|bis max|bis max.|max. zulässig',
    limit: 'nicht über|nicht mehr als|darf nicht überschreiten|nicht überschreiten',
    about: 'etwa|ungefähr|zirka|rd.|rund',
    slacken:
      'lösen|lösen um|lockern|lockern um|zurückdrehen|zurückdrehen um|losdrehen|abschrauben|wieder lösen|entspannen',
    fully: 'ganz|vollständig|völlig|komplett',
    thing:
      'schraube|schrauben|mutter|muttern|bolzen|stiftschraube|stiftschrauben|stück|stk|stk.|st.|je|alle|deckel|lager|zylinder|' +
      'verschraubung|gewinde',
    reference:
      'seite|seiten|s.|bild|bilder|abb|abb.|abbildung|pos|pos.|position|positionen|nr|nr.|nummer|tabelle|tab.|zeile|punkt|teil|' +
      'teil-nr.|teile-nr.|abschnitt|kapitel|fig.|sw|schlüsselweite|festigkeitsklasse|güte|ziffer|motor-nr.|ab nr.|bis nr.',
    condition:
      'trocken|geölt|ölen|gefettet|fetten|neu|neue|neuen|gebraucht|gebrauchte|gebrauchten|alt|alte|alten|warm|kalt|heiß|heiss|' +
      'verzinkt|stahl|aluminium|alu|guss|messing|ohne|lang|lange|kurz|kurze|innen|außen|oben|unten|vorn|hinten',
    change:
      'storniert|gestrichen|wenn|falls|sonst|andernfalls|außer|ausser|früher|bisher|statt|anstatt|stattdessen|entfällt|ungültig|' +
      'erhöhen|verringern|vermindern|abzüglich|doppelt|je nach|entweder|zu viel|zu hoch|falsch|fehler',
    later: 'nach|stunden|std|std.|betriebsstunden|später',
    kind:
      'losbrechmoment|reibmoment|reibungsmoment|losdrehmoment|laufmoment|leerlaufmoment|durchdrehmoment|klemmmoment|' +
      'lösemoment|lösedrehmoment|schleppmoment|rollmoment|drehwiderstand|vorspannung|motordrehmoment|messbereich|einstellbereich|' +
      'drehmomentbereich|u/min|1/min|leistung|nenndrehmoment|bruchmoment|bruchdrehmoment|selbsthemmung|reibwert|anlaufmoment|max. drehmoment bei',
    check:
      'prüfen|prüfmoment|prüfdrehmoment|nachprüfen|kontrollieren|kontrolle|prüfung|kontrollmoment|prüfwert',
    not: 'nicht|kein|keine|keinen|nie|niemals|weder|keinesfalls',
    harmless:
      'nicht überdrehen|nicht überziehen|nicht ölen|nicht fetten|nicht wiederverwenden|nicht wieder verwenden|nicht zu fest|kein öl',
    seat: 'handfest|von hand|handfest anziehen|anlegen|bis zur anlage|fingerfest',
  },
  degrees: 'grad',
  turn: 'umdrehung|umdrehungen|drehung|drehungen|umdr|umdr.',
  amounts: {
    viertel: 1 / 4,
    'eine viertel': 1 / 4,
    'ein viertel': 1 / 4,
    halbe: 1 / 2,
    'eine halbe': 1 / 2,
    drittel: 1 / 3,
    'eine drittel': 1 / 3,
    'zwei drittel': 2 / 3,
    'eine sechstel': 1 / 6,
    dreiviertel: 3 / 4,
    'drei viertel': 3 / 4,
    'eine ganze': 1,
    ganze: 1,
    zwei: 2,
  },
  turned: {
    vierteldrehung: 1 / 4,
    viertelumdrehung: 1 / 4,
    'halbe-drehung': 1 / 2,
    dritteldrehung: 1 / 3,
    drittelumdrehung: 1 / 3,
    sechsteldrehung: 1 / 6,
    sechstelumdrehung: 1 / 6,
    dreivierteldrehung: 3 / 4,
  },
  stage: 'stufe|durchgang|schritt|anziehstufe|arbeitsgang|anziehdurchgang|phase',
  act: 'anzug',
  before: 'vorziehen|vorziehen mit|voranziehen|voranziehen mit|voranzug',
  dated: 'ab|seit|bis|von|ab baujahr|bis baujahr|ab bj.|bis bj.',
  suffixBesideStage: '\\.|te|ter|tes',
  ordinals: [
    'erste|erster|erstes|erstens|zuerst',
    'zweite|zweiter|zweites|zweitens',
    'dritte|dritter|drittens',
    'vierte|vierter',
  ],
  times: { zweimal: 2, dreimal: 3 },
  counts: ['eins', 'zwei', 'drei', 'vier', 'fünf', 'sechs'],
  unnumbered:
    'zuletzt|abschließend|endanzug|endanziehen|endanziehen mit|voranzug|voranziehen|endgültig|zum schluss',
  staged: { before: 'in', stages: 'stufen|schritten|durchgängen|stufen anziehen' },
}
