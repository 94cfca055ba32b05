/** Units that a manual leaves to its reader: `59 {6.0, 43}` is N·m {kgf·m, lbf·ft} in translated manuals. */
import type { Token } from './tokens'

const BRACED = /(\d[\d.,]*(?:\s*[-‐‑‒–—−~〜～]\s*\d[\d.,]*)?)\s*\{\s*([^{},]+(?:,\d+)?)[,;]\s+([^{},]+)\}/gu

/** The text with these units put in, or nothing where a unit is printed or no braces stand; they must agree to be offered. */
export function withBraceUnits(plain: string, tokens: readonly Token[]): string | undefined {
  if (!plain.includes('{') || tokens.some((token) => token.t === 'unit')) return undefined
  const put = plain.replace(BRACED, (whole, first: string, second: string, third: string) =>
    /\p{L}/u.test(second + third) ? whole : `${first} N·m {${second.trim()} kgf·m, ${third.trim()} lbf·ft}`,
  )
  return put === plain ? undefined : put
}
