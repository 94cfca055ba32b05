/**
 * The one way a value becomes bytes here: canonical JSON as in RFC 8785, so that equal values have equal
 * bytes and a hash over them means something.
 *
 * Refuses whatever would come back as something else than it went in. An absent member and one that is
 * `undefined` are the same thing; everything else that JSON cannot hold throws `NotCanonical`, with its path.
 */
import canonicalize from 'canonicalize'
import { NotCanonical } from './errors'

/** With the u flag, whole pairs are one character and do not match. */
const HALF_A_PAIR = /\p{Surrogate}/u

/** The way from the top to a value, as names and places. */
type Path = (string | number)[]

export function canonical(value: unknown): string {
  refuseWhatJsonCannotHold(value, [])
  return refuseHalfPairs(canonicalize(value) as string, value)
}

/** As `JSON.stringify`, in the order given, for what is kept but not hashed; refuses the same things. */
export function plainJson(value: unknown): string {
  refuseWhatJsonCannotHold(value, [])
  return refuseHalfPairs(JSON.stringify(value), value)
}

/** JSON writes half a pair as an escape; only where the text has one is it worth looking closely. */
function refuseHalfPairs(json: string, value: unknown): string {
  if (json.includes('\\ud')) refuseWhatJsonCannotHold(value, [], true)
  return json
}

function refuseWhatJsonCannotHold(value: unknown, path: Path, texts = false): void {
  switch (typeof value) {
    case 'string':
      if (texts && HALF_A_PAIR.test(value)) throw notCanonical(path, 'a text with half a surrogate pair')
      return
    case 'number':
      if (!Number.isFinite(value)) throw notCanonical(path, `the number ${value}`)
      return
    case 'boolean':
      return
    case 'object':
      if (value === null) return
      if (Array.isArray(value)) {
        // By index, so that a hole is seen: it would come back as null, or shift what follows.
        for (let i = 0; i < value.length; i++) {
          path.push(i)
          refuseWhatJsonCannotHold(value[i], path, texts)
          path.pop()
        }
        return
      }
      refuseInObject(value as Record<string, unknown>, path, texts)
      return
    default:
      throw notCanonical(path, typeof value === 'undefined' ? 'undefined' : `a ${typeof value}`)
  }
}

function refuseInObject(value: Record<string, unknown>, path: Path, texts: boolean): void {
  const prototype = Object.getPrototypeOf(value)
  if (prototype !== Object.prototype && prototype !== null && Object.getPrototypeOf(prototype) !== null) {
    throw notCanonical(path, `a ${value.constructor?.name ?? 'class'} instead of plain data`)
  }
  if (typeof value.toJSON === 'function') throw notCanonical(path, 'an object that writes itself')
  for (const key of Object.keys(value)) {
    const member = value[key]
    if (member === undefined) continue
    if (texts && HALF_A_PAIR.test(key)) throw notCanonical(path, 'a name with half a surrogate pair')
    path.push(key)
    refuseWhatJsonCannotHold(member, path, texts)
    path.pop()
  }
}

const notCanonical = (path: Path, problem: string) =>
  new NotCanonical(path.map((step) => `/${step}`).join(''), problem)
