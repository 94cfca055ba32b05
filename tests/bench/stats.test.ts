/** The bench's own arithmetic: a wrong median would make every figure wrong. */
import { describe, expect, test } from 'vitest'
import { type Line, verdictOn } from './harness/line'
import { inTurn, interleaved, median, percentile } from './harness/stats'
import { shown, table } from './harness/table'

describe('numbers', () => {
  test('the median is the middle, or half way between the two in the middle', () => {
    expect(median([9, 1, 5])).toBe(5)
    expect(median([10, 1, 3, 2])).toBe(2.5)
    expect(() => median([])).toThrow(RangeError)
  })
  test('a percentile is a value that was measured', () => {
    const values = Array.from({ length: 200 }, (_, n) => n + 1)
    expect(percentile(values, 0.5)).toBe(100)
    expect(percentile(values, 0.99)).toBe(198)
    expect(percentile([7], 0.99)).toBe(7)
  })
  test('both arms run every round, take turns in going first, and the first round is thrown away', async () => {
    const order: string[] = []
    const arm = (name: string) => async (round: number) => {
      order.push(`${name}${round}`)
      return round
    }
    const got = await interleaved(2, { ours: arm('o'), reference: arm('r') })
    expect(order).toEqual(['o0', 'r0', 'r1', 'o1', 'o2', 'r2'])
    expect(got).toEqual({ ours: [1, 2], reference: [1, 2] })
  })
  test('more rounds to warm up are thrown away alike', async () => {
    const order: string[] = []
    const arm = (name: string) => async (round: number) => {
      order.push(`${name}${round}`)
      return round
    }
    const got = await interleaved(1, { ours: arm('o'), reference: arm('r') }, 3)
    expect(order).toEqual(['o-2', 'r-2', 'r-1', 'o-1', 'o0', 'r0', 'r1', 'o1'])
    expect(got).toEqual({ ours: [1], reference: [1] })
  })
  test('many arms turn their order round each round', async () => {
    const order: string[] = []
    const got = await inTurn(1, [10, 20, 30], async (arm, round) => {
      order.push(`${arm}/${round}`)
      return arm + round
    })
    expect(order).toEqual(['10/0', '20/0', '30/0', '30/1', '20/1', '10/1'])
    expect([...got]).toEqual([
      [10, [11]],
      [20, [21]],
      [30, [31]],
    ])
  })
  test('numbers are shown as long as they are worth', () => {
    expect([0, 0.123, 12.34, 123.4, 12_345.6].map(shown)).toEqual(['0', '0.12', '12.3', '123', '12,346'])
  })
})

describe('verdicts', () => {
  const line = (some: Partial<Line>): Line => ({ figure: 'f', what: 'w', unit: 'ms', ours: 10, ...some })
  const atMost = { wants: 'at most', goal: 2, stretch: 1.5 } as const

  test('a ratio is held against the reference', () => {
    const verdict = (reference: number) => verdictOn(line({ reference, goal: { by: 'ratio', ...atMost } }))
    expect([10, 6, 4].map(verdict)).toEqual(['stretch met', 'goal met', 'NOT MET'])
  })
  test('more is better where at least so much is wanted', () => {
    const goal = { by: 'ratio', wants: 'at least', goal: 2, stretch: 3 } as const
    const verdict = (reference: number) => verdictOn(line({ reference, goal }))
    expect([3, 4, 6].map(verdict)).toEqual(['stretch met', 'goal met', 'NOT MET'])
  })
  test('a goal without anything to judge is not met', () => {
    expect(verdictOn(line({ goal: { by: 'ratio', ...atMost } }))).toBe('NOT MET')
    expect(verdictOn(line({ goal: { by: 'difference', ...atMost } }))).toBe('NOT MET')
  })
  test('a miss and a figure that was not measured stand in the table as such', () => {
    const drawn = table([
      line({ goal: { by: 'ours', ...atMost } }),
      { figure: 'g', what: 'x', why: 'no browser' },
    ])
    expect(drawn).toMatch(/^w .* NOT MET$/m)
    expect(drawn).toMatch(/^x .* not measured .* NOT MEASURED$/m)
  })
})
