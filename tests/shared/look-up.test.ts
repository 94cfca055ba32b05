/** A record with another value under one name: the same whichever way it was copied. */
import { describe, expect, test } from 'vitest'
import { withEntry } from '../../shared/look-up'

describe.each([
  ['copied whole', 200],
  ['copied by name', 201],
])('%s', (_, entries) => {
  const before: Readonly<Record<string, object>> = { a: { n: 1 }, b: { n: 2 } }

  test('has the value, in its place or at the end, and shares what was not touched', () => {
    const value: object = { n: 3 }
    const changed = withEntry(before, 'a', value, entries)
    expect(Object.entries(changed)).toEqual([
      ['a', { n: 3 }],
      ['b', { n: 2 }],
    ])
    expect(changed.a).toBe(value)
    expect(changed.b).toBe(before.b)
    expect(Object.keys(withEntry(changed, 'c', value, entries))).toEqual(['a', 'b', 'c'])
  })

  test('leaves the record it came from as it was, and is plain JSON', () => {
    const changed = withEntry(before, 'c', { n: 3 }, entries)
    expect(before).toEqual({ a: { n: 1 }, b: { n: 2 } })
    expect(JSON.stringify(changed)).toBe('{"a":{"n":1},"b":{"n":2},"c":{"n":3}}')
    expect(structuredClone(changed)).toEqual({ a: { n: 1 }, b: { n: 2 }, c: { n: 3 } })
  })
})
