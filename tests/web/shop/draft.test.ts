/** A plan in draft: its changes, its check with each point at its place, and the shelf it is kept on. */
import 'fake-indexeddb/auto'
import { describe, expect, test } from 'vitest'
import { checkPlan } from '../../../shared/plan/check'
import type { Joint, Pass, Plan } from '../../../shared/plan/types'
import {
  addJoint,
  addStep,
  changeJoint,
  changeStep,
  moveStep,
  newId,
  patternOf,
  placeAnew,
  placed,
  removeJoint,
  removeStep,
  withLimits,
} from '../../../web/pages/shop/draft/draft-plan'
import { finishOf, placeInPlan, within } from '../../../web/pages/shop/draft/finish'
import { judgedPass, printedPasses } from '../../../web/pages/shop/draft/judged'
import { draftShelf, memoryShelf } from '../../../web/pages/shop/draft/shelf'
import { placeWords } from '../../../web/shop/plan-place'
import { joint, planOf, step } from '../../shop/plan'
import { figures } from '../../shop/words'

const BARE: Plan = {
  format: 'paintmark-plan/1',
  id: 'x-1',
  edition: 1,
  title: 'Torques',
  family: 'diesel',
  source: 'Invented sheet',
  stages: [{ id: 'S1', title: 'From the sheet' }],
  steps: [],
}
const two = addJoint(addStep(addJoint(addStep(BARE), 0)), 1)
const problems = (plan: Plan) => finishOf(plan).faults.map(({ problem }) => problem)

describe('what the judge says of a pass while it is typed', () => {
  const bolt = (more: Partial<Joint> = {}) => joint('J1', { lubrication: 'engine oil', ...more })
  const torque = (torqueNm: number | null, more: object = {}): Pass => ({ kind: 'torque', torqueNm, ...more })

  test('what the bolt cannot bear, in the words of the check', () => {
    const said = judgedPass(bolt({ passes: [torque(60)] }), 0)
    expect(said).toMatchObject({ against: true })
    expect(said?.sentences[0]).toMatch(/^60 N·m would break an M8x1.25 bolt \(8.8\)/)
    const [fault] = finishOf(planOf(step('A1', { joints: [bolt({ passes: [torque(60)] })] }))).faults
    expect(fault?.problem).toContain(said?.sentences[0]?.replace(/\.$/, ''))
  })
  test('what is doubtful or assumed is told and is not against it; what is right is not told', () => {
    expect(judgedPass(bolt({ passes: [torque(38)] }), 0)).toMatchObject({
      against: false,
      sentences: [expect.stringContaining('past its yield')],
    })
    expect(
      judgedPass(bolt({ thread: 'M8 x 25', grade: 'not given', passes: [torque(22)] }), 0)?.sentences,
    ).toEqual([
      'No grade is given: it was judged as 8.8.',
      'M8 x 25 is taken as M8x1.25, the coarse pitch, 25 mm long.',
    ])
    expect(judgedPass(bolt({ passes: [torque(22)] }), 0)).toBeUndefined()
    expect(judgedPass(bolt({ passes: [torque(null)] }), 0)).toBeUndefined()
    expect(judgedPass(bolt({ passes: [{ kind: 'angle', angleDeg: 90 }] }), 0)).toBeUndefined()
  })
  test('limits are judged with it, and what was taken as printed says why', () => {
    const nut = { fastener: 'nut', grade: '8' } as const
    expect(judgedPass(bolt({ ...nut, passes: [torque(22)] }), 0)).toBeUndefined()
    const wide = judgedPass(
      bolt({ ...nut, passes: [torque(22, { limits: { minNm: 20, maxNm: 90, from: 'plan' } })] }),
      0,
    )
    expect(wide?.sentences.join(' ')).toMatch(
      /The highest, 90 N·m, would pull a class 8 nut over its proof load/,
    )
    const asPrinted = { torqueNm: 60, photo: 'a'.repeat(64), reason: 'confirmed by letter' }
    const taken = judgedPass(bolt({ passes: [torque(60, { asPrinted })] }), 0)
    expect(taken?.against).toBe(false)
    expect(taken?.sentences.at(-1)).toBe('Taken as printed: confirmed by letter')
    expect(judgedPass(bolt({ passes: [torque(61, { asPrinted })] }), 0)?.against).toBe(true)
  })

  test('a printed text: read, read with a remark, offered, asked, refused', () => {
    expect(printedPasses(bolt(), '22 Nm')).toEqual({
      says: 'Read as 22 N·m.',
      passes: [torque(22)],
      notes: [],
      offers: [],
    })
    expect(printedPasses(bolt(), '60 Nm').said).toMatchObject({ against: true })
    const remarked = printedPasses(bolt(), '22.0 N·m (16.5 lbf·ft)')
    expect(remarked.notes).toEqual([expect.stringMatching(/ % apart\. The first is taken\.$/)])
    expect(remarked.said?.sentences).toEqual(remarked.notes)
    const offered = printedPasses(bolt(), '22 Nm with new bolts')
    expect(offered.passes).toBeUndefined()
    expect(offered.offers).toEqual([
      {
        text: '22 N·m',
        passes: [torque(22)],
        notes: ['Printed beside it, and not read: “with new bolts”.'],
      },
    ])
    const asked = printedPasses(bolt(), '22-25')
    expect(asked.says).toContain('without a unit')
    expect(asked.offers.map(({ text }) => text)).toContain('22-25 N·m')
    expect(printedPasses(bolt(), 'see page 14')).toMatchObject({ offers: [], notes: [] })
    expect(printedPasses(bolt(), '24 N·m (30 lbf·ft)')).toMatchObject({
      says: expect.stringContaining('are not the same torque'),
      offers: [],
    })
  })
})

