/** What a plan asks of its fasteners: torques, words, fits and wrenches, judged before one is touched. */
import { describe, expect, test } from 'vitest'
import { checkPlan } from '../../../shared/plan/check'
import { impossiblePasses } from '../../../shared/plan/fasteners'
import { readPlan } from '../../../shared/plan/schema'
import type { AsPrinted, Joint, Plan, TappedHole } from '../../../shared/plan/types'
import { joint, planOf, step } from '../../shop/plan'
import { figures } from '../../shop/words'
import { wrench } from '../../shop/wrenches'
import { onlyFault, withJoint } from './faults'

const problems = (plan: Plan, atHand?: Parameters<typeof checkPlan>[2]) =>
  checkPlan(plan, figures, atHand).cautions.map(({ problem }) => problem)
const torque = (torqueNm: number, more: { asPrinted?: AsPrinted; wrench?: string } = {}): Partial<Joint> => ({
  passes: [{ kind: 'torque', torqueNm, ...more }],
})
const page = { photo: 'a'.repeat(64), reason: 'confirmed by letter' }

describe('torques', () => {
  test('[PC1] one that breaks the bolt is a fault, with figures', () => {
    const fault = onlyFault(withJoint(torque(60)))
    expect(fault).toMatch(
      /torqueNm: J1: 60 N·m would break an M8x1.25 bolt \(8.8\): even at .* \d+ % of its breaking load/,
    )
    const read = readPlan(withJoint(torque(60)), figures)
    expect('faults' in read && read.faults[0]?.asPrinted).toBe(true)
  })
  const limited = (maxNm: number, asPrinted?: AsPrinted): Plan =>
    withJoint({
      passes: [
        {
          kind: 'torque',
          torqueNm: 22,
          limits: { minNm: 20, maxNm, from: 'maker' },
          ...(asPrinted ? { asPrinted } : {}),
        },
      ],
    })
  test('[PC1] [PC2] its highest limit is held to the same: over the breaking load a fault, past yield a caution', () => {
    expect(onlyFault(limited(90))).toMatch(
      /torqueNm: J1: The highest, 90 N·m, would break an M8x1.25 bolt \(8.8\): .* of its breaking load/,
    )
    expect(checkPlan(limited(42), figures).faults).toEqual([])
    expect(problems(limited(42))).toEqual([
      expect.stringMatching(/^J1: The highest, 42 N·m, .* past its yield/),
    ])
    expect(checkPlan(limited(24), figures)).toEqual({ faults: [], cautions: [] })
  })
  test('[PC1] [PC2] [AP6] with the shop’s width at hand its top is judged too, and told as the shop’s', () => {
    const tolerances = (B: number) => ({ percent: { A: 5, B, C: 15 }, angleDeg: 5 })
    const plan = (torqueNm: number) =>
      withJoint({ class: 'B', lubrication: 'engine oil', ...torque(torqueNm) })
    expect(problems(plan(24), { tolerances: tolerances(10) })).toEqual([])
    expect(problems(plan(26), { tolerances: tolerances(10) })).toEqual([
      expect.stringMatching(/^J1: The highest this shop allows, 28.6 N·m, would pull .* past its yield/),
    ])
    expect(checkPlan(plan(26), figures, { tolerances: tolerances(10) }).cautions[0]?.fix).toMatch(
      /width for class B/,
    )
    expect(problems(plan(26))).toEqual([])
    expect(checkPlan(plan(26), figures, { tolerances: tolerances(90) }).faults[0]?.problem).toMatch(
      /^J1: The highest this shop allows, 49.4 N·m, would break/,
    )
    const [first] = plan(26).steps.flatMap((step) => step.joints)
    expect(first && impossiblePasses(first, tolerances(90))).toMatchObject([{ pass: 1 }])
    expect(first && impossiblePasses(first, tolerances(10))).toEqual([])
    // Limits that are printed stand before the shop's.
    expect(problems(limited(24), { tolerances: tolerances(90) })).toEqual([])
  })
  test('[PC3] taken with its highest limit, it is not taken with a higher one; older plans do not say', () => {
    const taken = { ...page, torqueNm: 22, maxNm: 90 }
    expect(readPlan(limited(90, taken), figures)).toHaveProperty('plan')
    expect(checkPlan(limited(91, taken), figures).faults).toHaveLength(1)
    expect(checkPlan(limited(91, { ...page, torqueNm: 22 }), figures).faults).toEqual([])
  })
  test('[PC1] a nut, a plug and an angle after it: what bears no load is not judged, what seats is', () => {
    expect(checkPlan(withJoint({ ...torque(60), fastener: 'plug' }), figures).faults).toEqual([])
    const seats: Partial<Joint> = {
      passes: [
        { kind: 'torque', torqueNm: 20 },
        { kind: 'angle', angleDeg: 180 },
      ],
      interruption: { torqueOnly: 'restart_pass', afterAngle: 'new_fasteners' },
    }
    expect(checkPlan(withJoint(seats), figures)).toEqual({ faults: [], cautions: [] })
  })
  test('[PC2] past yield is a caution and comes first, an assumed grade after it', () => {
    const plan = planOf(
      step('A1', { joints: [joint('J1', { grade: 'brass' }), joint('J2', torque(42)), joint('J3')] }),
    )
    expect(problems(plan)).toEqual([
      expect.stringMatching(
        /^J2: 42 N·m would pull an M8x1.25 bolt \(8.8\) past its yield at usual friction \(\d+ %\)$/,
      ),
      'J1, 22 N·m on M8x1.25: “brass” is not a grade known here: it was judged as 8.8',
    ])
  })
  test('[PC3] taken as printed it is a caution with the reason, and only for that value', () => {
    const taken = withJoint(torque(60, { asPrinted: { ...page, torqueNm: 60 } }))
    expect(readPlan(taken, figures)).toHaveProperty('plan')
    expect(problems(taken)).toEqual([expect.stringContaining('Taken as printed: confirmed by letter')])
    expect(
      checkPlan(withJoint(torque(60, { asPrinted: { ...page, torqueNm: 50 } })), figures).faults,
    ).toHaveLength(1)
  })
  test('[PC7] where the shelf is known, a page that is not on it is a fault that may be mended so', () => {
    const taken = withJoint(torque(60, { asPrinted: { ...page, torqueNm: 60 } }))
    expect(checkPlan(taken, figures, { bytesHere: (sha256) => sha256 === page.photo }).faults).toEqual([])
    expect(checkPlan(taken, figures, { bytesHere: () => false }).faults).toEqual([
      {
        path: expect.stringMatching(/passes\[0\]\.torqueNm$/),
        problem: 'J1: 60 N·m is taken as printed, but the photo of its page is not on this server',
        fix: 'Take it as printed again, with the photo.',
        asPrinted: true,
      },
    ])
    // What was taken for another value says nothing, and its page is not asked for.
    const other = withJoint(torque(22, { asPrinted: { ...page, torqueNm: 60 } }))
    expect(checkPlan(other, figures, { bytesHere: () => false }).faults).toEqual([])
  })
  test('[PC3] a page that is no hash is a fault of the file', () => {
    const plan = withJoint(torque(60, { asPrinted: { torqueNm: 60, reason: 'x', photo: 'page.jpg' } }))
    expect(onlyFault(plan)).toContain('Write the photo’s SHA-256, 64 hex digits.')
  })
})

