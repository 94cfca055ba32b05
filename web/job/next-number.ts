/** The number after the highest so far, in the same manner: `E-107` gives `E-108`. Only an offer. */
export function nextNumber(numbers: readonly string[]): string {
  let best: { before: string; digits: string } | undefined
  for (const number of numbers) {
    const match = /^(.*?)(\d+)$/.exec(number)
    if (!match) continue
    const [, before = '', digits = ''] = match
    if (!best || Number(digits) > Number(best.digits)) best = { before, digits }
  }
  return best ? best.before + String(Number(best.digits) + 1).padStart(best.digits.length, '0') : ''
}
