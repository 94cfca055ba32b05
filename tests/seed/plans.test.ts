/** The small plans of the demo shop: whole, marked as invented, with what the scenario names to the number. */
import { describe, expect, test } from 'vitest'
import brendlow from '../../seed/plans/brendlow-615.json'
import grendale from '../../seed/plans/grendale-p60.json'
import halvard from '../../seed/plans/halvard-f52.json'
import stavenmoor from '../../seed/plans/stavenmoor-g12.json'
import tolvane from '../../seed/plans/tolvane-b4.json'
import { counts } from '../../shared/plan/counts'
import { indexPlan, signatureSets } from '../../shared/plan/read'
import { readPlan } from '../../shared/plan/schema'
import type { Plan } from '../../shared/plan/types'
import { figures } from '../shop/words'

const read = (value: unknown): Plan => {
  const reading = readPlan(value, figures)
  if ('faults' in reading) throw new Error(JSON.stringify(reading.faults, null, 2))
  // A cap nut has no class that could be read off it: that alone is asked about.
  const classless = 'COVER, 6 N·m on M6x1.0: “cap nut” is not a grade known here: it was judged as 8.8'
  expect(reading.cautions.map(({ problem }) => problem)).toEqual(
    reading.plan.id === 'tolvane-b4' ? [classless] : [],
  )
  return reading.plan
}
const plans: Record<string, Plan> = {
  halvard: read(halvard),
  brendlow: read(brendlow),
  stavenmoor: read(stavenmoor),
  grendale: read(grendale),
  tolvane: read(tolvane),
}
const jointOf = (plan: string, id: string) => {
  const joint = plans[plan] && indexPlan(plans[plan]).jointById.get(id)
  if (!joint) throw new Error(`${plan} has no joint ${id}`)
  return joint
}
const passesOf = (plan: string, id: string) =>
  jointOf(plan, id).passes.map((pass) =>
    pass.kind === 'torque'
      ? [pass.torqueNm, pass.wrench]
      : pass.kind === 'angle'
        ? `+${pass.angleDeg}°`
        : pass.kind,
  )

describe.each(Object.entries(plans))('%s', (_, plan) => {
  test('is of a size one sitting can read, invented, and ends in a release to the owner', () => {
    expect(plan.invented).toBe(true)
    expect(plan.notices?.join(' ')).toContain('invented')
    expect(plan.steps.length).toBeGreaterThanOrEqual(8)
    expect(plan.steps.length).toBeLessThanOrEqual(16)
    expect(plan.stages.at(-1)?.releases).toBe('to_owner')
  })

  test('every joint has an outline, and no two heads of a map touch', () => {
    for (const joint of plan.steps.flatMap((step) => step.joints)) {
      expect(joint.outline?.length, joint.id).toBeGreaterThan(0)
      for (const a of joint.positions)
        for (const b of joint.positions)
          if (a.n < b.n)
            expect(Math.hypot(a.x - b.x, a.y - b.y), `${joint.id} ${a.n} ${b.n}`).toBeGreaterThan(20)
    }
  })
})

test('the joints the scenario names: fasteners, thread, class and passes', () => {
  const named = (plan: string, id: string) => {
    const joint = jointOf(plan, id)
    return [joint.positions.length, joint.thread, joint.grade, joint.class, passesOf(plan, id)]
  }
  expect(named('halvard', 'MAIN')).toEqual([
    10,
    'M12x1.5',
    '10.9',
    'A',
    [
      [60, 'TW-12'],
      [110, 'TW-12'],
    ],
  ])
  expect(named('brendlow', 'RB-stud')).toEqual([6, 'M8x1.25', '8', 'B', [[22, 'TW-13']]])
  expect(named('brendlow', 'HEAD')).toEqual([
    8,
    'M10x1.25',
    '10',
    'A',
    [
      [20, 'TW-11'],
      [32, 'TW-11'],
      [40, 'TW-11'],
    ],
  ])
  expect(named('stavenmoor', 'RC-M6')).toEqual([8, 'M6x1.0', '8.8', 'C', [[9, 'TW-13']]])
  expect(named('stavenmoor', 'COOLER')).toEqual([4, 'M8x1.25', '8.8', 'A', [[20, 'TW-13']]])
  expect(named('stavenmoor', 'SHROUD')).toEqual([9, 'M6x1.0', '8.8', 'C', [[8, 'TW-13']]])
  expect(named('tolvane', 'ROD')).toEqual([8, 'M8x1.0', '10.9', 'A', [[18, 'TW-11'], '+60°']])
  expect(named('tolvane', 'HEAD')).toEqual([
    10,
    'M10x1.5',
    '10.9',
    'A',
    [
      [35, 'TW-11'],
      [70, 'TW-12'],
    ],
  ])
  expect(jointOf('tolvane', 'ROD').use).toEqual({ kind: 'one_use' })
})

test('the shroud hides the oil cooler, the baler’s sump its rods, cap by cap signed', () => {
  expect(indexPlan(plans.stavenmoor as Plan).hiddenBy.get('COOLER')).toEqual([
    { stepId: 'D5', positions: [1, 2, 3, 4] },
  ])
  expect(indexPlan(plans.tolvane as Plan).hiddenBy.get('ROD')).toMatchObject([{ stepId: 'B4' }])
  const rods = (plans.tolvane as Plan).steps.find(({ id }) => id === 'B2')
  expect(rods && signatureSets(rods).map(({ id }) => id)).toEqual([
    'cap-1',
    'cap-2',
    'cap-3',
    'cap-4',
    'step',
  ])
})

test('the pump engine asks for fourteen readings before anybody quotes', () => {
  const step = (plans.grendale as Plan).steps.find(({ id }) => id === 'B1')
  expect(step?.measurements.flatMap(({ places }) => places)).toHaveLength(14)
  expect(counts(plans.grendale as Plan).byClass.A).toBeGreaterThan(0)
})
