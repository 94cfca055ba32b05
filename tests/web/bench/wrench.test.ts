/** The lever in the hand, the way round, and what a measurement leads to: the plain parts of the bench. */
import { describe, expect, test } from 'vitest'
import type { Adapter } from '../../../shared/job/types'
import { leadsNow, stepState } from '../../../shared/job/verdicts'
import { ledWords } from '../../../shared/measure'
import type { Wrench } from '../../../shared/shop/types'
import { layoutLever } from '../../../web/drawings/lever'
import { layoutMap } from '../../../web/drawings/map-layout'
import { routeLegs } from '../../../web/drawings/map-route'
import { adapterNow, adapterWords, leverFault, sameAdapter } from '../../../web/pages/bench/adapter'
import { figureWords, proposedOrder, routeOf, routeWords } from '../../../web/pages/bench/order'
import { nextHead } from '../../../web/pages/bench/work'
import {
  heldUp,
  proposedWrench,
  roomWords,
  settingWords,
  wrenchChoices,
} from '../../../web/pages/bench/wrench'
import { benchWith } from '../../shop/bench'
import { person } from '../../shop/people'
import { demoPlan } from '../../shop/plans/demo'
import { shopOf } from '../../shop/shop'
import { DAY, START } from '../../shop/time'
import { figures } from '../../shop/words'
import { wrench } from '../../shop/wrenches'
import { roundAt } from './at'

const click = (id: string, some: Partial<Wrench> = {}) =>
  wrench(id, { title: id, min: 10, increment: 0.1, lengthMm: 300, ...some })
const { lengthMm: _, ...lengthUnknown } = click('TW-16')
const crib = [
  click('TW-11'),
  click('TW-14', { unit: 'lbf·ft', min: 5, max: 75, increment: 0.5, lengthMm: 390 }),
  lengthUnknown,
  click('IW-01', { kind: 'indicating' }),
]
const shop = shopOf({ people: [person('bram'), person('suvi', { paint: 'green' })], wrenches: crib })
const crowfoot: Adapter = { wrenchMm: 300, adapterMm: 30, angleDeg: 0 }

const bench = (name = 'orrath-q31') => benchWith({ shop, plan: demoPlan(name) })

