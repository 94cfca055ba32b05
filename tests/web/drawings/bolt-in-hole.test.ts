/** The section through a bolt and its hole: everything where it would really be. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { sectionOf } from '../../../web/drawings/bolt-in-hole'

const m8 = { dMm: 8, pitchMm: 1.25, stackMm: 12, threadDepthMm: 18, holeDepthMm: 22 }

describe('a bolt in its hole', () => {
  test('what holds and what is left add up to the thread', () => {
    const at = sectionOf({ ...m8, boltLengthMm: 25, washerMm: 1.6 })
    expect(at.bolt.to).toBeCloseTo(11.4, 12)
    expect(at.engaged).toEqual({ from: 0, to: at.bolt.to })
    expect(at.clear).toEqual({ from: at.bolt.to, to: 18 })
    expect(at.gap).toBeUndefined()
    expect(at.head.to).toBe(-13.6)
  })
  test('one that bottoms stands on the last thread, and its head off the stack by what is too much', () => {
    const at = sectionOf({ ...m8, boltLengthMm: 35 })
    expect(at.bolt.to).toBe(18)
    expect(at.head.to).toBe(-17)
    expect(at.gap).toEqual({ from: -17, to: -12 })
    expect(at.clear).toBeUndefined()
  })
  test('an insert holds from its set-down to its end, whatever thread lies below', () => {
    const at = sectionOf({
      ...m8,
      boltLengthMm: 28,
      insert: { kind: 'wire', lengthMm: 12, setDownMm: 1.5 },
    })
    expect(at.engaged).toEqual({ from: 1.5, to: 13.5 })
    expect(at.insert?.wall).toBeGreaterThan(0)
  })
  test('one too short for its stack holds nothing, and nothing is drawn upside down', () => {
    const at = sectionOf({ ...m8, boltLengthMm: 10 })
    expect(at.engaged.to - at.engaged.from).toBe(0)
    expect(at.clear).toEqual({ from: 0, to: 18 })
  })
  test('whatever the sizes, every span runs downwards within the view', () => {
    const size = (max: number) => fc.double({ min: 0.5, max, noNaN: true })
    fc.assert(
      fc.property(
        size(60),
        size(300),
        size(200),
        size(100),
        size(20),
        (dMm, boltLengthMm, stackMm, thread, washerMm) => {
          const at = sectionOf({
            dMm,
            pitchMm: dMm / 6,
            boltLengthMm,
            stackMm,
            washerMm,
            threadDepthMm: thread,
            holeDepthMm: thread * 1.2,
          })
          for (const span of [at.head, at.stack, at.part, at.hole, at.bolt, at.engaged, at.clear, at.gap]) {
            if (!span) continue
            expect(span.to).toBeGreaterThanOrEqual(span.from - 1e-9)
            expect(span.from).toBeGreaterThanOrEqual(at.top - 1e-9)
            expect(span.to).toBeLessThanOrEqual(at.bottom + 1e-9)
          }
        },
      ),
    )
  })
})
