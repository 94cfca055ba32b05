/** Limits as a plan prints them: every number with as many decimals as the finest of them. */

export interface Limits {
  value?: number
  min?: number
  max?: number
}

const decimalsOf = (n: number): number => `${n}`.split('.')[1]?.length ?? 0

/** A number beside its limits: 0.1 as `0.10` where the other is 0.28. */
export function toDecimals(n: number, { value, min, max }: Limits): string {
  const finest = Math.max(...[value, min, max].map((one) => (one === undefined ? 0 : decimalsOf(one))))
  // As many digits as it has; a number written with an exponent has none to show here.
  return `${n}`.includes('e') ? `${n}` : n.toFixed(Math.min(finest, 100))
}

export function limitsInWords(limits: Limits): string {
  const { min, max } = limits
  const said = (n: number) => toDecimals(n, limits)
  if (min !== undefined && max !== undefined) return `${said(min)} to ${said(max)}`
  if (min !== undefined) return `at least ${said(min)}`
  return max === undefined ? 'no limit' : `at most ${said(max)}`
}
