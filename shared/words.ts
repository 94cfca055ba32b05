/** What a sentence needs from outside: people's names, and times and numbers as this place writes them. */
import type { Instant } from './log'
import type { TorqueUnit } from './units/torque'

/** Numbers as this place writes them; `shared/format` has them. */
export interface Figures {
  /** At most so many decimals, without trailing zeros; three unless told. */
  number(value: number, decimals?: number): string
  /** Without its unit; `beside` are the torques in N·m it must read differently from. */
  torque(nm: number, unit: TorqueUnit, beside?: readonly number[]): string
  /** Digits that were written with a point, such as limits with all their decimals; also within a text, whose full stops stay. */
  digits(text: string): string
  /** `50 min`, `2 h`, `1 h 25 min`. */
  duration(minutes: number): string
}

/** A number as it was entered or as a table gives it, with all its decimals; also one beyond all measure. */
export const exact = (value: number, { digits }: Pick<Figures, 'digits'>): string =>
  digits(`${Number(value.toPrecision(12))}`)

export interface Words extends Figures {
  /** A person's name, or the id where nobody by that id is known. */
  person(id: string): string
  /** A moment, as short as it can be said today: `13:40`, `24 Nov 13:40`. */
  moment(at: Instant): string
  /** A day as a date: `16 Dec 2026`. */
  date(day: string): string
}

/** `a`, `a and b`, `a, b and c`; with `or` for a choice. */
export function listed(items: readonly string[], joined: 'and' | 'or' = 'and'): string {
  if (items.length < 2) return items.join('')
  return `${items.slice(0, -1).join(', ')} ${joined} ${items.at(-1)}`
}

/** `1 step`, `2 steps`; a plural of its own is named. */
export const counted = (count: number, noun: string, plural = `${noun}s`): string =>
  `${count} ${nounFor(count, noun, plural)}`

/** `step` of one, `steps` of any other number, where the number stands apart. */
export const nounFor = (count: number, noun: string, plural = `${noun}s`): string =>
  count === 1 ? noun : plural

/** What people wrote, as the end of a sentence: with one mark at its end, theirs where they set one. */
export function ended(text: string): string {
  const trimmed = text.trim()
  return /[.!?…][”’"')\]]*$/.test(trimmed) ? trimmed : `${trimmed}.`
}

/** The same, where the sentence goes on behind it: without its full stop. */
export const unended = (text: string): string => text.trim().replace(/(?<!\.)\.$/, '')

/** As a sentence or a heading begins. */
export const upperFirst = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** As a title goes on within a sentence; one that begins with an abbreviation keeps its capitals. */
export const lowerFirst = (text: string): string =>
  /^[A-Z](?:[a-z]|$| )/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text

/** `nut 3`, `nuts 1–3, 5`: fasteners by their own noun and the numbers of the bolt map. */
export const fastenersInWords = (noun: string, positions: readonly number[]): string =>
  `${nounFor(positions.length, noun)} ${positionsInWords(positions)}`

/** `1, 2, 3, 5` as `1–3, 5`: positions as the bench says them. */
export function positionsInWords(positions: readonly number[]): string {
  const sorted = [...new Set(positions)].sort((a, b) => a - b)
  const runs: [number, number][] = []
  for (const n of sorted) {
    const last = runs.at(-1)
    if (last && n === last[1] + 1) last[1] = n
    else runs.push([n, n])
  }
  return runs.map(([from, to]) => (from === to ? `${from}` : `${from}–${to}`)).join(', ')
}
