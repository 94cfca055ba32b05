/**
 * How fasteners are called in six languages: what a line of a sheet is about.
 *
 * Data, not code: another language is another entry. Common usage of the trade, from memory, no source.
 */
import type { Joint } from '../plan/types'
import { headingPattern, type Language, plainHeading, type Words } from './vocabulary'

const FASTENERS: readonly [Joint['fastener'], Words][] = [
  [
    'nut',
    {
      en: 'nut|nuts',
      de: '*mutter|*muttern',
      fr: 'ecrou|ecrous',
      es: 'tuerca|tuercas',
      it: 'dado|dadi',
      sv: '*mutter|*muttrar',
    },
  ],
  [
    'stud',
    {
      en: 'stud|studs',
      de: '*stehbolzen',
      fr: 'goujon|goujons',
      es: 'esparrago|esparragos',
      it: 'prigioniero|prigionieri',
      sv: 'pinnskruv*',
    },
  ],
  [
    'plug',
    {
      en: 'plugs|plug|drain bolts|drain bolt',
      de: '*stopfen|verschlussschraube|*ablassschraube|*kerze|*kerzen',
      fr: 'bouchon|bouchons|bougie|bougies|vis de vidange',
      es: 'tapon|tapones|bujia|bujias|calentador|calentadores',
      it: 'tappo|tappi|vite tappo|candela|candele|candeletta|candelette',
      sv: '*plugg|*pluggar|*tandstift|*glodstift',
    },
  ],
  [
    'union',
    {
      en: 'union bolts|union bolt|unions|union|banjo bolts|banjo bolt|banjo',
      de: 'hohlschraube*|*uberwurf*',
      fr: 'raccord|raccords|vis creuse|vis banjo',
      es: 'racor',
      it: 'raccordo|vite cava',
      sv: 'banjoskruv',
    },
  ],
  [
    'sender',
    {
      en: 'sender*|sensor*|switch*|probe|probes',
      de: '*geber|*schalter|*sonde|*sensor|*fuhler',
      fr: 'sonde|sondes|capteur|capteurs|*contact',
      es: 'sensor|sensores|sonda|sondas|interruptor',
      it: 'sensore|sensori|sonda|sonde|interruttore',
      sv: '*givare|*sensor|*kontakt|*sond',
    },
  ],
  [
    'injector',
    {
      en: 'injector|injectors',
      de: '*duse|*dusen',
      fr: 'injecteur|injecteurs',
      es: 'inyector|inyectores',
      it: 'iniettore|iniettori',
      sv: 'insprutare',
    },
  ],
  // Last: what ends alike is the more special, as a `Verschlussschraube` is a plug.
  [
    'bolt',
    {
      en: 'bolt|bolts|screw|screws|capscrew|capscrews|setscrew|setscrews',
      de: '*schraube|*schrauben|*bolzen',
      fr: 'vis|boulon|boulons',
      es: 'tornillo|tornillos|perno|pernos',
      it: 'vite|viti|bullone|bulloni',
      sv: '*skruv|*skruvar|*bult|*bultar',
    },
  ],
]
/** Languages that name the thing first and what it belongs to behind it: `vis de bougie`; the others end with it: `spark plug cover bolts`. */
const THING_FIRST = ['fr', 'es', 'it'] as const
/** What stands in no text. */
const NOTHING = '\uFFFF'
const patternsOf = (languages: readonly Language[]) =>
  FASTENERS.map(([fastener, words]) => ({
    fastener,
    pattern: new RegExp(
      headingPattern(Object.fromEntries(languages.map((language) => [language, words[language] ?? NOTHING])))
        .source,
      'gu',
    ),
  }))
const FIRST_NAMED = patternsOf(THING_FIRST)
const LAST_NAMED = patternsOf(['en', 'de', 'sv'])

const named = new Map<string, Joint['fastener']>()
const MOST_NAMED = 2000

/** What an item is called, else a bolt. Where a line names two, the one it is about. */
export function fastenerOf(item: string): Joint['fastener'] {
  const known = named.get(item)
  if (known) return known
  if (named.size >= MOST_NAMED) named.clear()
  const found = fastenerNamed(plainHeading(item))
  named.set(item, found)
  return found
}

function fastenerNamed(plain: string): Joint['fastener'] {
  const all = (patterns: typeof FIRST_NAMED) =>
    patterns.flatMap(({ fastener, pattern }) =>
      [...plain.matchAll(pattern)].map(({ index, 0: { length } }) => ({
        fastener,
        index,
        end: index + length,
      })),
    )
  const [first] = all(FIRST_NAMED).sort((a, b) => a.index - b.index)
  const [last] = all(LAST_NAMED).sort((a, b) => b.end - a.end)
  return first?.fastener ?? last?.fastener ?? 'bolt'
}
