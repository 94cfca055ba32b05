/** What a PIN may be. Credentials themselves never enter a stream, a command or a log. */
export const PIN_FORM = /^\d{4,12}$/
export const PIN_WORDS = '4 to 12 digits'

export const PIN_TOO_EASY =
  'That PIN is among the first that anybody tries: digits all alike or in pairs, a run, a year, a pattern of the keys. Choose another.'

/**
 * Whether a PIN is among the first that anybody tries. NIST SP 800-63B (from memory) asks for a blocklist of commonly used
 * secrets and leaves its contents to whoever keeps it; these are common practice, no source.
 */
export function isTooEasyPin(pin: string): boolean {
  const digits = [...pin].map(Number)
  const steps = digits.slice(1).map((digit, n) => (digit - (digits[n] as number) + 10) % 10)
  const isRun = [1, 9].some((step) => steps.every((each) => each === step))
  const isYear = /^(19|20)\d\d$/.test(pin)
  return isRun || isYear || isRepeated(pin) || isPaired(pin) || isOnKeys(digits)
}

/** `0000`, `1212`, `123123`: shorter digits over and over. */
const isRepeated = (pin: string): boolean => /^(\d+)\1+$/.test(pin)

/** `1122`, `443322`: every digit twice. */
const isPaired = (pin: string): boolean => /^((\d)\2)+$/.test(pin)

/** A line over neighbouring keys that touches none twice (`2580`, `1236`), and the four corners or sides in any order. */
function isOnKeys(digits: readonly number[]): boolean {
  const [each, line] = [new Set(digits), digits.map(placeOf)]
  if (each.size < digits.length) return false
  const touches = line.slice(1).every(([row, column], n) => {
    const [rowBefore, columnBefore] = line[n] as readonly [number, number]
    return Math.abs(row - rowBefore) + Math.abs(column - columnBefore) === 1
  })
  return touches || ['1379', '2468'].includes([...each].sort().join(''))
}

/** Row and column on a pad of three by three with 0 below the middle. */
const placeOf = (digit: number): readonly [number, number] =>
  digit === 0 ? [3, 1] : [Math.floor((digit - 1) / 3), (digit - 1) % 3]
