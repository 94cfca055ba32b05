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
