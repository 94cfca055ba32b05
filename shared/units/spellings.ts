/**
 * How the trade spells its torque units, and how a scanner misreads them.
 *
 * A unit is a force and a lever in either order with some sign between: `lbf·ft`, `ft. lbs.`, `foot-pounds`,
 * `mkg`, `N•m`, `Ib-ft`. Each part is matched on its own, so that pairs nobody listed are known as well.
 * Words of length or force alone are no torque. Whether `N/m` was meant for N·m nobody can know: not read.
 */
import type { TorqueUnit } from './torque'

/** Between the two parts: dots of all kinds, hyphens, a cross, and what scanners make of the dot. */
const JOIN = `[ \\u00A0\\u2009\\u202F]*[.·•⋅∙・･‧ˑ*×»«'’\`´°^~‐‑‒–—−-]?[ \\u00A0\\u2009\\u202F.]*`
/** Feet and pounds are also written with a slash. */
const SLASH = `(?:${JOIN}|[ .]*/[ ]*)`

const POUND =
  '(?:[lI1|]b(?:s?\\.?[ -]?f(?:orce)?|s)?|pounds?(?:[ -]?force)?|libras?(?:[ -]fuerza)?|livres?|libbr[ae])'
const FOOT = '(?:ft|feet|foot|pies?|pieds?|pied[ei])'
const INCH = '(?:in(?:ch(?:es)?)?|pulgadas?|pouces?|pollic[ei])'
const OUNCE = '(?:ozf?|ounces?(?:[ -]force)?)'
const KILO = '(?:kgs?[ -]?f?|kp|kilograms?(?:[ -]force)?|kiloponds?|кгс?)'
/** Cyrillic letters beside the Latin ones: a scanner, or a Russian keyboard, mixes them. */
const METRE = '(?:m|м|met(?:re|er)s?)'
const CENTI = '(?:cm|см|centimet(?:re|er)s?)'
const NEWTON = '(?:N|Н|newtons?)'
/** Nothing that would make it another word or a power. */
const END = '(?![\\p{L}\\d²³⁻])\\.?'

const either = (force: string, lever: string, join = JOIN) =>
  `(?:${force}\\.?${join}${lever}|${lever}\\.?${join}${force})`

const SPELLINGS: [TorqueUnit, string][] = [
  ['lbf·ft', either(POUND, FOOT, SLASH)],
  ['lbf·in', either(POUND, INCH, SLASH)],
  ['ozf·in', either(OUNCE, INCH, SLASH)],
  ['kgf·cm', either(KILO, CENTI)],
  ['kgf·m', either(KILO, METRE)],
  ['N·mm', `${NEWTON}${JOIN}(?:mm|millimet(?:re|er)s?)`],
  ['cN·m', `(?:${NEWTON}${JOIN}${CENTI}|(?:c|centi)${NEWTON}${JOIN}${METRE})`],
  ['daN·m', `(?:(?:da|deca|deka)${NEWTON}${JOIN}${METRE}|${METRE}${JOIN}da${NEWTON})`],
  ['dN·m', `(?:d|deci)${NEWTON}${JOIN}${METRE}`],
  ['kN·m', `(?:k|kilo)${NEWTON}${JOIN}${METRE}`],
  ['N·m', `(?:${NEWTON}${JOIN}${METRE}|m[.·•⋅-]${NEWTON})`],
]
/** With what letters each can begin: most places of a text begin none, and are left at once. */
const FIRST_LETTERS: Record<TorqueUnit, string> = {
  lbf·ft: 'li1|pf',
  lbf·in: 'li1|p',
  ozf·in: 'oi',
  kgf·cm: 'kcкс',
  kgf·m: 'kmкм',
  N·mm: 'n',
  cN·m: 'ncн',
  daN·m: 'dm',
  dN·m: 'd',
  kN·m: 'k',
  N·m: 'nmнм',
}
const MATCHERS = new Map<string, [TorqueUnit, RegExp][]>()
for (const [unit, spelling] of SPELLINGS) {
  const matcher = new RegExp(spelling + END, 'iuy')
  for (const letter of FIRST_LETTERS[unit])
    for (const first of new Set([letter, letter.toUpperCase()]))
      MATCHERS.set(first, [...(MATCHERS.get(first) ?? []), [unit, matcher]])
}

/** Milli and mega differ by a capital only, which a scanner or a shouting heading loses: only `m` is known. */
const MILLI = new RegExp(`m(?:illi)?(?:N|newtons?)${JOIN}(?:m|met(?:re|er)s?)${END}`, 'uy')

/** The torque unit spelt at `at`, the longest that fits, and where the text goes on. */
export function unitAt(text: string, at: number): { unit: TorqueUnit; end: number } | undefined {
  const matchers = MATCHERS.get(text[at] ?? '')
  if (!matchers) return undefined
  if (text[at] === 'm') {
    MILLI.lastIndex = at
    const milli = MILLI.exec(text)
    if (milli) return { unit: 'N·mm', end: at + milli[0].length }
  }
  let longest: { unit: TorqueUnit; end: number } | undefined
  for (const [unit, matcher] of matchers) {
    matcher.lastIndex = at
    const end = at + (matcher.exec(text)?.[0].length ?? 0)
    if (end > at && end > (longest?.end ?? at)) longest = { unit, end }
  }
  return longest
}

/** The unit a text names and nothing else: `ft. lbs.`, `(N·m)`. */
export function unitNamed(text: string): TorqueUnit | undefined {
  const bare = text.trim().replace(/^[([{]\s*|\s*[)\]}]$/g, '')
  const unit = unitAt(bare, 0)
  return unit && bare.slice(unit.end).trim() === '' ? unit.unit : undefined
}

/** Pounds, feet and inches: printed with a decimal point, whoever prints them. */
export function isCustomary(unit: TorqueUnit): boolean {
  return unit === 'lbf·ft' || unit === 'lbf·in' || unit === 'ozf·in'
}
