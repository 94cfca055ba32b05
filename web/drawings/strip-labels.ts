/**
 * What stands under each stage of a build strip: its whole name where that fits, else as many of its first words as
 * do, else its letter; letters all through where most would be. No stage carries words that another one might.
 */
import type { Label } from './strip-types'

/** Width of a letter of the label's type, CSS px. */
const CHAR = 6.9
/** Narrower, and few names would fit. */
const LETTERS_BELOW = 560
/** A name cut off after one of these says that something is missing. */
const LOOSE_END = /(?:[\s,;:&]|\b(?:and|or|of|the|to|for|with|in|on))+$/

interface Span {
  from: number
  to: number
}

const fits = (text: string, room: number) => text.length * CHAR <= room

export function stageLabels(
  stages: readonly { id: string; title: string }[],
  spans: ReadonlyMap<number, Span>,
  width: number,
): Label[] {
  const made = [...spans].map(([index, { from, to }]) => {
    const full = stages[index]?.title ?? ''
    const letter = stages[index]?.id ?? ''
    return { x: from, room: to - from, full, letter, text: fitting(full, to - from) ?? letter }
  })
  // Cut short, a name must not be the beginning of another one as well.
  for (const one of made)
    if (one.text !== one.full && made.some((other) => other !== one && other.full.startsWith(one.text)))
      one.text = one.letter
  const letters = width < LETTERS_BELOW || made.filter(isLetter).length > made.length / 2
  return made.flatMap(({ x, room, full, letter, text }) => {
    const shown = letters ? letter : text
    return fits(shown, room + 4) || shown.length === 1
      ? [{ x: Math.round(x * 10) / 10, text: shown, full }]
      : []
  })
}

const isLetter = ({ text, letter }: { text: string; letter: string }) => text === letter

/** The longest run of first words that fits and is still a name. */
function fitting(title: string, room: number): string | undefined {
  if (fits(title, room)) return title
  const words = title.split(' ')
  for (let count = words.length - 1; count > 0; count--) {
    const text = words.slice(0, count).join(' ').replace(LOOSE_END, '')
    if (text.length > 2 && fits(text, room)) return text
  }
  return undefined
}
