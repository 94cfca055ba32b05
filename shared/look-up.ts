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

/** Past so many entries, naming each costs a third of what the language's own copy costs. */
const MANY = 200

/** The record with another value under one name, for one that may hold so many entries. */
export function withEntry<V>(
  record: Readonly<Record<string, V>>,
  name: string,
  value: V,
  entries: number,
): Record<string, V> {
  if (entries <= MANY) return { ...record, [name]: value }
  const copy: Record<string, V> = Object.create(null)
  for (const key in record) copy[key] = record[key] as V
  copy[name] = value
  return copy
}

/** Adds to the list a key holds, which begins with its first value. */
export function append<K, V>(lists: Map<K, V[]>, key: K, value: V): void {
  const list = lists.get(key)
  if (list) list.push(value)
  else lists.set(key, [value])
}
