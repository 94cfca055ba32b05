/** The plans of the demo shop, judged as any plan file is. */
import { describe, expect, test } from 'vitest'
import orrath from '../../../seed/plans/orrath-q31.json'
import ottersby from '../../../seed/plans/ottersby-s9.json'
import { adopt } from '../../../shared/plan/adopt'
import { counts } from '../../../shared/plan/counts'
import { indexPlan, roundOf, signatureSets, stepClass } from '../../../shared/plan/read'
import { readPlan } from '../../../shared/plan/schema'
import { demoPlan } from '../../shop/plans/demo'
import { figures } from '../../shop/words'

const tolerances = { percent: { A: 5, B: 10, C: 15 }, angleDeg: 5 }

describe('the Orrath Q31', () => {
  test('reads without faults and has the size of real work', () => {
    const { minutes, ...sizes } = counts(demoPlan('orrath-q31'))
    expect(sizes).toEqual({
      steps: 50,
      joints: 47,
      fasteners: 180,
      byClass: { A: 91, B: 85, C: 4 },
      oneUse: 20,
      entries: 264,
      secondSignatures: 24,
      hides: 23,
    })
    expect(Object.values(minutes).map((total) => (total / 60).toFixed(1))).toEqual(['27.8', '40.7', '64.8'])
  })

  test('three hides lack their need, each named with the step to add; doubtful fasteners are listed before', () => {
    const read = readPlan(orrath, figures)
    expect(
      'cautions' in read && read.cautions.map(({ step, need, problem }) => [step, need, problem]),
    ).toEqual([
      ['D4', undefined, 'G-D4, 7 N·m on M6x1.0: “steel” is not a grade known here: it was judged as 8.8'],
      ['E4', undefined, 'G-E4, 10 N·m on M8x1.0: “steel” is not a grade known here: it was judged as 8.8'],
      ['F1', undefined, 'G-F1b: no friction is known for “thread sealant”'],
      ['E5', 'E2', 'E5 covers G-E2 but does not come after its step E2'],
      ['F5', 'F4', 'F5 covers G-F4 but does not come after its step F4'],
      ['G2', 'F4', 'G2 covers G-F4 but does not come after its step F4'],
    ])
  })

  test('adopted, every torque and angle has a band but the one nobody published', () => {
    const without = adopt(demoPlan('orrath-q31'), tolerances).steps.flatMap((step) =>
      step.joints.flatMap((joint) =>
        joint.passes.filter((_, i) => joint.bands[i] === null).map(() => joint.id),
      ),
    )
    expect(without).toEqual(['G-F6'])
  })

  test('adoption leaves the plan as it was and copies nothing but bands into it', () => {
    const plan = demoPlan('orrath-q31')
    const before = structuredClone(plan)
    const adopted = adopt(plan, tolerances)
    expect(plan).toEqual(before)
    expect(
      adopted.steps.flatMap((step) => step.joints.map(({ bands, ...joint }) => [bands.length, joint])),
    ).toEqual(plan.steps.flatMap((step) => step.joints.map((joint) => [joint.passes.length, joint])))
  })

  test('rod caps are signed one by one, and what is left over by the step itself', () => {
    const sets = signatureSets(find('B4'))
    expect(sets.map(({ id, covers, remainder }) => [id, covers, remainder])).toEqual([
      ['cap-1', [{ joint: 'G-B4', positions: [1, 2] }], false],
      ['cap-2', [{ joint: 'G-B4', positions: [3, 4] }], false],
      ['cap-3', [{ joint: 'G-B4', positions: [5, 6] }], false],
      ['step', [], true],
    ])
    expect(roundOf(find('B4'), 'G-B4', 4)).toEqual({ positions: [3, 4], ordered: false })
  })

  test('mains are one round from the centre outward', () => {
    expect(roundOf(find('B2'), 'G-B2', 8)).toEqual({ positions: [3, 6, 5, 4, 1, 8, 7, 2], ordered: true })
  })

  test('the front cover hides the idler hub, the pump two cover bolts', () => {
    const { hiddenBy, neededBy, stepOfJoint, stageById } = indexPlan(demoPlan('orrath-q31'))
    expect(hiddenBy.get('G-C1a')).toEqual([{ stepId: 'C3', positions: [1, 2, 3] }])
    expect(hiddenBy.get('G-C3')).toEqual([
      { stepId: 'C9', positions: [5, 6] },
      { stepId: 'F1', positions: [1, 2] },
      { stepId: 'F7', positions: [3, 4] },
    ])
    expect(neededBy.get('H3')).toEqual(['J1'])
    expect(stepOfJoint.get('G-E5')?.id).toBe('E5')
    expect(stageById.get('K')?.releases).toBe('to_owner')
  })

  test('a step takes the class of its gravest joint', () => {
    expect(['D4', 'B6', 'C2', 'H3', 'A1'].map((id) => stepClass(find(id)))).toEqual(['C', 'B', 'A', 'A', 'C'])
  })

  test('every joint of four fasteners or more that closes one face says in which order', () => {
    const brackets = ['G-D3', 'G-E5', 'G-G4', 'G-B4']
    const loose = demoPlan('orrath-q31').steps.flatMap((step) =>
      step.joints.filter((joint) => joint.positions.length >= 4 && !joint.order).map((joint) => joint.id),
    )
    expect(loose.sort()).toEqual(brackets.sort())
  })

  test('no two heads of a map touch, and every joint has an outline to know the part by', () => {
    for (const joint of [demoPlan('orrath-q31'), demoPlan('ottersby-s9')].flatMap((plan) =>
      plan.steps.flatMap((step) => step.joints),
    )) {
      expect(joint.outline?.length, joint.id).toBeGreaterThan(0)
      for (const a of joint.positions)
        for (const b of joint.positions)
          if (a.n < b.n)
            expect(Math.hypot(a.x - b.x, a.y - b.y), `${joint.id} ${a.n} ${b.n}`).toBeGreaterThan(20)
    }
  })

  test('is marked as invented and stays light', () => {
    expect(demoPlan('orrath-q31').invented).toBe(true)
    expect(demoPlan('orrath-q31').notices?.join(' ')).toContain('invented')
    expect(new TextEncoder().encode(JSON.stringify(orrath)).length).toBeLessThan(60_000)
  })
})

