/**
 * The words of torque sheets by language: what columns are headed, how fasteners are named, what is said of using them again.
 *
 * Data, not code: another language is another entry. Headings are compared without accents, signs and capitals; `*` stands
 * for any letters. Phrases about use are taken whole, for “no new bolts” must not become “new bolts”. Common usage of the
 * trade, from memory, no source.
 */
import { plainPhrase } from '../fastener/vocabulary'
import type { Role, Use } from './types'

export type Language = 'en' | 'de' | 'fr' | 'es' | 'it' | 'sv'
/** Words and phrases, parted by bars. */
export type Words = Partial<Record<Language, string>>

/** `whole`: only where nothing else stands in the heading; `first`: where it begins with it. */
interface Heading {
  role: Role
  where?: 'whole' | 'first'
  words: Words
}

/** In this order: the first that fits. */
const HEADINGS: readonly Heading[] = [
  {
    role: 'bolt_thread',
    words: {
      en: 'thread length|threaded length|length of thread',
      de: 'gewindelange',
      fr: 'longueur filetee|longueur de filetage',
      es: 'longitud roscada|longitud de rosca',
      it: 'lunghezza filettata|lunghezza filetto',
      sv: 'ganglangd',
    },
  },
  {
    role: 'thread_depth',
    words: {
      en: 'thread depth|threaded depth|tapped depth|depth of thread',
      de: 'gewindetiefe',
      fr: 'profondeur filetee|profondeur taraudee|profondeur de filetage',
      es: 'profundidad roscada|profundidad de rosca',
      it: 'profondita filettata|profondita filetto',
      sv: 'gangdjup',
    },
  },
  {
    role: 'hole_depth',
    words: {
      en: 'hole depth|drilled depth|drill depth|bore depth|depth of hole',
      de: 'bohrtiefe|bohrungstiefe|lochtiefe',
      fr: 'profondeur du trou|profondeur de percage',
      es: 'profundidad del agujero|profundidad de taladro',
      it: 'profondita foro|profondita del foro',
      sv: 'haldjup|borrdjup',
    },
  },
  {
    role: 'stack',
    words: {
      en: 'stack|grip|grip length|clamp length|clamped length|clamped thickness',
      de: 'klemmlange|klemmdicke',
      fr: 'longueur serree|epaisseur serree',
      es: 'longitud apretada|espesor apretado',
      it: 'lunghezza serrata|spessore serrato',
      sv: 'klamlangd|klamtjocklek',
    },
  },
  {
    role: 'hole',
    words: {
      en: 'hole material|tapped in|tapped into|threaded into|screwed into|parent material',
      de: 'eingeschraubt in|lochwerkstoff|mutterwerkstoff',
      fr: 'visse dans|matiere du trou',
      es: 'roscado en|material del agujero',
      it: 'avvitato in|materiale del foro',
      sv: 'skruvas i|halmaterial',
    },
  },
  {
    role: 'length',
    words: {
      en: 'length|lengths',
      de: 'lange|schraubenlange|bolzenlange|nennlange',
      fr: 'longueur',
      es: 'longitud|largo',
      it: 'lunghezza',
      sv: 'langd|skruvlangd',
    },
  },
  {
    role: 'min',
    where: 'first',
    words: {
      en: 'min|minimum|low|lower|lowest|from',
      de: 'minimal*|mindest*|von|unter*|kleinst*',
      es: 'desde',
      sv: 'fran|lagst*',
    },
  },
  {
    role: 'max',
    where: 'first',
    words: {
      en: 'max|maximum|high|higher|highest|upper|to',
      de: 'maximal*|hochst*|bis|ober*|grosst*',
      es: 'hasta',
      sv: 'till|hogst*',
    },
  },
  { role: 'min', words: { en: 'min|minimum', fr: 'mini', es: 'minimo', it: 'minima' } },
  { role: 'max', words: { en: 'max|maximum', fr: 'maxi', es: 'maximo', it: 'massima|massimo' } },
  {
    role: 'angle',
    words: {
      en: 'angle|degree|degrees|turn|°',
      de: '*winkel|grad',
      fr: 'degre|degres',
      es: 'angulo|grados',
      it: 'angolo|gradi',
      sv: '*vinkel|grader',
    },
  },
  {
    role: 'position',
    where: 'whole',
    words: {
      en: 'pos|position|item no|item number|line no|ref|ref no|key no|callout',
      de: 'pos nr|lfd nr|positionsnummer|bild nr',
      fr: 'rep|repere|no d ordre',
      es: 'posicion|referencia',
      it: 'posizione|rif',
      sv: 'pos nr|lopnr',
    },
  },
  {
    role: 'count',
    words: {
      en: 'qty|quantity|count|pcs|pieces|number of|no off|how many',
      de: 'anzahl|stuck|stk|menge|stuckzahl',
      fr: 'nombre|nbre|nb|quantite|qte',
      es: 'cantidad|cant|unidades',
      it: 'quantita|q ta|pezzi',
      sv: 'antal',
    },
  },
  { role: 'count', where: 'whole', words: { en: 'no|nos|n|#', de: 'nr', fr: 'n°', it: 'num', sv: 'st' } },
  {
    role: 'unit',
    where: 'whole',
    words: {
      en: 'unit|units|torque unit|torque units|uom',
      de: 'einheit|masseinheit',
      fr: 'unite|unites',
      es: 'unidad',
      it: 'unita',
      sv: 'enhet',
    },
  },
  {
    role: 'lubrication',
    words: {
      en: 'lubrica*|lube|thread treatment|thread condition|condition of thread|condition of threads',
      de: 'schmier*|gewindebehandlung',
      fr: 'lubrifi*|graissage',
      es: 'engrase',
      it: 'lubrifica*|ingrassaggio',
      sv: 'smorj*',
    },
  },
  {
    role: 'grade',
    words: {
      en: 'grade|class|property class|strength class',
      de: 'festigkeit*|gute|schraubengute|klasse',
      fr: 'classe',
      es: 'clase|grado',
      it: 'classe|grado',
      sv: 'hallfasthet*|klass',
    },
  },
  {
    role: 'use',
    words: {
      en: 're use|reus*|replac*|renew*|new bolts|new fasteners|one use',
      de: 'wiederverwend*|ersetz*|erneuer*',
      fr: 'reutilis*|remplac*',
      es: 'reutiliz*|sustitu*|reemplaz*',
      it: 'riutilizz*|sostitu*',
      sv: 'ateranvand*|byt|byts|byte',
    },
  },
  {
    role: 'use',
    where: 'whole',
    words: { en: 'use|new', de: 'neu', fr: 'neuf', es: 'nuevo', it: 'nuovo', sv: 'ny|nya' },
  },
  {
    role: 'group',
    where: 'whole',
    words: {
      en: 'group|step|stage|section|system|assembly|sub assembly|unit group|area',
      de: 'gruppe|baugruppe|schritt|arbeitsschritt|abschnitt',
      fr: 'groupe|etape|ensemble|sous ensemble',
      es: 'grupo|paso|conjunto',
      it: 'gruppo|fase|complessivo',
      sv: 'grupp|steg',
    },
  },
  {
    role: 'thread',
    words: {
      en: 'thread|size|dia|diameter',
      de: 'gewinde*|grosse',
      fr: 'filet*|taille',
      es: 'rosca|medida',
      it: 'filett*|misura',
      sv: 'gang*|dimension',
    },
  },
  {
    role: 'note',
    words: {
      en: 'note|notes|remark|remarks|comment|comments|page|part no|part number',
      de: 'bemerkung*|kommentar*|hinweis*|anmerkung*|teilenummer|teile nr|seite',
      fr: 'remarque*|commentaire*|observation*|note',
      es: 'observaciones|comentario*|nota|notas|pagina',
      it: 'osservazioni|commento|commenti|annotazioni|pagina',
      sv: 'anmarkning*|sida|kommentar*',
    },
  },
  {
    role: 'torque',
    words: {
      en: 'torque|tightening|tighten|setting|value|spec|specs|specification|specifications|moment',
      de: '*moment|*momente|anzug|anziehen',
      fr: 'couple|couples|serrage',
      es: 'par|apriete|torsion',
      it: 'coppia|coppie|serraggio|momento',
      sv: 'atdragning*',
    },
  },
  {
    role: 'item',
    words: {
      en: 'item|fastener|fasteners|part|description|component|location|name|bolt|bolts|nut|nuts|screw|screws|application|where|joint',
      de: 'benennung|bezeichnung|bauteil|teil|*schraube|*schrauben|*verschraubung|*verbindung|*mutter',
      fr: 'designation|piece|vis|ecrou|boulon|emplacement',
      es: 'descripcion|denominacion|pieza|tornillo|tornillos|perno|tuerca|elemento',
      it: 'descrizione|denominazione|particolare|vite|viti|dado|bullone',
      sv: 'benamning|detalj|skruv*|forband',
    },
  },
]

