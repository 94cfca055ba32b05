/** A torque proposed where none is published: what caps it, what refuses it, and that what it promises holds for any joint. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  asOnAScale,
  COARSE_PITCH_MM,
  engagement,
  HOLE_MATERIALS,
  LUBRICATIONS,
  mends,
  OWN_PROPOSAL_REFUSALS,
  type Proposal,
  type ProposalAdded,
  type ProposalJoint,
  proposalSentence,
  propose,
  resultsWords,
  tightening,
} from '../../../shared/fastener'
import { figures } from '../../shop/words'
import { answered, numbersIn } from './answered'

const STEEL: ProposalJoint = {
  fastener: 'bolt',
  thread: 'M8x1.25',
  grade: '8.8',
  lubrication: 'oil',
  pass: 1,
  holeMaterial: 'cast aluminium',
  engagementMm: 20,
  tolerancePct: 5,
}
const proposed = (joint: Partial<ProposalJoint> = {}, added: ProposalAdded = {}): Proposal => {
  const answer = propose({ ...STEEL, ...joint }, added)
  if ('refusals' in answer)
    throw new Error(answer.refusals.map((refusal) => proposalSentence(refusal, figures)).join(' '))
  return answer.proposal
}
const refused = (joint: Partial<ProposalJoint> = {}, added: ProposalAdded = {}): string[] => {
  const answer = propose({ ...STEEL, ...joint }, added)
  if ('proposal' in answer) throw new Error(`proposed ${answer.proposal.results.torqueNm} N·m`)
  return answer.refusals.map(({ refused: code }) => code)
}

describe('a torque proposed', () => {
  test('[SV10] M8 8.8 oiled into cast aluminium: what VDI 2230 gives at the lowest friction, rounded down, with limits by class', () => {
    const { results, inputs } = proposed()
    const full = answered(tightening({ thread: 'M8x1.25', grade: '8.8', lubrication: 'oil' }))
    expect(results.torqueNm).toBe(asOnAScale(full.recommended.torqueNm))
    expect(results.fullUseNm).toBeCloseTo(full.recommended.torqueNm, 9)
    expect(results).toMatchObject({ weakest: 'bolt', minNm: 17.1, torqueNm: 18, maxNm: 18.9 })
    expect(results.heldBy).toBeUndefined()
    expect(inputs).toMatchObject({
      frictionLow: 0.08,
      frictionHigh: 0.16,
      engagementMm: 20,
      utilisation: 0.9,
    })
  })

  test('[SV11] too little thread in soft metal: held below what strips it, and said', () => {
    const { results } = proposed({ engagementMm: 6 })
    const held = answered(
      engagement({ thread: 'M8x1.25', boltGrade: '8.8', holeMaterial: 'cast aluminium', engagementMm: 6 }),
    )
    expect(results).toMatchObject({ weakest: 'hole_thread', heldBy: 'hole_thread' })
    expect(results.preloadHighN).toBeLessThanOrEqual(0.9 * held.holeStripN)
    expect(results.torqueNm).toBeLessThan(results.fullUseNm)
    expect(resultsWords(results, figures)).toMatch(
      /held down because the thread of the hole would strip first/,
    )
  })

  test('[SV11] wide limits hold the torque down, so that their top does not yield the bolt', () => {
    const { results } = proposed({ tolerancePct: 15 })
    expect(results.heldBy).toBe('limits')
    expect(results.maxNm).toBeLessThanOrEqual(results.ceilingNm)
  })

  test('[SV11] whatever the joint: no limit above what yields or strips, weakest link above the preload', () => {
    const joints = fc.record({
      thread: fc.constantFrom(
        ...[...COARSE_PITCH_MM.keys()].filter((d) => d >= 4 && d <= 30).map((d) => `M${d}`),
        '3/8-16 UNC',
      ),
      grade: fc.constantFrom('5.6', '8.8', '10.9', '12.9', 'SAE 5'),
      lubrication: fc.constantFrom(...LUBRICATIONS),
      holeMaterial: fc.constantFrom(...HOLE_MATERIALS.map(({ id }) => id)),
      engagementMm: fc.double({ min: 8, max: 60, noNaN: true }),
      tolerancePct: fc.double({ min: 0, max: 30, noNaN: true }),
    })
    let seen = 0
    fc.assert(
      fc.property(joints, fc.double({ min: 0.3, max: 1, noNaN: true }), (joint, utilisation) => {
        const answer = propose({ ...STEEL, ...joint }, { utilisation })
        if ('refusals' in answer) return
        seen += 1
        const { results } = answer.proposal
        const strips = Math.min(results.boltThreadN, results.holeThreadN)
        expect(results.maxNm).toBeLessThanOrEqual(results.ceilingNm * (1 + 1e-6))
        expect((results.preloadHighN * results.maxNm) / results.torqueNm).toBeLessThanOrEqual(
          strips * (1 + 1e-6),
        )
        expect(results.torqueNm).toBeLessThanOrEqual(results.fullUseNm)
        expect(results.margin).toBeGreaterThanOrEqual(1)
        for (const number of numbersIn(answer.proposal)) expect(Number.isFinite(number)).toBe(true)
      }),
      { numRuns: 300 },
    )
    expect(seen).toBeGreaterThan(200)
  })

  test('[SV11] more thread, or a stronger hole, never lowers it', () => {
    const at = (engagementMm: number, holeMaterial = 'cast aluminium') =>
      proposed({ engagementMm, holeMaterial }).results.torqueNm
    const lengths = [4, 5, 6, 8, 10, 14, 20, 30].map((mm) => at(mm))
    expect(lengths).toEqual([...lengths].sort((a, b) => a - b))
    expect(at(5, 'cast iron')).toBeGreaterThan(at(5))
  })

  test('[SV11] inputs, cautions and sources stand in it as words', () => {
    const { cautions, basis, added } = proposed({}, { engagementMm: 12, utilisation: 0.7 })
    expect(added).toEqual({ engagementMm: 12, utilisation: 0.7 })
    expect(cautions).toContain('The maker’s printed value counts, not what is computed here.')
    expect(basis.find(({ source }) => source.startsWith('VDI 2230 Part 1'))?.formula).toContain('F = A0')
  })

  test('[SV11] an insert of the register is reckoned with, and the weaker of two kinds of hole', () => {
    const insert = { kind: 'wire' as const, lengthMm: 8 }
    expect(proposed({ inserts: [insert], plain: false }).inputs.insert).toMatchObject({ kind: 'wire' })
    const mixed = proposed({ inserts: [insert], plain: true, engagementMm: 4 }).results
    const plain = proposed({ engagementMm: 4 }).results
    expect(mixed.holeThreadN).toBeLessThanOrEqual(plain.holeThreadN)
  })
})

describe('no torque', () => {
  test('[SV10] the anode plug, bronze in bronze: a plug, and no bolt strength for bronze; no entry mends either', () => {
    const joint = { ...STEEL, fastener: 'plug', thread: 'M16x1.5', grade: 'bronze', lubrication: 'dry' }
    const answer = propose(joint, { grade: '8.8', holeMaterial: 'bronze', engagementMm: 10 })
    const reasons = 'refusals' in answer ? answer.refusals : []
    expect(reasons.map(({ refused: code }) => code)).toEqual(['not_a_clamp', 'grade_without_formula'])
    expect(reasons.map(mends)).toEqual(['never', 'never'])
    expect(reasons.map((refusal) => proposalSentence(refusal, figures)).join(' ')).toMatch(/bronze/)
  })
  test('[SV10] a taper thread', () => {
    expect(refused({ thread: 'R1/8' })).toEqual(['thread_other_form'])
    expect(refused({ thread: 'R1/8', grade: 'bronze' })).toEqual([
      'thread_other_form',
      'grade_without_formula',
    ])
  })
  test('[SV10] a stud into nobody knows what; known, it is proposed', () => {
    const { holeMaterial: _, ...unknown } = STEEL
    const answer = propose({ ...unknown, fastener: 'stud' })
    expect(answer).toMatchObject({ refusals: [{ refused: 'hole_unknown', data: { fastener: 'stud' } }] })
    expect('refusals' in answer && answer.refusals.map(mends)).toEqual(['entry'])
    expect(refused({ holeMaterial: 'white metal of some kind' })).toEqual(['material_unknown'])
    expect(propose({ ...unknown, fastener: 'stud' }, { holeMaterial: 'cast iron' })).toHaveProperty(
      'proposal',
    )
  })
  test('[SV10] stainless without lubricant data; with measured friction it is proposed', () => {
    const dry = { grade: 'A4-70', lubrication: 'dry' }
    expect(refused(dry)).toEqual(['stainless_needs_lubricant'])
    expect(proposed(dry, { friction: { low: 0.14, high: 0.24 } }).inputs.lubrication).toBe('measured')
    expect(refused({ lubrication: 'thread sealant' })).toEqual(['lubrication_unknown'])
  })
  test('[SV10] beside an angle, or before another torque', () => {
    expect(refused({ angle: true, laterPass: 2 })).toEqual(['angle_in_joint'])
    expect(refused({ laterPass: 2 })).toEqual(['later_pass_tightens'])
  })
  test('[SV10] a hole stripped, worn, or too short for its bolt, and hardly any thread', () => {
    expect(refused({ stripped: [2], worn: [1] })).toEqual(['hole_stripped', 'hole_worn'])
    expect(refused({ bottoms: { lengthMm: 40, roomMm: 38 } })).toEqual(['bolt_bottoms'])
    expect(refused({ engagementMm: 3 })).toEqual(['too_few_threads'])
    const { engagementMm: _, ...unmeasured } = STEEL
    expect(propose(unmeasured)).toMatchObject({ refusals: [{ refused: 'engagement_unknown' }] })
  })
  test('[SV10] a grade read from the head stands in only where the plan names none that is known', () => {
    expect(refused({ grade: 'lock nut 8' })).toEqual(['grade_unknown'])
    expect(proposed({ grade: 'lock nut 8' }, { grade: '8.8' }).inputs.grade).toBe('8.8')
    expect(proposed({}, { grade: '12.9' }).inputs.grade).toBe('8.8')
    expect(refused({ grade: 'brass' }, { grade: '8.8' })).toEqual(['grade_without_formula'])
  })
  test('[SV10] impossible entries are refused with their sentence, never thrown, never NaN', () => {
    const anything = fc.oneof(fc.double(), fc.constantFrom<unknown>(undefined, 0, -1, 'x', null, {}, 1e308))
    fc.assert(
      fc.property(
        fc.dictionary(
          fc.constantFrom(
            'engagementMm',
            'utilisation',
            'friction',
            'holeMaterial',
            'grade',
            'headBearingMm',
            'clearanceHoleMm',
          ),
          anything,
        ),
        (added) => {
          const answer = propose(STEEL, added as ProposalAdded)
          if ('refusals' in answer) {
            expect(answer.refusals.length).toBeGreaterThan(0)
            for (const one of answer.refusals) expect(proposalSentence(one, figures)).toMatch(/\.$/)
          } else for (const number of numbersIn(answer.proposal)) expect(Number.isFinite(number)).toBe(true)
        },
      ),
      { numRuns: 400 },
    )
  })
  test('every reason of its own has been met above', () => {
    expect(OWN_PROPOSAL_REFUSALS.toSorted()).toEqual([
      'angle_in_joint',
      'bolt_bottoms',
      'engagement_unknown',
      'hole_stripped',
      'hole_unknown',
      'hole_worn',
      'later_pass_tightens',
      'not_a_clamp',
      'too_few_threads',
    ])
  })
})

test('what is proposed is rounded down to what a scale shows', () => {
  expect([9.87, 24.7, 99.99, 123.9, 1249, 0.04].map(asOnAScale)).toEqual([9.8, 24.5, 99.5, 123, 1240, 0.04])
})
