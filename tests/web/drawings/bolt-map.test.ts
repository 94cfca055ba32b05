import { describe, expect, test } from 'vitest'
import type { OutlineShape, Position } from '../../../shared/plan/types'
import { bandScale, gather } from '../../../web/drawings/band-scale'
import { layoutMap, type MapLayout, outlineBox, placeLabels, TARGET } from '../../../web/drawings/map-layout'
import { LONG, longPlan } from '../../crowd/extremes'
import { demoPlan } from '../../shop/plans/demo'

const plans = ['orrath-q31', 'ottersby-s9'].map(demoPlan)
const joints = plans.flatMap((plan) => plan.steps.flatMap((step) => step.joints))
const rooms = [
  { width: 760, height: 430 },
  { width: 800, height: 520 },
  { width: 358, height: 300 },
]

/** A sump of forty bolts, 20 mm apart: denser than any tablet shows at life size. */
const forty: Position[] = Array.from({ length: 40 }, (_, i) =>
  i < 20 ? { n: i + 1, x: 10 + i * 20, y: 10 } : { n: i + 1, x: 10 + (i - 20) * 20, y: 190 },
)
const pan: OutlineShape[] = [{ shape: 'rect', x: 0, y: 0, w: 400, h: 200 }]

function faults(layout: MapLayout): string[] {
  const wrong: string[] = []
  for (const a of layout.heads) {
    if (2 * a.hit < TARGET) wrong.push(`${a.n} is ${2 * a.hit} wide`)
    const reach = Math.max(a.hit, layout.headR)
    if (a.x < reach || a.y < reach || a.x > layout.width - reach || a.y > layout.height - reach)
      wrong.push(`${a.n} hangs over the edge`)
    for (const b of layout.heads)
      if (a.n < b.n && Math.hypot(a.x - b.x, a.y - b.y) < a.hit + b.hit - 1e-6)
        wrong.push(`${a.n} covers ${b.n}`)
  }
  return wrong
}

describe('where a finger goes on the bolt map', () => {
  test.each(rooms)(
    'every joint of both engines in $width × $height: none too small, none over another',
    (room) => {
      expect(joints.length).toBeGreaterThan(40)
      const wrong = joints.flatMap((joint) =>
        faults(layoutMap(joint.positions, joint.outline ?? [], room)).map((fault) => `${joint.id}: ${fault}`),
      )
      expect(wrong).toEqual([])
    },
  )

  test.each(rooms)('forty positions in $width × $height', (room) => {
    const layout = layoutMap(forty, pan, room)
    expect(layout.heads).toHaveLength(40)
    expect(faults(layout)).toEqual([])
  })

  test('a joint that fits is drawn inside its room, whole', () => {
    const head = joints.find(({ id }) => id === 'G-D1')
    const layout = layoutMap(head?.positions ?? [], head?.outline ?? [], { width: 760, height: 430 })
    expect(layout.width).toBeLessThanOrEqual(760)
    expect(layout.height).toBeLessThanOrEqual(430)
    for (const box of (head?.outline ?? []).map(outlineBox)) {
      expect(box.left * layout.scale + layout.dx).toBeGreaterThanOrEqual(0)
      expect(box.right * layout.scale + layout.dx).toBeLessThanOrEqual(layout.width)
    }
  })

  test('only a joint too dense for a phone is wider than it', () => {
    const wider = joints
      .filter(
        (joint) => layoutMap(joint.positions, joint.outline ?? [], { width: 358, height: 300 }).width > 359,
      )
      .map(({ id }) => id)
    expect(wider).toContain('G-C5')
    expect(wider.length).toBeLessThan(joints.length / 4)
  })

  test('a single bolt stands whole in its room', () => {
    const layout = layoutMap(
      [{ n: 1, x: 60, y: 60 }],
      [{ shape: 'circle', x: 60, y: 60, r: 50 }],
      rooms[0] as never,
    )
    expect(faults(layout)).toEqual([])
    expect(layout.height).toBeLessThanOrEqual(430)
  })

  test('the box round a path takes its absolute commands in', () => {
    expect(outlineBox({ shape: 'path', d: 'M20 8H110L122 96L66 122L8 96Z' })).toEqual({
      left: 8,
      top: 8,
      right: 122,
      bottom: 122,
    })
    expect(outlineBox({ shape: 'path', d: 'M168 120V20' })).toEqual({
      left: 168,
      top: 20,
      right: 168,
      bottom: 120,
    })
  })

  test('labels of neighbours do not lie over each other', () => {
    const feet = joints.find(({ id }) => id === 'G-G4')
    const layout = layoutMap(feet?.positions ?? [], feet?.outline ?? [], { width: 760, height: 430 })
    const texts = new Map((feet?.positions ?? []).map(({ n, label }) => [n, label ?? '']))
    const boxes = placeLabels(layout, texts).map(({ n, x, y, anchor }) => {
      const wide = (texts.get(n)?.length ?? 0) * 7.2
      const left = anchor === 'start' ? x : anchor === 'end' ? x - wide : x - wide / 2
      return { n, left, right: left + wide, top: y - 12, bottom: y + 3 }
    })
    expect(boxes).toHaveLength(8)
    const over = boxes.flatMap((a) =>
      boxes
        .filter(
          (b) => a.n < b.n && a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom,
        )
        .map((b) => `${a.n} over ${b.n}`),
    )
    expect(over).toEqual([])
  })
})

describe('the band bar', () => {
  test('the band takes the middle half while readings are near', () => {
    const scale = bandScale(61.75, 68.25, [65, 65, 64])
    expect(scale.min).toBeCloseTo(25)
    expect(scale.max).toBeCloseTo(75)
    expect(scale.at(65)).toBeCloseTo(50)
  })

  test('a value far off stands at the end and does not make a sliver of the band', () => {
    const scale = bandScale(8.1, 9.9, [9, 108])
    expect(scale.beyond(108)).toBe(1)
    expect(scale.at(108)).toBe(100)
    expect(scale.max - scale.min).toBeGreaterThan(25)
  })

  test('one limit only: the other end is open', () => {
    const most = bandScale(undefined, 6, [2.5])
    expect(most.min).toBe(0)
    expect(most.at(6)).toBeGreaterThan(most.at(2.5))
    const least = bandScale(2, undefined, [3.1])
    expect(least.max).toBe(100)
    expect(least.at(3.1)).toBeGreaterThan(least.min)
  })

  test('like readings are one tick with their number', () => {
    expect(gather([{ value: 65 }, { value: 64 }, { value: 65 }]).map(({ ticks }) => ticks.length)).toEqual([
      1, 2,
    ])
  })
})

describe('a joint of forty heads', () => {
  const joint = longPlan()
    .steps.flatMap(({ joints }) => joints)
    .find(({ id }) => id === LONG.jointId)
  const on = (width: number, height: number) =>
    layoutMap(joint?.positions ?? [], joint?.outline ?? [], { width, height })

  test.each([
    [358, 232],
    [700, 280],
    [1000, 500],
  ])('keeps every head as large as a glove in a room of %i × %i', (width, height) => {
    const { heads } = on(width, height)
    expect(heads).toHaveLength(40)
    for (const { hit } of heads) expect(2 * hit).toBeGreaterThanOrEqual(56)
  })

  test('fits across a tablet, and is pushed about on a phone only', () => {
    expect(on(700, 280).width).toBeLessThanOrEqual(700)
    expect(on(358, 232).width).toBeGreaterThan(358)
  })
})
