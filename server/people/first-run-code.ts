/**
 * Whoever opens the shop shows that they stand at its machine: by a code that the server prints where it was started, a
 * new one each time [PE8]. Wrong ones make the next try wait, as a PIN's do.
 */
import { randomInt, timingSafeEqual } from 'node:crypto'
import type { PinCheck } from './people'
import { makeSlowing } from './slowing'

const DIGITS = 8

/** Eight digits in two groups, for reading aloud. */
export function makeFirstRunCode(): string {
  const digits = String(randomInt(10 ** DIGITS)).padStart(DIGITS, '0')
  return `${digits.slice(0, 4)} ${digits.slice(4)}`
}

export function makeFirstRunCheck(code: string | undefined, now: () => number) {
  const slowing = makeSlowing()
  const KEYS = ['first run']
  const expected = code === undefined ? undefined : Buffer.from(digitsOf(code))
  return {
    check(entered: string): PinCheck {
      const waitMs = slowing.begin(KEYS, now())
      if (waitMs > 0) return { ok: false, waitMs }
      const given = Buffer.from(digitsOf(entered))
      if (!expected || given.length !== expected.length || !timingSafeEqual(given, expected))
        return { ok: false }
      slowing.succeed(KEYS)
      return { ok: true }
    },
  }
}

const digitsOf = (text: string): string => text.replace(/[^0-9]/g, '')
