/**
 * What a record holds under a name somebody sent. A name every object knows (`constructor`) holds nothing
 * here, where a plain `record[name]` would find the language's own.
 */
export function lookUp<V>(
  record: Readonly<Record<string | number, V>>,
  name: string | number,
): V | undefined {
  return Object.hasOwn(record, name) ? record[name] : undefined
}

/** Past so many entries, naming each costs a fifth of what the language's own copy costs. */
const MANY = 200

/** The names in a record of many entries, which its copies share as long as none is added. */
const namesIn = new WeakMap<object, readonly string[]>()

/** The record with another value under one name, for one that may hold so many entries. */
export function withEntry<V>(
  record: Readonly<Record<string, V>>,
  name: string,
  value: V,
  entries: number,
): Record<string, V> {
  if (entries <= MANY) return { ...record, [name]: value }
  const known = namesIn.get(record) ?? Object.keys(record)
  const names = Object.hasOwn(record, name) ? known : [...known, name]
  const copy: Record<string, V> = Object.create(null)
  for (const each of names) copy[each] = each === name ? value : (record[each] as V)
  namesIn.set(copy, names)
  return copy
}

/** Adds to the list a key holds, which begins with its first value. */
export function append<K, V>(lists: Map<K, V[]>, key: K, value: V): void {
  const list = lists.get(key)
  if (list) list.push(value)
  else lists.set(key, [value])
}
