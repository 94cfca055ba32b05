/**
 * What a browser, a scanner or a page layout leaves in a copied text, put back as a keyboard would have it.
 *
 * Only what can mean one thing: `&plusmn;` is ±, a soft hyphen in a unit is nothing. A soft hyphen between two
 * figures may have been a dash and stays, so that it is refused: 39 and 49 with one between never become 3949.
 */
import { plainDigits } from '../units'

const NAMED: Record<string, string> = {
  plusmn: '±',
  deg: '°',
  middot: '·',
  sdot: '⋅',
  bull: '•',
  times: '×',
  nbsp: '\u00A0',
  thinsp: '\u2009',
  minus: '−',
  ndash: '–',
  mdash: '—',
  hellip: '…',
  frac14: '¼',
  frac12: '½',
  frac34: '¾',
  le: '≤',
  ge: '≥',
  shy: '\u00AD',
}
const ENTITY = /&(?:([a-z]{2,6}\d{0,2})|#(\d{2,5})|#x([0-9a-f]{2,4}));/gi

const SOFT_HYPHEN = /(?<!\d)\u00AD|\u00AD(?!\d)/g

/** Dots or lines that lead from a name to its value. */
const LEADER = /(?<=[\p{L})\]”"] ?)(?:(?:[.·_] ?){4,}|…{2,}|[-–—_]{3,})/gu

/** A gap that parts nothing but words; between two figures one no-break space may part thousands. */
const WIDE_GAP = /[ \u00A0]{2,}|(?<!\d)\u00A0|\u00A0(?!\d)/g

/** A text that stands in brackets as a whole, without them. */
function unwrapped(text: string): string {
  const inner = /^\s*\((.+)\)\s*$/s.exec(text)?.[1]
  return inner === undefined || /^[^(]*\)/.test(inner) ? text : inner
}

/** The text with plain digits, HTML’s names for signs as those signs, and no soft hyphens outside of figures. */
export function asTyped(text: string): string {
  const named = text.replace(ENTITY, (whole, name?: string, decimal?: string, hex?: string) => {
    if (name) return Object.hasOwn(NAMED, name) ? (NAMED[name] ?? whole) : whole
    return String.fromCharCode(decimal ? Number(decimal) : Number.parseInt(hex ?? '', 16))
  })
  return unwrapped(plainDigits(named).replace(SOFT_HYPHEN, '').replace(LEADER, ' : ').replace(WIDE_GAP, ' '))
}