describe('changing a draft', () => {
  test('a new step and a new joint have ids of their own and no fault', () => {
    expect(two.steps.map(({ id, joints }) => [id, joints[0]?.id])).toEqual([
      ['T1', 'J1'],
      ['T2', 'J2'],
    ])
    expect(problems(two)).toEqual([])
    expect(newId('J', ['J1', 'J3'])).toBe('J2')
  })

  test('a plan is never changed in place', () => {
    const before = JSON.stringify(two)
    changeJoint(changeStep(two, 0, { title: 'Head' }), 0, 0, { title: 'Nut' })
    removeStep(two, 0)
    moveStep(two, 0, 1)
    expect(JSON.stringify(two)).toBe(before)
  })

  test('a step taken out is needed and hidden behind by nobody any more', () => {
    const tied = changeStep(two, 1, { needs: ['T1'], hides: [{ joint: 'J1' }] })
    expect(removeStep(tied, 0).steps).toMatchObject([{ id: 'T2', needs: [], hides: [] }])
    expect(removeJoint(tied, 0, 0).steps[1]?.hides).toEqual([])
  })

  test('steps move, and stay within the plan', () => {
    expect(moveStep(two, 0, 1).steps.map(({ id }) => id)).toEqual(['T2', 'T1'])
    expect(moveStep(two, 0, -1)).toBe(two)
    expect(moveStep(two, 1, 1)).toBe(two)
  })

  test('a value taken out leaves no empty entry', () => {
    const long = changeJoint(two, 0, 0, { lengthMm: 75 })
    expect(long.steps[0]?.joints[0]?.lengthMm).toBe(75)
    expect(changeJoint(long, 0, 0, { lengthMm: undefined }).steps[0]?.joints[0]).not.toHaveProperty(
      'lengthMm',
    )
  })

  test.each(['row', 'rows', 'circle'] as const)('places %s are known again', (pattern) => {
    expect(patternOf(placed(8, pattern))).toBe(pattern)
    expect(placed(8, pattern).map(({ n }) => n)).toEqual([1, 2, 3, 4, 5, 6, 7, 8])
    const places = new Set(placed(12, pattern).map(({ x, y }) => `${x} ${y}`))
    expect(places.size).toBe(12)
  })

  test('places of their own are no pattern; placed anew, the old order goes', () => {
    expect(patternOf([{ n: 1, x: 3, y: 4 }])).toBeUndefined()
    const ordered = changeJoint(placeAnew(two, 0, 0, 4, 'circle'), 0, 0, { order: [1, 3, 2, 4] })
    expect(placeAnew(ordered, 0, 0, 5, 'circle').steps[0]?.joints[0]).not.toHaveProperty('order')
    expect(problems(placeAnew(ordered, 0, 0, 5, 'circle'))).toEqual([])
  })

  test('limits come both or not at all', () => {
    expect(withLimits({ kind: 'torque', torqueNm: 30 }, 27, 33)).toMatchObject({
      limits: { minNm: 27, maxNm: 33, from: 'maker' },
    })
    expect(withLimits({ kind: 'torque', torqueNm: 30 }, 27, undefined)).toEqual({
      kind: 'torque',
      torqueNm: 30,
    })
  })
})

