/** In place of the package `uuid`: version 7 (RFC 9562) from the seed, on the clock of the page or server that makes it. */
import { clockNow, idly } from './world'

const hex = (digits: number): string =>
  Array.from({ length: digits }, () => Math.floor(idly() * 16).toString(16)).join('')

export function v7(): string {
  const time = Math.max(0, clockNow()).toString(16).padStart(12, '0')
  return `${time.slice(0, 8)}-${time.slice(8)}-7${hex(3)}-${(8 + Math.floor(idly() * 4)).toString(16)}${hex(3)}-${hex(12)}`
}
