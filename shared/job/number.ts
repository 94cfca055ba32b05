/** Job numbers as people write and say them: the next one of a row, and which one somebody means. */

/**
 * The number after the highest of its kind, in the manner of the highest in the shop: `E-107` gives `E-108`. Those of engines
 * that left long ago count too. Only an offer.
 */
export function nextNumber(inShop: readonly string[], ever: readonly string[] = []): string {
  const manner = highest(inShop) ?? highest(ever)
  if (!manner) return ''
  const { before, digits } =
    highest([...inShop, ...ever].filter((n) => parted(n)?.before === manner.before)) ?? manner
  return before + String(Number(digits) + 1).padStart(digits.length, '0')
}

interface Parted {
  before: string
  digits: string
}

function parted(number: string): Parted | undefined {
  const [, before = '', digits] = /^(.*?)(\d+)$/.exec(number) ?? []
  return digits === undefined ? undefined : { before, digits }
}

function highest(numbers: readonly string[]): Parted | undefined {
  let best: Parted | undefined
  for (const number of numbers) {
    const parts = parted(number)
    if (parts && (!best || Number(parts.digits) > Number(best.digits))) best = parts
  }
  return best
}

/**
 * Which of these somebody means who typed `asked`: that very number; else those that differ in capitals, blanks and dashes
 * alone; else, where only digits were typed, those that end in that number. `e101` and `101` mean `E-101`.
 */
export function numbersMeant(asked: string, numbers: readonly string[]): string[] {
  if (numbers.includes(asked)) return [asked]
  const sought = bare(asked)
  if (sought === '') return []
  const same = numbers.filter((number) => bare(number) === sought)
  if (same.length > 0 || !/^\d+$/.test(sought)) return same
  return numbers.filter((number) => Number(parted(number)?.digits ?? Number.NaN) === Number(sought))
}

/** What tells a number from every other: the same for two that only a capital, a blank or a dash tells apart. */
export const readsAs = (number: string): string => bare(number) || number

/** Letters and digits alone, in capitals. */
const bare = (number: string): string =>
  number
    .normalize('NFKC')
    .toUpperCase()
    .replace(/[^\p{L}\p{N}]/gu, '')
