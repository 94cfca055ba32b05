/** The build strip as numbers: every cell to be seen, in its place, and nothing written outside its stage. */
import { describe, expect, test } from 'vitest'
import type { Cell } from '../../../shared/job/summary'
import { stripWords } from '../../../web/drawings/BuildStrip'
import { stripMarkup } from '../../../web/drawings/strip-markup'
import { drawStrip, TALL, TOP } from '../../../web/drawings/strip-shapes'
import type { Shape } from '../../../web/drawings/strip-types'

const stages = [
  { id: 'A', title: 'Kit and clean' },
  { id: 'B', title: 'Short block' },
  { id: 'C', title: 'Commission' },
]
const cell = (stepId: string, stage: number, minutes: number, some: Partial<Cell> = {}): Cell => ({
  stepId,
  stage,
  minutes,
  standing: 'not_ready',
  ...some,
})

/** Fifty steps, some of a quarter of an hour beside one of a day. */
const many = Array.from({ length: 50 }, (_, i) =>
  cell(`s${i}`, Math.floor(i / 17), i === 20 ? 480 : 10 + (i % 7)),
)

const draw = (cells: readonly Cell[], width: number) =>
  drawStrip({ cells, stages, width, initialsOf: (id) => id.toUpperCase(), paintOf: (id) => `paint-${id}` })

/** The rectangles of a path: x, y, width, height. */
const boxes = ({ d }: Shape) =>
  [...d.matchAll(/M([\d.]+) ([\d.]+)h([\d.]+)v([\d.]+)/g)].map(
    ([, ...numbers]) => numbers.map(Number) as [number, number, number, number],
  )
const look = (shapes: readonly Shape[], name: Shape['look']) => shapes.filter((shape) => shape.look === name)

describe('cells', () => {
  test.each([358, 640, 980])('all fifty lie side by side within %i px, none too thin to be seen', (width) => {
    const drawn = look(draw(many, width).shapes, 'not-ready').flatMap(boxes)
    expect(drawn).toHaveLength(50)
    let end = 0
    for (const [x, , w] of drawn) {
      expect(x).toBeGreaterThanOrEqual(end - 0.1)
      expect(w).toBeGreaterThan(0.9)
      end = x + w
    }
    expect(end).toBeLessThanOrEqual(width)
    expect(end).toBeGreaterThan(width - 4)
  })

  test('five hundred steps keep the outlines of their stages, and what is done among them', () => {
    const long = Array.from({ length: 500 }, (_, n) =>
      cell(`s${n}`, n < 300 ? 0 : 1, 10, n === 100 ? { standing: 'done', by: 'ana' } : {}),
    )
    const { shapes } = draw(long, 800)
    const [before, after, next] = look(shapes, 'not-ready').flatMap(boxes)
    expect(look(shapes, 'not-ready').flatMap(boxes)).toHaveLength(3)
    const [done] = look(shapes, 'done').flatMap(boxes)
    expect((before?.[0] ?? 0) + (before?.[2] ?? 0)).toBeLessThan(done?.[0] ?? 0)
    expect(after?.[0]).toBeGreaterThan((done?.[0] ?? 0) + (done?.[2] ?? 0))
    expect((next?.[0] ?? 0) + (next?.[2] ?? 0)).toBeLessThanOrEqual(800)
  })

  test('a cell is as wide as its share of the work', () => {
    const [short, long] = look(draw([cell('a', 0, 10), cell('b', 0, 30)], 400).shapes, 'not-ready').flatMap(
      boxes,
    )
    expect((long?.[2] ?? 0) + 2.5).toBeCloseTo(300, 0)
    expect((short?.[2] ?? 0) + 2.5).toBeCloseTo(100, 0)
  })

  test('cells that look alike share one path, one more for each paint', () => {
    const done = many.map((one, i) => ({ ...one, standing: 'done' as const, by: i % 2 ? 'bo' : 'ana' }))
    const { shapes } = draw(done, 900)
    expect(shapes.map((shape) => [shape.look, shape.paint])).toEqual([
      ['done', undefined],
      ['bar', 'paint-ana'],
      ['bar', 'paint-bo'],
    ])
  })

  test('the second signer’s bar lies above the doer’s', () => {
    const { shapes } = draw([cell('a', 0, 10, { standing: 'done', by: 'ana', second: 'bo' })], 200)
    const [mine] = look(shapes, 'bar')
      .filter(({ paint }) => paint === 'paint-ana')
      .flatMap(boxes)
    const [second] = look(shapes, 'bar')
      .filter(({ paint }) => paint === 'paint-bo')
      .flatMap(boxes)
    expect((mine?.[1] ?? 0) + (mine?.[3] ?? 0)).toBe(TOP + TALL)
    expect((second?.[1] ?? 0) + (second?.[3] ?? 0)).toBeLessThan(mine?.[1] ?? 0)
  })

  test('waiting for the second leaves its place empty, and never looks done', () => {
    const { shapes } = draw([cell('a', 0, 10, { standing: 'awaiting_second', by: 'ana' })], 200)
    expect(look(shapes, 'done')).toEqual([])
    expect(look(shapes, 'slot')).toHaveLength(1)
  })

  test('a flag and a notch are drawn over whatever stands', () => {
    const { shapes } = draw(
      [cell('a', 0, 10, { standing: 'done', by: 'ana', flagged: true, critical: true })],
      200,
    )
    expect(shapes.map((shape) => shape.look)).toEqual(['done', 'bar', 'notch', 'flag', 'flag-mark'])
  })
})