describe('an adapter on the wrench in hand', () => {
  const scale = { type: 'EnterScale', jointId: 'G-E5', pass: 1, wrenchId: 'TW-11', value: 21.8 } as const
  const asked = { wrench: crib[0], jointId: 'G-E5', by: 'bram' }

  test('24 N·m through 30 mm on 300 mm: 21.8 is set, and what it applies is told', () => {
    const band = { kind: 'torque', minNm: 22.8, maxNm: 25.2, from: 'shop' } as const
    const choices = wrenchChoices(shop, { kind: 'torque', torqueNm: 24, wrench: 'TW-11' }, START, {
      band,
      adapter: crowfoot,
    })
    const own = choices.find(({ wrench: { id } }) => id === 'TW-11')
    expect(own?.setting?.value).toBeCloseTo(21.8, 9)
    expect(own && settingWords(own)).toBe('Set 21.8 N·m: 23.98 N·m at the fastener, in band.')
    // Each wrench through its own length: 30 mm on 390 mm lengthens less.
    const foot = choices.find(({ wrench: { id } }) => id === 'TW-14')
    expect(foot?.setting?.value).toBe(16.5)
    expect(proposedWrench(choices)?.id).toBe('TW-11')
  })

  test('it is remembered for this wrench in this joint by the number that stands', () => {
    const at = bench()
    expect(adapterNow(at.job(), asked, undefined)).toEqual({ kind: 'none' })
    at.does({ ...scale, adapter: crowfoot })
    expect(adapterNow(at.job(), asked, undefined)).toEqual({ kind: 'on', adapter: crowfoot })
    expect(adapterNow(at.job(), asked, null)).toEqual({ kind: 'none' })
    expect(adapterNow(at.job(), { ...asked, jointId: 'G-E3' }, undefined)).toEqual({ kind: 'none' })
  })

  test('after a stop, and for another hand or wrench, it is asked again', () => {
    const at = bench()
    at.does({ ...scale, adapter: crowfoot })
    expect(adapterNow(at.job(), { ...asked, by: 'suvi' }, undefined).kind).toBe('ask')
    const other = adapterNow(at.job(), { ...asked, wrench: crib[1] }, undefined)
    expect(other).toMatchObject({ kind: 'ask', before: { wrenchMm: 390 }, sound: true })
    // Of a wrench nobody measured the lever is not known: it has to be entered.
    expect(adapterNow(at.job(), { ...asked, wrench: crib[2] }, undefined)).toMatchObject({ sound: false })
    at.happens({ type: 'StepStopped', by: 'bram', doneAt: START + DAY, stepId: 'E5', at: [] })
    expect(adapterNow(at.job(), asked, undefined)).toMatchObject({
      kind: 'ask',
      before: crowfoot,
      sound: true,
    })
    // Said anew, or taken off: no question any more.
    expect(adapterNow(at.job(), asked, crowfoot).kind).toBe('on')
    at.does(scale)
    expect(adapterNow(at.job(), asked, undefined)).toEqual({ kind: 'none' })
  })

  test('a gauge that shows is not reckoned through one, and a lever that turns the other way is none', () => {
    const at = bench()
    expect(adapterNow(at.job(), { ...asked, wrench: crib[3] }, crowfoot)).toEqual({ kind: 'none' })
    expect(leverFault({ wrenchMm: 300, adapterMm: 320, angleDeg: 180 })?.refused).toBe('lever_reversed')
    expect(leverFault(crowfoot)).toBeUndefined()
    expect(sameAdapter(crowfoot, { ...crowfoot })).toBe(true)
    expect(sameAdapter(crowfoot, undefined)).toBe(false)
    expect(adapterWords(crowfoot)).toBe('30 mm straight out on a wrench of 300 mm')
    expect(adapterWords({ ...crowfoot, angleDeg: 30 })).toContain('at 30°')
  })

  test('set as if there were no adapter, it is held up with the number for this scale', () => {
    const at = bench()
    at.does({ ...scale, value: 24, adapter: { ...crowfoot, adapterMm: 60 } })
    const entry = at.job().scales['TW-11']
    const held = entry && heldUp(entry, 24, roundAt(at, 'E5').joint)
    expect(held?.title).toBe('Stop: the scale is set above the band.')
    expect(held?.sentences.join(' ')).toContain('24 N·m through the adapter applies 28.8 N·m')
    expect(held?.sentences.join(' ')).toContain('which is 20 on this scale')
  })

  test('in place of a click wrench another click wrench is proposed, though a gauge has the finer scale', () => {
    const failed = wrench('TW-12', { min: 40, max: 200, increment: 1, state: 'failed' })
    const more = { ...shop, wrenches: { ...shop.wrenches, 'TW-12': failed } }
    const choices = wrenchChoices(more, { kind: 'torque', torqueNm: 48, wrench: 'TW-12' }, START, {
      band: { kind: 'torque', minNm: 45.6, maxNm: 50.4, from: 'shop' },
    })
    expect(proposedWrench(choices)?.kind).toBe('click')
    const unplanned = wrenchChoices(more, { kind: 'torque', torqueNm: 48 }, START)
    expect(proposedWrench(unplanned)?.id).toBe('IW-01')
  })

  test('can it do the joint at all: a plain sentence either way', () => {
    const told = (minNm: number, maxNm: number) => {
      const band = { kind: 'torque', minNm, maxNm, from: 'plan' } as const
      const [best] = wrenchChoices(shop, { kind: 'torque', torqueNm: 24, wrench: 'TW-11' }, START, { band })
      return best && roomWords(best)
    }
    // 22·1.04 + 0.05 = 22.93 and 26·0.96 − 0.05 = 24.91, to the marks within.
    expect(told(22, 26)).toBe(
      'TW-11 can do this joint: anything from 23 to 24.9 N·m on its scale stays in the band, its ±4 % included.',
    )
    expect(told(23.9, 24.1)).toContain('is not accurate enough for this joint')
  })
})

