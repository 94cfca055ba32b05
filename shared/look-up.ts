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

/** Adds to the list a key holds, which begins with its first value. */
export function append<K, V>(lists: Map<K, V[]>, key: K, value: V): void {
  const list = lists.get(key)
  if (list) list.push(value)
  else lists.set(key, [value])
}