describe('words', () => {
  test('[PC8] “plated” is asked about and stays out: stored, it means what it meant', () => {
    expect(onlyFault(withJoint({ lubrication: 'plated' }))).toContain(
      'lubrication: J1: “plated” does not say what it is plated with',
    )
    expect(checkPlan(withJoint({ lubrication: 'zinc plated' }), figures)).toEqual({
      faults: [],
      cautions: [],
    })
  })
  test('[PC9] a thread that may be a length is asked about', () => {
    expect(problems(withJoint({ thread: 'M10x125' }))).toEqual([
      'J1: “M10x125” may be M10x1.25 without its decimal point, or a bolt 125 mm long. Write the pitch, and a length after it',
    ])
  })
  test('[PC4] outside the vocabulary they are told with what they could mean', () => {
    const [found] = checkPlan(withJoint({ lubrication: 'no oil' }), figures).cautions
    expect(found?.problem).toBe('J1: “no oil” does not say exactly one lubrication')
    expect(found?.fix).toMatch(/^Write one of: .*dry.*oil.* If it is another, leave it as it stands/)
    expect(problems(withJoint({ lubrication: 'snake fat' }))).toEqual([
      'J1: no friction is known for “snake fat”',
    ])
    expect(problems(withJoint({ lubrication: 'not given' }))).toEqual([])
    expect(problems(withJoint({ fastener: 'plug', lubrication: 'thread sealant' }))).toEqual([])
    expect(
      problems(withJoint({ hole: { ...HOLE, material: 'cast iron or aluminium' }, lengthMm: 30 })),
    ).toEqual(['J1: “cast iron or aluminium” does not say exactly one material'])
  })
})

