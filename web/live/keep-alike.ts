/**
 * What comes over the wire is new throughout, though most of it says what was here before. Whoever compares by
 * identity is to see only what changed.
 */

/** `after`, with every part that says the same as before taken from there; changed in place, so it must be the caller's own. */
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