describe('the check of a draft', () => {
  test('what the plan check says is said at its place', () => {
    const angled = changeJoint(two, 1, 0, { passes: [{ kind: 'angle', angleDeg: 90 }] })
    const [fault] = finishOf(angled).faults
    expect(fault).toEqual(checkPlan(angled, figures).faults[0])
    expect(placeInPlan(fault?.path ?? '')).toEqual({ step: 1, joint: 0, part: 'interruption' })
    expect(fault?.fix).toBe('Say what to do when it is interrupted once an angle is turned.')
    expect(placeWords(angled, fault?.path ?? '')).toBe('T2 New step: New joint, when it is interrupted')
    expect(within(finishOf(angled).faults, 1, 0)).toHaveLength(1)
    expect(within(finishOf(angled).faults, 0)).toEqual([])
    const said = changeJoint(angled, 1, 0, {
      interruption: { torqueOnly: 'restart_pass', afterAngle: 'new_fasteners' },
    })
    expect(problems(said)).toEqual([])
  })

  test('what can be mistyped here is a fault too', () => {
    expect(problems(BARE)).toEqual(['There is no step'])
    expect(problems({ ...two, id: 'a b' })).toEqual(['The id cannot stand so'])
    expect(problems(changeStep(two, 0, { title: ' ' }))).toEqual(['The title of the step is empty'])
    expect(problems(changeJoint(two, 0, 0, { passes: [{ kind: 'torque', torqueNm: 0 }] }))).toEqual([
      '0 N·m is no torque',
    ])
    expect(problems(changeJoint(two, 0, 0, { passes: [] }))).toEqual(['It has no pass'])
  })

  test('what a sheet does not tell is open, not a fault', () => {
    const open = finishOf(two).open.map(({ problem }) => problem)
    expect(open).toEqual([
      'No stage opens the release to the owner',
      'The time it takes is not given',
      'thread, grade and lubrication not given',
      'There is no torque',
      'The time it takes is not given',
      'thread, grade and lubrication not given',
      'There is no torque',
    ])
  })
})

describe('the shelf', () => {
  const draft = (id: string, changedAt: number) => ({ id, plan: two, changedAt })
  test.each([
    ['of this browser', () => draftShelf('shop-a')],
    ['of the page, where the browser has none', async () => memoryShelf()],
  ])('%s: the newest first, dropped for good, the sheet apart', async (_, open) => {
    const shelf = await open()
    await shelf.put(draft('d-1', 1))
    await shelf.put(draft('d-2', 2))
    await shelf.putSheet({ text: 'a', choices: {}, corrections: {} })
    expect((await shelf.all()).map(({ id }) => id)).toEqual(['d-2', 'd-1'])
    await shelf.drop('d-2')
    expect(await shelf.get('d-2')).toBeUndefined()
    expect((await shelf.get('d-1'))?.plan).toEqual(two)
    expect((await shelf.sheet())?.text).toBe('a')
    await shelf.putSheet(undefined)
    expect(await shelf.sheet()).toBeUndefined()
  })

  test('another shop at the same address has its own', async () => {
    await (await draftShelf('shop-b')).put(draft('d-9', 1))
    expect(await (await draftShelf('shop-c')).get('d-9')).toBeUndefined()
  })
})