const HOLE: TappedHole = { material: 'cast_iron', stackMm: 12, depthMm: 24, threadMm: 21 }
describe('bolts in their holes', () => {
  const told = (lengthMm: number, hole: Partial<TappedHole> = {}, more: Partial<Joint> = {}) =>
    problems(withJoint({ lengthMm, hole: { ...HOLE, ...hole }, ...more }))
  test('[PC5] by printed lengths: bottoms, stands out, cannot be', () => {
    expect(told(30)).toEqual([])
    expect(told(32, { stackMm: 10, depthMm: 18, threadMm: 18 })).toEqual([
      'J1: bolt of 32 mm bottoms in its hole, and clamps nothing',
    ])
    const nut = problems(
      withJoint({ lengthMm: 200, hole: { material: 'steel', stackMm: 20, threadMm: 6.5 } }),
    )
    expect(nut).toEqual(['J1: bolt of 200 mm stands out by more than its diameter'])
    expect(told(30, { depthMm: 15 })).toEqual([expect.stringContaining('21 mm deep in a hole of 15 mm')])
  })
  test('[PC5] with the standard’s thread only: asked while the plan is made, answered by its own thread', () => {
    const deep = { stackMm: 20, depthMm: 60, threadMm: 55 }
    const [found] = checkPlan(withJoint({ lengthMm: 60, hole: { ...HOLE, ...deep } }), figures).cautions
    expect(found?.problem).toBe(
      'J1: bolt of 60 mm: with the standard’s 22 mm of thread its shank would reach the hole',
    )
    expect(found?.fix).toContain('enter the length')
    expect(told(60, deep, { boltThreadMm: 60 })).toEqual([])
    expect(told(60, deep, { boltThreadMm: 22 })).toEqual([
      'J1: bolt of 60 mm bottoms in its hole, and clamps nothing',
    ])
  })
})

describe('wrenches', () => {
  test('[PC6] one that cannot reach, or is not accurate enough, is told where the crib is known', () => {
    const plan = withJoint(torque(22, { wrench: 'TW-1' }))
    const crib = (some: Parameters<typeof wrench>[1]) => ({ wrenches: { 'TW-1': wrench('TW-1', some) } })
    expect(problems(plan)).toEqual([])
    expect(problems(plan, crib({ min: 10, max: 60 }))).toEqual([])
    expect(problems(plan, crib({ min: 40, max: 200 }))).toEqual([
      'TW-1 cannot do 22 N·m: 22 N·m is outside its scale, 40–200 N·m',
    ])
    const narrow = withJoint({
      passes: [
        { kind: 'torque', torqueNm: 22, wrench: 'TW-1', limits: { minNm: 21.9, maxNm: 22.1, from: 'maker' } },
      ],
    })
    expect(problems(narrow, crib({ min: 10, max: 60 }))).toEqual([
      expect.stringContaining('wider than the band'),
    ])
  })
})
