/** What says the same stays the very same object. */
import { describe, expect, test } from 'vitest'
import { keepSame } from '../../../web/ui/same'

const entry = (id: string, says = '') => ({ id, says, places: [{ n: 1 }] })

describe('a view made anew', () => {
  test('is the one before where it says the same, in whatever order its keys come', () => {
    const before = { a: 1, b: [{ c: 2 }] }
    expect(keepSame(before, { b: [{ c: 2 }], a: 1 })).toBe(before)
    const now = { a: 1, b: [{ c: 3 }] }
    expect(keepSame(before, now)).toBe(now)
  })

  test('a list that says the same is the list before; one changed entry leaves the others what they were', () => {
    const before = [entry('a'), entry('b'), entry('c')]
    expect(keepSame(before, [entry('a'), entry('b'), entry('c')])).toBe(before)
    const now = keepSame(before, [entry('a'), entry('b', 'flagged'), entry('c')])
    expect(now).not.toBe(before)
    expect(now[0]).toBe(before[0])
    expect(now[1]).toEqual(entry('b', 'flagged'))
    expect(now[2]).toBe(before[2])
  })

  test('an entry that comes or goes between leaves those around it what they were', () => {
    const before = [entry('a'), entry('b'), entry('c')]
    const more = keepSame(before, [entry('a'), entry('new'), entry('b'), entry('c')])
    expect(more.map(({ id }) => id)).toEqual(['a', 'new', 'b', 'c'])
    expect([more[0], more[2], more[3]]).toEqual(before)
    expect(more[2]).toBe(before[1])
    const fewer = keepSame(before, [entry('a'), entry('c')])
    expect(fewer[0]).toBe(before[0])
    expect(fewer[1]).toBe(before[2])
  })

  test('an entry stands once, also where two say the same', () => {
    const before = [entry('a'), entry('a')]
    const now = keepSame(before, [entry('a'), entry('b'), entry('a')])
    expect(new Set(now).size).toBe(3)
    expect(new Set(keepSame([entry('a')], [entry('a'), entry('a')])).size).toBe(2)
  })

  test('the first of all is itself, and an empty list stays empty', () => {
    const first = [entry('a')]
    expect(keepSame(undefined, first)).toBe(first)
    expect(keepSame(first, [])).toEqual([])
  })
})
