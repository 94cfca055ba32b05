/**
 * The one way a value becomes bytes here: canonical JSON as in RFC 8785, so that equal values have equal
 * bytes and a hash over them means something.
 *
 * Refuses whatever would come back as something else than it went in. An absent member and one that is
 * `undefined` are the same thing; everything else that JSON cannot hold throws `NotCanonical`, with its path.
 * Written and checked in one pass, because every entry goes through it; only what is refused is walked again, for
 * its path.
 */
import { NotCanonical } from './errors'

/** With the u flag, whole pairs are one character and do not match. */
const HALF_A_PAIR = /\p{Surrogate}/u

/** The way from the top to a value, as names and places. */
type Path = (string | number)[]

export function canonical(value: unknown): string {
  return refuseHalfPairs(write(value) ?? refused(value), value)
}

/** As `JSON.stringify`, in the order given, for what is kept but not hashed; refuses the same things. */
export function plainJson(value: unknown): string {
  if (!isJson(value)) refused(value)
  return refuseHalfPairs(JSON.stringify(value), value)
}

/** `undefined` where something in it is nothing that JSON can hold. Numbers as RFC 8785 has them: as ECMAScript does. */
function write(value: unknown): string | undefined {
  switch (typeof value) {
    case 'string':
      return JSON.stringify(value)
    case 'number':
      return Number.isFinite(value) ? `${value}` : undefined
    case 'boolean':
      return value ? 'true' : 'false'
    case 'object':
      if (value === null) return 'null'
      if (Array.isArray(value)) return writeList(value)
      return isPlain(value) ? writeObject(value) : undefined
    default:
      return undefined
  }
}

function writeList(list: readonly unknown[]): string | undefined {
  let json = '['
  // By index, so that a hole is seen: it would come back as null, or shift what follows.
  for (let i = 0; i < list.length; i++) {
    const item = write(list[i])
    if (item === undefined) return undefined
    json += i === 0 ? item : `,${item}`
  }
  return `${json}]`
}

function writeObject(object: Record<string, unknown>): string | undefined {
  let json = '{'
  for (const key of inOrder(Object.keys(object))) {
    const member = object[key]
    if (member === undefined) continue
    const text = write(member)
    if (text === undefined) return undefined
    if (json.length > 1) json += ','
    json += writeName(key) + text
  }
  return `${json}}`
}

/** By UTF-16 code units, as the RFC asks and both ways of comparing here do. A dozen names need no more than insertion. */
function inOrder(keys: string[]): string[] {
  if (keys.length > 32) return keys.sort()
  for (let i = 1; i < keys.length; i++) {
    const key = keys[i] as string
    let at = i
    for (; at > 0 && (keys[at - 1] as string) > key; at--) keys[at] = keys[at - 1] as string
    keys[at] = key
  }
  return keys
}

/** Entries have the same few hundred names again and again. */
const names = new Map<string, string>()
const NAMES_MOST = 2000

function writeName(key: string): string {
  const known = names.get(key)
  if (known !== undefined) return known
  const name = `${JSON.stringify(key)}:`
  if (names.size < NAMES_MOST) names.set(key, name)
  return name
}

function isJson(value: unknown): boolean {
  switch (typeof value) {
    case 'string':
    case 'boolean':
      return true
    case 'number':
      return Number.isFinite(value)
    case 'object':
      if (value === null) return true
      if (!Array.isArray(value))
        return (
          isPlain(value) && Object.values(value).every((member) => member === undefined || isJson(member))
        )
      for (let i = 0; i < value.length; i++) if (!isJson(value[i])) return false
      return true
    default:
      return false
  }
}

/** Not an instance of some class, and nothing that writes itself. */
const isPlain = (value: object): value is Record<string, unknown> =>
  hasNoClass(value) && typeof (value as { toJSON?: unknown }).toJSON !== 'function'

function hasNoClass(value: object): boolean {
  const prototype = Object.getPrototypeOf(value)
  return prototype === Object.prototype || prototype === null || Object.getPrototypeOf(prototype) === null
}

/** JSON writes half a pair as an escape; only where the text has one is it worth looking closely. */
function refuseHalfPairs(json: string, value: unknown): string {
  if (json.includes('\\ud')) refuseWhatJsonCannotHold(value, [])
  return json
}

function refused(value: unknown): never {
  refuseWhatJsonCannotHold(value, [])
  throw notCanonical([], 'a value that cannot be written')
}

function refuseWhatJsonCannotHold(value: unknown, path: Path): void {
  switch (typeof value) {
    case 'string':
      if (HALF_A_PAIR.test(value)) throw notCanonical(path, 'a text with half a surrogate pair')
      return
    case 'number':
      if (!Number.isFinite(value)) throw notCanonical(path, `the number ${value}`)
      return
    case 'boolean':
      return
    case 'object':
      if (value === null) return
      if (Array.isArray(value)) {
        for (let i = 0; i < value.length; i++) {
          path.push(i)
          refuseWhatJsonCannotHold(value[i], path)
          path.pop()
        }
        return
      }
      refuseInObject(value as Record<string, unknown>, path)
      return
    default:
      throw notCanonical(path, typeof value === 'undefined' ? 'undefined' : `a ${typeof value}`)
  }
}

function refuseInObject(value: Record<string, unknown>, path: Path): void {
  if (!hasNoClass(value))
    throw notCanonical(path, `a ${value.constructor?.name ?? 'class'} instead of plain data`)
  if (typeof value.toJSON === 'function') throw notCanonical(path, 'an object that writes itself')
  for (const key of Object.keys(value)) {
    const member = value[key]
    if (member === undefined) continue
    if (HALF_A_PAIR.test(key)) throw notCanonical(path, 'a name with half a surrogate pair')
    path.push(key)
    refuseWhatJsonCannotHold(member, path)
    path.pop()
  }
}

const notCanonical = (path: Path, problem: string) =>
  new NotCanonical(path.map((step) => `/${step}`).join(''), problem)