/** One of the words, or a whole heading of them, as `plainHeading` leaves it. */
export function headingPattern(words: Words, where?: Heading['where']): RegExp {
  const any = Object.values(words).join('|').replaceAll('*', '\\p{L}*')
  if (where === 'whole') return new RegExp(`^(?:${any})$`, 'u')
  return new RegExp(`${where === 'first' ? '^' : '(?:^| )'}(?:${any})(?= |$)`, 'u')
}

const COMPILED = HEADINGS.map(({ role, where, words }) => ({ role, pattern: headingPattern(words, where) }))

/** As headings are compared: `Quantité (nº)` is `quantite no`. */
export const plainHeading = (title: string): string =>
  title
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/ß/g, 'ss')
    .replace(/[^\p{L}\p{N}°#]+/gu, ' ')
    .trim()

/** What a heading's words name, whatever the language. */
export function roleNamed(title: string): Role | undefined {
  const plain = plainHeading(title)
  return plain === '' ? undefined : COMPILED.find(({ pattern }) => pattern.test(plain))?.role
}

/** How a cell says pieces: `10 off`, `10 Stück`. */
export const PIECES = 'off|pcs\\.?|nos?\\.?|pieces|st(?:k|ück|\\.)?\\.?|pi[eè]ces|pezzi|pz\\.?|uds?\\.?'

const USE_PHRASES: readonly { use: Use; words: Words }[] = [
  {
    use: 'one_use',
    words: {
      en: 'new|new bolt|new bolts|new nut|new nuts|new screw|new screws|new stud|new studs|new fasteners|use new bolts|use new nuts|use new screws|always use new bolts|new bolts only|fit new|fit new bolts|fit new nuts|replace|replace bolts|replace nuts|replace screws|always replace|must be replaced|replace after use|renew|always renew|one use|single use|use once|use once only|once only|do not reuse|do not re use|not reusable|never reuse|no reuse',
      de: 'neu|neue schrauben|neue muttern|immer neu|neue schrauben verwenden|ersetzen|immer ersetzen|schrauben ersetzen|erneuern|immer erneuern|schrauben erneuern|einmalig|einweg|nur einmal verwenden|nicht wiederverwenden|nicht wiederverwendbar',
      fr: 'neuf|neuve|neufs|neuves|vis neuves|écrous neufs|remplacer|à remplacer|remplacer les vis|usage unique|à usage unique|ne pas réutiliser|non réutilisable',
      es: 'nuevo|nueva|nuevos|nuevas|tornillos nuevos|pernos nuevos|tuercas nuevas|sustituir|reemplazar|un solo uso|no reutilizar|no reutilizable',
      it: 'nuovo|nuova|nuovi|nuove|viti nuove|dadi nuovi|sostituire|da sostituire|monouso|non riutilizzare|non riutilizzabile',
      sv: 'ny|nya|nya skruvar|nya bultar|nya muttrar|byt|byts|byt alltid|engångs|får ej återanvändas|återanvänds ej',
    },
  },
  {
    use: 'reusable',
    words: {
      en: 'reuse|re use|reusable|may be reused|can be reused',
      de: 'wiederverwenden|wiederverwendbar',
      fr: 'réutiliser|réutilisable',
      es: 'reutilizar|reutilizable',
      it: 'riutilizzare|riutilizzabile',
      sv: 'återanvänds|återanvändbar',
    },
  },
]
const USES = new Map(
  USE_PHRASES.flatMap(({ use, words }) =>
    Object.values(words).flatMap((some) =>
      some.split('|').map((phrase): [string, Use] => [plainPhrase(phrase), use]),
    ),
  ),
)
const YES = new Set('yes|y|x|✓|ja|j|oui|o|si|sí|sì|s'.split('|'))
const NO = new Set('no|n|nein|non|nej'.split('|'))

/** What a phrase says of using a fastener again; nothing where it is not one that is known whole. */
export const useNamed = (phrase: string): Use | undefined => USES.get(plainPhrase(phrase))

/** A cell under a heading about use: its phrase, or a yes or no to what the heading asks. */
export function useIn(cell: string, heading: string): Use | undefined {
  const named = useNamed(cell)
  if (named) return named
  const asks = asksAgain(heading)
  const word = cell.trim().toLowerCase()
  if (asks === undefined || (!YES.has(word) && !NO.has(word))) return undefined
  return YES.has(word) === asks ? 'reusable' : 'one_use'
}

/** Of headings that ask for yes or no: is it used again, is it replaced? Negated, or both, they ask neither. */
const AGAIN = headingPattern({
  en: 'reus*|re us*',
  de: 'wiederverwend*',
  fr: 'reutilis*',
  es: 'reutiliz*',
  it: 'riutilizz*',
  sv: 'ateranvand*',
})
const ANEW = headingPattern({
  en: 'new|replac*|renew*|one use',
  de: 'neu|ersetz*|erneuer*',
  fr: 'neuf|neuve|remplac*',
  es: 'nuevo|sustitu*|reemplaz*',
  it: 'nuovo|sostitu*',
  sv: 'ny|nya|byt*',
})
const NOT = headingPattern({ en: 'not|no', de: 'nicht', fr: 'ne|non', it: 'non', sv: 'ej' })

/** Does a heading ask whether they are used again (true), or whether they are replaced (false)? */
function asksAgain(heading: string): boolean | undefined {
  const plain = plainHeading(heading)
  const again = AGAIN.test(plain)
  return NOT.test(plain) || again === ANEW.test(plain) ? undefined : again
}
