/** Holds, stops and what was left out, on the strip: each to be seen, and no word over another. */
import { describe, expect, test } from 'vitest'
import type { Cell } from '../../../shared/job/summary'
import { stripWords } from '../../../web/drawings/BuildStrip'
import { drawStrip, TALL, TOP } from '../../../web/drawings/strip-shapes'
import type { StripHold } from '../../../web/drawings/strip-types'

const stages = [{ id: 'A', title: 'Short block' }]
const cell = (stepId: string, standing: Cell['standing'], some: Partial<Cell> = {}): Cell => ({
  stepId,
  stage: 0,
  minutes: 10,
  standing,
  ...some,
})
const draw = (cells: readonly Cell[], holds: readonly StripHold[] = [], width = 600) =>
  drawStrip({ cells, stages, holds, width, initialsOf: (id) => id.toUpperCase(), paintOf: (id) => id })
const held = (stepIds: string[], what: string): StripHold => ({ kind: 'part', what, stepIds })
const looks = (cells: readonly Cell[]) => draw(cells).shapes.map(({ look }) => look)

describe('standings', () => {
  test('on hold is a gap: hatched, without outline, never like signed', () => {
    expect(looks([cell('a', 'on_hold', { by: 'ana' })])).toEqual(['hatch'])
    expect(draw([cell('a', 'on_hold', { by: 'ana' })]).initials.map(({ text }) => text)).toEqual(['ANA'])
  })

  test('the hatch stays in its cell', () => {
    const { shapes } = draw([cell('a', 'done', { by: 'x' }), cell('b', 'on_hold'), cell('c', 'ready')])
    const hatch = shapes.find(({ look }) => look === 'hatch')?.d ?? ''
    const points = [...hatch.matchAll(/[ML]([\d.]+) ([\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)])
    expect(points.length).toBeGreaterThan(10)
    for (const [x = 0, y = 0] of points) {
      expect(x).toBeGreaterThanOrEqual(200)
      expect(x).toBeLessThanOrEqual(400)
      expect(y).toBeGreaterThanOrEqual(TOP)
      expect(y).toBeLessThanOrEqual(TOP + TALL)
    }
  })

  test('stopped, left out and ready all look different', () => {
    const all = (['stopped', 'deferred', 'ready', 'in_work', 'not_ready'] as const).map((standing) =>
      looks([cell('a', standing)]).join(),
    )
    expect(new Set(all).size).toBe(5)
  })

  test('what was left out hangs as a tab, tied to where it is due', () => {
    const { shapes, height } = draw([
      cell('a', 'deferred', { dueAt: ['c'] }),
      cell('b', 'ready'),
      cell('c', 'not_ready'),
    ])
    expect(shapes.filter(({ look }) => look === 'tab')).toHaveLength(1)
    const tie = shapes.find(({ look }) => look === 'tie')?.d ?? ''
    const end = Number(/H([\d.]+)/.exec(tie)?.[1])
    expect(end).toBeGreaterThan(400)
    expect(end).toBeLessThan(600)
    expect(height).toBeGreaterThan(draw([cell('a', 'ready')]).height)
  })
})

describe('reasons below', () => {
  test('in full where there is room, else the kind, else nothing', () => {
    const cells = [cell('a', 'on_hold'), cell('b', 'ready'), cell('c', 'on_hold')]
    const long = 'an elbow gasket that nobody on this coast has had in stock since the spring'
    const { reasons } = draw(cells, [held(['a'], long), held(['c'], 'head gasket')])
    expect(reasons.map(({ text }) => text)).toEqual(['part', 'part: head gasket'])
    expect(reasons[0]?.full).toBe(`part: ${long}`)
    const thin = Array.from({ length: 60 }, (_, i) => cell(`s${i}`, i < 3 ? 'on_hold' : 'ready'))
    expect(
      draw(thin, [held(['s0'], 'x'), held(['s1'], 'y'), held(['s2'], 'z')], 358).reasons.length,
    ).toBeLessThan(3)
  })

  test('no two touch and none leaves the strip, wherever the holds are', () => {
    for (let width = 300; width < 1200; width += 40) {
      const cells = Array.from({ length: 20 }, (_, i) => cell(`s${i}`, i % 3 === 0 ? 'on_hold' : 'ready'))
      const holds = cells.flatMap(({ stepId, standing }) =>
        standing === 'on_hold' ? [held([stepId], `gasket for ${stepId}`)] : [],
      )
      let end = 0
      for (const { x, text } of draw(cells, holds, width).reasons) {
        expect(x).toBeGreaterThanOrEqual(end)
        end = x + text.length * 6.6
        expect(end).toBeLessThanOrEqual(width + 0.1)
      }
    }
  })

  test('a strip without holds keeps its height', () => {
    expect(draw([cell('a', 'ready')]).height).toBe(TOP + TALL + 20)
  })
})

test('all of it is said in words', () => {
  const said = stripWords(
    [cell('A1', 'on_hold'), cell('A2', 'stopped'), cell('A3', 'deferred', { dueAt: ['A5', 'A6'] })],
    (id) => id,
    [held(['A1'], 'head gasket')],
  )
  expect(said).toContain('On hold: A1 (part: head gasket).')
  expect(said).toContain('Stopped: A2.')
  expect(said).toContain('Left out, due later: A3 at A5 and A6.')
})
