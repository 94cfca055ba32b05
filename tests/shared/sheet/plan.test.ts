import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { checkPlan } from '../../../shared/plan/check'
import { readPlan } from '../../../shared/plan/schema'
import { readSheet, sheetToPlan } from '../../../shared/sheet'
import { figures } from '../../shop/words'

const HEAD = { id: 'draft', title: 'Draft', family: 'diesel', source: 'A sheet made up for a test' }
const draft = (text: string) => sheetToPlan(readSheet(text, figures).lines, HEAD, figures)
const joints = (text: string) => draft(text).plan.steps.flatMap((step) => step.joints)

describe('a plan from a sheet', () => {
  test('[TS10] a step a section, a joint a line, positions in a row', () => {
    const { plan } = draft(
      'Item,Thread,Qty,Torque\nFirst,M8,1,9 Nm\nHEAD,,,\nHead bolts,M10,3,40 Nm\nStuds,M8,2,20 Nm + 90°\n',
    )
    expect(plan.steps.map(({ id, title, joints: of }) => [id, title, of.map((joint) => joint.id)])).toEqual([
      ['T1', 'Draft', ['J2']],
      ['T2', 'HEAD', ['J4', 'J5']],
    ])
    const [head, studs] = plan.steps[1]?.joints ?? []
    expect(head).toMatchObject({
      title: 'Head bolts',
      thread: 'M10',
      fastener: 'bolt',
      class: 'B',
      passes: [{ kind: 'torque', torqueNm: 40 }],
    })
    expect(head?.positions.map(({ n, y }) => [n, y])).toEqual([
      [1, 0],
      [2, 0],
      [3, 0],
    ])
    expect(head?.notes?.[0]).toBe('As pasted, line 4: Head bolts,M10,3,40 Nm')
    expect(studs).toMatchObject({
      fastener: 'stud',
      passes: [
        { kind: 'torque', torqueNm: 20 },
        { kind: 'angle', angleDeg: 90 },
      ],
      interruption: { afterAngle: 'new_fasteners' },
    })
  })

  test.each([
    ['see note', 'no torque'],
    ['35', 'without a unit'],
    ['95 N·m (70 in-lb)', 'not the same torque'],
    ['max 20 N·m', 'only a limit'],
    ['60000 N·m', 'More than'],
    ['30 Nm + 1200°', 'More than'],
  ])('[TS10] no torque is taken from “%s”, and the joint says why', (printed, why) => {
    const [joint] = joints(`Item;Torque\nA;${printed}\n`)
    expect(joint?.passes).toEqual([{ kind: 'torque', torqueNm: null }])
    expect(joint?.notes?.join(' ')).toContain(why)
  })

  test('[TS10] printed limits are the maker’s; the middle of a range is said to be proposed', () => {
    const [value, range, slack] = joints(
      'Item;Torque\nA;24 ±4 N·m\nB;18-22 N·m\nC;40 N·m, slacken 180°, 20 N·m\n',
    )
    expect(value?.passes).toEqual([
      { kind: 'torque', torqueNm: 24, limits: { minNm: 20, maxNm: 28, from: 'maker' } },
    ])
    expect(range?.passes).toEqual([
      { kind: 'torque', torqueNm: 20, limits: { minNm: 18, maxNm: 22, from: 'maker' } },
    ])
    expect(range?.notes?.join(' ')).toContain('its middle is proposed')
    expect(slack?.passes[1]).toEqual({ kind: 'slacken', angleDeg: 180 })
  })

  test('[TS10] every joint is class B, and the plan says that it is a draft', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom('Head;40 Nm', 'HEAD;', 'Cap;35', ';', 'Rod;30 Nm + 90°', 'Plug;see note')),
        (rows) => {
          const { plan, faults } = draft(`Item;Torque\n${rows.join('\n')}`)
          expect(faults).toEqual([])
          expect(plan.steps.flatMap((step) => step.joints).every((joint) => joint.class === 'B')).toBe(true)
          expect(plan.notices?.[0]).toContain('Every joint is proposed as class B')
          expect(readPlan(plan, figures)).toHaveProperty('plan')
        },
      ),
      { numRuns: 100 },
    )
  })

  test('[TS10] what the plan check finds comes with it', () => {
    const { plan, faults, cautions } = draft('A;40 Nm\n')
    expect({ faults, cautions }).toEqual(checkPlan(plan, figures))
  })

  test('[TS9] 2,000 lines: each is a joint, steps within what a plan takes', () => {
    const rows = Array.from({ length: 2000 }, (_, i) => `Bolt ${i},M8,${(i % 12) + 1},${20 + (i % 50)} Nm`)
    const { plan } = draft(`Item,Thread,Qty,Torque\n${rows.join('\n')}`)
    expect(plan.steps.flatMap((step) => step.joints)).toHaveLength(2000)
    expect(Math.max(...plan.steps.map((step) => step.joints.length))).toBe(60)
    expect(readPlan(plan, figures)).toHaveProperty('plan')
  })
})
