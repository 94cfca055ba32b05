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

export function canonical(value: unknown): string {
  refuseWhatJsonCannotHold(value, '')
  return canonicalize(value) as string
}

/** As `JSON.stringify`, in the order given, for what is kept but not hashed; refuses the same things. */
export function plainJson(value: unknown): string {
  refuseWhatJsonCannotHold(value, '')
  return JSON.stringify(value)
}

function refuseWhatJsonCannotHold(value: unknown, path: string): void {
  switch (typeof value) {
    case 'string':
      if (HALF_A_PAIR.test(value)) throw new NotCanonical(path, 'a text with half a surrogate pair')
      return
    case 'number':
      if (!Number.isFinite(value)) throw new NotCanonical(path, `the number ${value}`)
      return
    case 'boolean':
      return
    case 'object':
      if (value === null) return
      if (Array.isArray(value)) {
        // By index, so that a hole is seen: it would come back as null, or shift what follows.
        for (let i = 0; i < value.length; i++) refuseWhatJsonCannotHold(value[i], `${path}/${i}`)
        return
      }
      refuseInObject(value as Record<string, unknown>, path)
      return
    default:
      throw new NotCanonical(path, typeof value === 'undefined' ? 'undefined' : `a ${typeof value}`)
  }
}

function refuseInObject(value: Record<string, unknown>, path: string): void {
  const prototype = Object.getPrototypeOf(value)
  if (prototype !== null && Object.getPrototypeOf(prototype) !== null) {
    throw new NotCanonical(path, `a ${value.constructor?.name ?? 'class'} instead of plain data`)
  }
  if (typeof value.toJSON === 'function') throw new NotCanonical(path, 'an object that writes itself')
  for (const key of Object.keys(value)) {
    const member = value[key]
    if (member === undefined) continue
    if (HALF_A_PAIR.test(key)) throw new NotCanonical(path, 'a name with half a surrogate pair')
    refuseWhatJsonCannotHold(member, `${path}/${key}`)
  }
}