describe('the way round', () => {
  test('the plan’s order is drawn as it is, and needs no words', () => {
    const round = roundAt(bench(), 'D1', 'G-D1')
    expect(round.proposed).toBeUndefined()
    const route = routeOf(round, false)
    expect(route).toMatchObject({ positions: round.positions, proposed: false, loosening: false })
    expect(routeWords(route)).toBeUndefined()
    // The heads of this joint show their turn, not their number: the words say what is seen.
    const nuts = roundAt(bench('ottersby-s9'), 'B1', 'H-B1')
    expect(routeOf(nuts, true)?.positions).toEqual([6, 3, 5, 2, 4, 1])
    expect(routeWords(routeOf(nuts, true))).toBe(
      'Loosen in reverse order, by the big numbers on the heads: 6, 5, 4, 3, 2, 1.',
    )
    expect(figureWords(nuts.joint)).toBe('Big number: its turn. “no.”: the number of the nut itself.')
    expect(figureWords(round.joint)).toBeUndefined()
  })

  test('where the plan gives none it is proposed, and said to be a proposal', () => {
    const at = bench()
    const round = roundAt(at, 'G4', 'G-G4')
    expect(round.ordered).toBe(false)
    expect([...(round.proposed ?? [])].sort((a, b) => a - b)).toEqual(round.positions)
    expect(routeWords(routeOf(round, false))).toMatch(
      /^The plan gives no order\. Proposed: .* Any other order is recorded too\.$/,
    )
    expect(nextHead(at.job(), round, 1)).toBe(round.proposed?.[0])
  })

  test('a proposal is never a rule: any other way round carries no flag', () => {
    const at = bench()
    const round = roundAt(at, 'G4', 'G-G4')
    const last = round.proposed?.at(-1) as number
    at.does({ type: 'TakeReading', jointId: 'G-G4', position: last, pass: 1, how: 'clicked' })
    expect(at.job().readings['G-G4']?.[0]?.flags).not.toContain('out_of_order')
    expect(nextHead(at.job(), round, 1)).toBe(round.proposed?.[0])
  })

  test('plugs, unions and pairs wait for nobody: none is proposed', () => {
    const at = bench()
    expect(proposedOrder(roundAt(at, 'E5', 'G-E5').joint, [1, 2, 3, 4, 5, 6])).toBeUndefined()
    expect(proposedOrder(roundAt(at, 'G4', 'G-G4').joint, [1, 2])).toBeUndefined()
    expect(roundAt(at, 'E5', 'G-E5').proposed).toBeUndefined()
  })

  test('a slacken pass goes the other way round, and no order is held against it', () => {
    const at = bench('ottersby-s9')
    const round = roundAt(at, 'D2', 'H-D2')
    const slacken = round.joint.passes.findIndex(({ kind }) => kind === 'slacken') + 1
    expect(nextHead(at.job(), round, slacken)).toBe(round.positions.at(-1))
    const other = round.positions[2] as number
    at.does({ type: 'TakeReading', jointId: 'H-D2', position: other, pass: slacken, how: 'slackened' })
    expect(at.job().readings['H-D2']?.[0]?.flags).not.toContain('out_of_order')
  })

  test('arrows lie between heads, clear of both, and point onward', () => {
    const { positions } = roundAt(bench(), 'D1', 'G-D1').joint
    const layout = layoutMap(positions, [], { width: 800, height: 400 })
    const order = [1, 5, 8]
    const legs = routeLegs(layout, order)
    expect(legs).toHaveLength(2)
    const at = (n: number) => layout.heads.find((head) => head.n === n) as { x: number; y: number }
    legs.forEach((leg, index) => {
      const [from, to] = [at(order[index] as number), at(order[index + 1] as number)]
      expect(Math.hypot(leg.x1 - from.x, leg.y1 - from.y)).toBeGreaterThan(layout.headR)
      expect(Math.hypot(leg.x2 - to.x, leg.y2 - to.y)).toBeGreaterThan(layout.headR)
      expect((leg.x2 - leg.x1) * (to.x - from.x) + (leg.y2 - leg.y1) * (to.y - from.y)).toBeGreaterThan(0)
    })
  })
})

describe('the lever as drawn', () => {
  test.each([0, 45, 90, 135, 180, 270])('%s°: both lengths in one scale, all of it inside', (angleDeg) => {
    const at = layoutLever({ wrenchMm: 300, adapterMm: 60, angleDeg }, 300, 150)
    const wrenchPx = Math.hypot(at.drive.x - at.hand.x, at.drive.y - at.hand.y)
    expect(wrenchPx / at.scale).toBeCloseTo(300, 6)
    const along = (at.nut.x - at.drive.x) / at.scale
    expect(along).toBeCloseTo(60 * Math.cos((angleDeg * Math.PI) / 180), 6)
    for (const point of [at.hand, at.drive, at.nut, at.wrenchAt, at.adapterAt]) {
      expect(point.x).toBeGreaterThanOrEqual(10)
      expect(point.x).toBeLessThanOrEqual(at.width - 10)
      expect(point.y).toBeGreaterThanOrEqual(9)
      expect(point.y).toBeLessThanOrEqual(at.height - 6)
    }
  })
})

describe('what a measurement leads to', () => {
  test('the gasket of the highest, uncertain while places are open; a place outside is named', () => {
    const at = bench()
    const step = at.step('B5')
    const [asked] = step.measurements
    if (!asked) throw new Error('B5 measures nothing')
    const words = () => ledWords(leadsNow(stepState(at.job(), 'B5'), asked, figures))
    expect(words()).toEqual([])
    const measure = (place: string, value: number) =>
      at.does({
        type: 'TakeMeasurement',
        stepId: 'B5',
        measurementId: asked.id,
        place,
        value,
        instrument: 'i',
      })
    measure('cyl 1', 0.62)
    expect(words()[0]?.words).toContain('2 more to measure')
    // More to measure is nothing against it.
    expect(words()[0]?.against).toBe(false)
    measure('cyl 2', 0.58)
    measure('cyl 3', 0.61)
    expect(words()).toHaveLength(1)
    expect(words()[0]).toMatchObject({ against: false })
    expect(words()[0]?.words).toContain('two notches')
  })

  test('one sentence for all the places it holds for', () => {
    expect(
      ledWords([
        { place: 'main 1', inside: true, sentence: 'Inside.' },
        { place: 'main 2', inside: false, sentence: 'Too wide.' },
        { place: 'main 3', inside: true, sentence: 'Inside.' },
      ]),
    ).toEqual([
      { words: 'main 1, main 3: Inside.', against: false },
      { words: 'main 2: Too wide.', against: true },
    ])
  })
})