describe('the Ottersby S9', () => {
  test('reads without faults, and with the one caution that brass is no bolt strength', () => {
    const read = readPlan(ottersby, figures)
    expect('cautions' in read && read.cautions.map(({ problem }) => problem)).toEqual([
      'H-B3, 6 N·m on M6x1.0: “brass” is not a grade known here: it was judged as 8.8',
    ])
    expect(counts(demoPlan('ottersby-s9'))).toMatchObject({ steps: 8, fasteners: 14, entries: 34 })
  })

  test('head nuts go crosswise in three passes, and the re-check waits, slackens and tightens', () => {
    const { jointById, stepOfJoint } = indexPlan(demoPlan('ottersby-s9'))
    const head = jointById.get('H-B1')
    expect(head?.passes.map((pass) => pass.kind === 'torque' && pass.torqueNm)).toEqual([40, 70, 90])
    const step = stepOfJoint.get('H-B1')
    expect(step && roundOf(step, 'H-B1', 1).positions).toEqual([1, 4, 2, 5, 3, 6])
    const again = adopt(demoPlan('ottersby-s9'), tolerances).steps.find((one) => one.id === 'D2')?.joints[0]
    expect(again?.bands.map((band) => band?.from ?? null)).toEqual([null, null, 'shop'])
  })
})

const steps = new Map(demoPlan('orrath-q31').steps.map((step) => [step.id, step]))
function find(id: string) {
  const step = steps.get(id)
  if (!step) throw new Error(`no step ${id}`)
  return step
}
