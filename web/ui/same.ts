/**
 * What says the same as before stays the very same object, so that nothing that hangs on it is drawn again.
 *
 * Views of a job are made anew for every event; what they are made of is shared by the fold, so comparing them is cheap.
 */
import { type Accessor, createMemo, getOwner, runWithOwner } from 'solid-js'

/** Equal as plain data, whatever the order of the keys. For plain objects, lists and values alone: no Map, no Set. */
export function sameData(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true
  if (typeof a !== 'object' || typeof b !== 'object' || !a || !b || Array.isArray(a) !== Array.isArray(b))
    return false
  const keys = Object.keys({ ...a, ...b })
  return keys.every((key) =>
    sameData((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]),
  )
}

/**
 * The value before where it says the same. Of a list also every entry that says the same as the one in its place, counted
 * from either end: one that comes or goes between leaves the others what they were.
 */
export function keepSame<T>(
  before: T | undefined,
  now: T,
  same: (a: unknown, b: unknown) => boolean = sameData,
): T {
  if (before === undefined) return now
  if (!Array.isArray(now) || !Array.isArray(before)) return same(before, now) ? before : now
  const longer = before.length - now.length
  const taken = new Set<unknown>()
  const kept = now.map((entry, at) => {
    const old = [before[at], before[at + longer]].find(
      (one) => one !== undefined && !taken.has(one) && same(one, entry),
    )
    if (typeof old === 'object') taken.add(old)
    return old ?? entry
  })
  return (longer === 0 && kept.every((entry, at) => entry === before[at]) ? before : kept) as T
}

/** `same`: of the entries of a list, where what they show is less than what they are. */
export const createSame = <T>(reckon: () => T, same?: (a: Entry<T>, b: Entry<T>) => boolean): Accessor<T> =>
  createMemo<T>(
    (before) => keepSame(before as T | undefined, reckon(), same as typeof sameData),
    undefined as T,
  )

/** Reckoned when it is first asked for. */
export function createLazy<T>(reckon: () => T): Accessor<T> {
  const owner = getOwner()
  let memo: Accessor<T> | undefined
  return () => {
    memo ??= runWithOwner(owner, () => createMemo(reckon))
    return (memo as Accessor<T>)()
  }
}

type Entry<T> = T extends readonly (infer E)[] ? E : T

/**
 * `after`, with every part that says the same as before taken from there: what comes over the wire is new throughout,
 * though most of it says what was here before. Changed in place, so it must be the caller's own.
 */
export function keepAlike<T>(before: unknown, after: T): T {
  if (before === after) return after
  if (!isPlain(before) || !isPlain(after) || Array.isArray(before) !== Array.isArray(after)) return after
  const parts: Record<string, unknown> = after
  const names = Object.keys(parts)
  let alike = names.length === Object.keys(before).length
  for (const name of names) {
    parts[name] = keepAlike(before[name], parts[name])
    if (parts[name] !== before[name] || !Object.hasOwn(before, name)) alike = false
  }
  return alike ? (before as T) : after
}

const isPlain = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null