describe('words on it', () => {
  test('a stage has its whole name where that fits, else its first words, else its letter', () => {
    const cells = [cell('a', 0, 20), cell('b', 1, 20), cell('c', 2, 60)]
    expect(draw(cells, 900).labels.map(({ text }) => text)).toEqual([
      'Kit and clean',
      'Short block',
      'Commission',
    ])
    expect(draw(cells, 300).labels.map(({ text }) => text)).toEqual(['A', 'B', 'C'])
    const tight = [cell('a', 0, 10), cell('b', 1, 45), cell('c', 2, 45)]
    expect(draw(tight, 600).labels.map(({ text }) => text)).toEqual(['Kit', 'Short block', 'Commission'])
  })

  test('a name is cut where it is still a name, and never to the beginning of another one', () => {
    const titled = (...titles: string[]) => titles.map((title, n) => ({ id: 'ABCDE'[n] ?? '', title }))
    const names = (stages: { id: string; title: string }[], width: number) =>
      drawStrip({
        cells: stages.map((_, n) => cell(`s${n}`, n, 10)),
        stages,
        width,
        initialsOf: (id) => id,
        paintOf: (id) => id,
      }).labels.map(({ text }) => text)
    const banks = titled('Crank train, port bank', 'Crank train, starboard bank', 'Timing', 'Dressing')
    expect(names(banks, 740)).toEqual([
      'Crank train, port bank',
      'Crank train, starboard',
      'Timing',
      'Dressing',
    ])
    expect(names(banks, 600)).toEqual(['Crank train, port', 'B', 'Timing', 'Dressing'])
    expect(
      names(titled('Gears and bottom end', 'Cooling, charge and air', 'Head', 'Fuel', 'Run'), 570),
    ).toEqual(['Gears', 'Cooling, charge', 'Head', 'Fuel', 'Run'])
  })

  test('no label is wider than its stage, at any width', () => {
    for (let width = 300; width <= 1400; width += 25) {
      const { labels } = draw(many, width)
      labels.forEach((label, index) => {
        const end = labels[index + 1]?.x ?? width
        if (label.text.length > 1) expect(label.x + label.text.length * 6.9).toBeLessThanOrEqual(end + 5)
      })
    }
  })

  test('initials of neighbours do not touch and stay on the strip', () => {
    const cells = many.map((one, i) => (i > 45 ? { ...one, standing: 'in_work' as const, by: `p${i}` } : one))
    const { initials } = draw(cells, 358)
    expect(initials.map(({ text }) => text)).toEqual(['P46', 'P47', 'P48', 'P49'])
    initials.forEach(({ x, text }, index) => {
      const half = (text.length * 9) / 2
      expect(x + half).toBeLessThanOrEqual(358)
      const next = initials[index + 1]
      if (next) expect(x + half).toBeLessThan(next.x - half)
    })
  })

  test('a number that is not as asked is marked as a flag is, and both it and a cure are said', () => {
    const cells = [cell('a', 0, 10, { standing: 'ready', offLimits: true }), cell('b', 0, 10, { curesAt: 5 })]
    expect(draw(cells, 200).shapes.map((shape) => shape.look)).toContain('flag-mark')
    expect(stripWords(cells, (id) => id)).toBe(
      '0 of 2 steps signed. Out of limits: a. Waiting for a cure: b. Ready: a.',
    )
  })

  test('the strip is said in words', () => {
    const cells = [
      cell('A1', 0, 10, { standing: 'done', by: 'ana' }),
      cell('A2', 0, 10, { standing: 'awaiting_second', by: 'ana' }),
      cell('B1', 1, 10, { standing: 'in_work', by: 'bo', flagged: true }),
      cell('B2', 1, 10, { standing: 'ready' }),
      cell('C1', 2, 10),
    ]
    expect(stripWords(cells, (id) => id)).toBe(
      '2 of 5 steps signed. In work: B1 by bo. Flagged: B1. Needs a second signature: A2. Ready: B2.',
    )
  })
})

describe('as a string', () => {
  const strip = (text: string) => ({
    shapes: [
      { look: 'done' as const, d: 'M0 0h9v9z' },
      { look: 'bar' as const, d: 'M0 9h9v2z', paint: 'var(--paint-blue)' },
    ],
    initials: [{ x: 4, text: 'AB', paint: 'var(--paint-blue)' }],
    reasons: [{ x: 0, text, full: text }],
    labels: [{ x: 0, text: 'A', full: 'Kit & clean' }],
    reasonY: 60,
    labelY: 80,
    height: 90,
  })

  test('every shape once, in its order, with its paint', () => {
    expect(stripMarkup(strip('part')).match(/<path[^>]*>/g)).toEqual([
      '<path class="done" d="M0 0h9v9z"/>',
      '<path class="bar" d="M0 9h9v2z" fill="var(--paint-blue)"/>',
    ])
  })

  test('the whole name goes with a short one, and with no other', () => {
    const drawn = stripMarkup(strip('part'))
    expect(drawn).toContain('y="80"><title>Kit &amp; clean</title>A</text>')
    expect(drawn).toContain('y="60">part</text>')
  })

  test('what a person wrote stays text, whatever it is', () => {
    const drawn = stripMarkup(strip('</text><script>alert("1")</script>&'))
    expect(drawn).not.toContain('<script')
    expect(drawn).toContain('&lt;/text&gt;&lt;script&gt;alert(&quot;1&quot;)&lt;/script&gt;&amp;</text>')
  })
})
