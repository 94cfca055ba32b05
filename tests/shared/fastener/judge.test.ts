/** The judge every torque meets: what is impossible, what is looked at first, what is not its business. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  doubtsInWords,
  judgeTorque,
  loadAfter,
  type TorqueToJudge,
  tightening,
} from '../../../shared/fastener'
import { figures } from '../../shop/words'
import { answered } from './answered'

const M8: TorqueToJudge = { fastener: 'bolt', thread: 'M8x1.25', grade: '8.8', lubrication: 'oil' }
const judged = (more: TorqueToJudge) => judgeTorque({ ...M8, ...more })

describe('judging a torque', () => {
  test('[FT22] what VDI 2230 allows is plausible, up to the middle of the class', () => {
    for (const mu of [0.08, 0.12]) {
      const { recommended } = answered(tightening({ thread: 'M8x1.25', grade: '8.8', muThread: mu }))
      expect(judged({ nominalNm: recommended.torqueNm }).verdict).toBe('plausible')
    }
  })
  test('[FT22] breaking even at the highest friction is impossible', () => {
    expect(judged({ nominalNm: 60 })).toMatchObject({
      verdict: 'impossible',
      doubts: ['breaks_bolt', 'past_yield'],
    })
    expect(judged({ nominalNm: 60, lubrication: 'dry' }).verdict).toBe('impossible')
    expect(judged({ nominalNm: 1050, grade: '12.9' }).verdict).toBe('impossible')
  })
  test('[FT22] break and yield are those of VDI 2230 with torsion', () => {
    const full = answered(tightening({ thread: 'M8x1.25', grade: '8.8', lubrication: 'oil', utilisation: 1 }))
    const { yieldShare, breakShare } = judged({ minNm: 18, nominalNm: 20, maxNm: 22 })
    expect(yieldShare?.low).toBeCloseTo(18 / full.high.torqueNm, 12)
    expect(yieldShare?.high).toBeCloseTo(22 / full.low.torqueNm, 12)
    expect(breakShare?.high).toBeCloseTo((22 / full.low.torqueNm) * (640 / 800), 12)
  })
  test('[FT22] past yield at the middle of the band is doubtful, not stopped', () => {
    expect(judged({ nominalNm: 36 })).toMatchObject({ verdict: 'implausible', doubts: ['past_yield'] })
  })
  test('[FT22] the highest that is allowed is judged as well, a limit and a tolerance alike', () => {
    expect(judged({ minNm: 20, nominalNm: 22, maxNm: 25 }).verdict).toBe('plausible')
    expect(judged({ minNm: 20, nominalNm: 22, maxNm: 36 })).toMatchObject({
      verdict: 'implausible',
      doubts: ['past_yield'],
    })
    const high = judged({ minNm: 20, nominalNm: 22, maxNm: 90 })
    expect(high).toMatchObject({ verdict: 'impossible', doubts: ['breaks_bolt', 'past_yield'] })
    expect(high.topShare).toEqual(judged({ nominalNm: 90 }).valueShare)
    expect(high.valueShare).toEqual(judged({ nominalNm: 22 }).topShare)
    expect(judged({ grade: '', nominalNm: 22, maxNm: 900 }).doubts[0]).toBe('three_times')
    const hole = { holeMaterial: 'cast aluminium', engagementMm: 1.5, grade: '12.9' }
    expect(judged({ ...hole, nominalNm: 1, maxNm: 30 }).verdict).toBe('impossible')
  })
  test('[FT22] a grade that is not given is assumed and said, and stops only at three times', () => {
    const open = { thread: 'M8', grade: 'not given', lubrication: 'not given' }
    expect(judged({ ...open, nominalNm: 25 })).toMatchObject({
      verdict: 'implausible',
      grade: '8.8',
      doubts: ['grade_assumed', 'pitch_assumed'],
    })
    expect(judged({ ...open, nominalNm: 100 }).verdict).toBe('implausible')
    // 25 kgm read as 25 kgf·m, and 10,50 read as 1050.
    expect(judged({ ...open, nominalNm: 245 }).verdict).toBe('impossible')
    expect(judged({ ...open, nominalNm: 1050 }).doubts[0]).toBe('three_times')
  })
  test('[FT22] a left-out pitch is said, and doubts nothing else', () => {
    expect(judged({ thread: 'M8', nominalNm: 22 })).toMatchObject({
      verdict: 'plausible',
      doubts: ['pitch_assumed'],
      thread: 'M8x1.25',
    })
  })
  test('[FT22] the hole’s thread is judged with its reserve, and stopped at three times what it holds', () => {
    const hole = { holeMaterial: 'cast aluminium', engagementMm: 6 }
    expect(judged({ ...hole, nominalNm: 8 }).verdict).toBe('plausible')
    expect(judged({ ...hole, nominalNm: 20 }).doubts).toContain('strips_hole')
    expect(judged({ ...hole, engagementMm: 1.5, nominalNm: 30, grade: '12.9' }).verdict).toBe('impossible')
  })
  test('[FT21] a nut’s class stands for the bolt it carries; over its proof load is doubtful', () => {
    expect(judged({ fastener: 'nut', grade: '8', nominalNm: 22 })).toMatchObject({
      verdict: 'plausible',
      grade: '8.8',
    })
    expect(judged({ fastener: 'nut', grade: '5', thread: 'M10', nominalNm: 60 }).doubts).toContain('over_nut')
  })
  test('[FT22] a decimal place too little is doubtful, and so is a limit that slipped alone', () => {
    for (const nominalNm of [0.9, 1.63, 2.5])
      expect(judged({ nominalNm })).toMatchObject({ verdict: 'implausible', doubts: ['hardly_clamps'] })
    expect(judged({ nominalNm: 4 }).verdict).toBe('plausible')
    expect(judged({ minNm: 2.25, nominalNm: 22, maxNm: 24 }).doubts).toEqual(['limits_far'])
    expect(judged({ minNm: 11, nominalNm: 22, maxNm: 24 }).doubts).toEqual([])
  })
  test('[FT22] before another pass a torque only seats, and may be light; before an angle it is not full use already', () => {
    expect(judged({ nominalNm: 2, before: 'torque' }).doubts).toEqual([])
    expect(judged({ nominalNm: 2, before: 'angle' }).doubts).toEqual([])
    expect(judged({ nominalNm: 20, before: 'angle' }).doubts).toEqual([])
    expect(judged({ nominalNm: 30, before: 'angle' }).doubts).toEqual(['past_yield', 'seats_past_full'])
    expect(judged({ nominalNm: 30, lubrication: '', before: 'angle' }).doubts).toEqual(['seats_past_full'])
    expect(judged({ nominalNm: 30, lubrication: '', before: 'torque' }).doubts).toEqual([])
    expect(judged({ nominalNm: 30, grade: '10.9', before: 'angle' }).doubts).toEqual([])
    // Nobody knows what a bolt of no class is usually tightened to.
    expect(judged({ nominalNm: 30, grade: '', lubrication: '', before: 'angle' }).doubts).toEqual([
      'grade_assumed',
    ])
  })
  test('[FT22] what a joint gets next, past what slackens or waits', () => {
    const passes = ['torque', 'slacken', 'wait', 'angle', 'slacken'].map((kind) => ({ kind }))
    expect(loadAfter(passes, 0)).toEqual({ before: 'angle' })
    expect(loadAfter(passes, 3)).toEqual({})
    expect(loadAfter([{ kind: 'torque' }, { kind: 'torque' }], 0)).toEqual({ before: 'torque' })
  })
  test('[FT22] what seals, has no thread known or no figure is not judged', () => {
    expect(judged({ fastener: 'plug', thread: 'M16x1.5', nominalNm: 60 }).verdict).toBe('not_judged')
    expect(judged({ fastener: 'plug', thread: 'R1/8', nominalNm: 500 }).verdict).toBe('not_judged')
    expect(judged({ thread: 'R1/8', nominalNm: 500 })).toEqual({
      torque: { ...M8, thread: 'R1/8', nominalNm: 500 },
      verdict: 'not_judged',
      doubts: ['thread_unknown'],
    })
    for (const nominalNm of [Number.NaN, Number.POSITIVE_INFINITY, -5, 0])
      expect(judged({ nominalNm }).verdict).toBe('not_judged')
    expect(judged({}).verdict).toBe('not_judged')
  })
  test('[FT22] no plug takes what would break any bolt of its thread three times over, its limits included', () => {
    const plug = { fastener: 'plug', thread: 'M16x1.5', grade: 'bronze' }
    const judged = judgeTorque({ ...plug, nominalNm: 12, maxNm: 900_000 })
    expect(judged).toMatchObject({ verdict: 'impossible', torque: { ...plug, nominalNm: 900_000 } })
    expect(doubtsInWords(judged, figures).join(' ')).toMatch(
      /^900000 N·m is .* “bronze” is not a grade known here/,
    )
    expect(judgeTorque({ ...plug, nominalNm: 12, minNm: 10, maxNm: 999_999 }).doubts[0]).toBe('three_times')
    expect(judgeTorque({ ...plug, nominalNm: 12, minNm: 10, maxNm: 14 }).verdict).toBe('not_judged')
    expect(judgeTorque({ ...plug, nominalNm: 1.2 }).doubts).toEqual(['hardly_seals'])
    expect(judgeTorque({ ...plug, nominalNm: 12, minNm: 10, maxNm: 140 }).doubts).toEqual(['over_seal'])
  })
  test('[FT22] more torque is never judged milder; shares are finite', () => {
    const rank = { not_judged: 0, plausible: 1, implausible: 2, impossible: 3 }
    fc.assert(
      fc.property(
        fc.constantFrom('M5', 'M8', 'M12x1.25', 'M24', '3/8-16', '1/2-20'),
        fc.constantFrom('8.8', '12.9', 'SAE 8', 'A2-70', ''),
        fc.constantFrom('dry', 'oil', 'paste', '', 'anything'),
        fc.double({ min: 1, max: 1e6, noNaN: true }),
        fc.double({ min: 1, max: 50, noNaN: true }),
        (thread, grade, lubrication, nominalNm, times) => {
          const at = (nm: number) => judgeTorque({ thread, grade, lubrication, nominalNm: nm })
          const [less, more] = [at(nominalNm), at(nominalNm * times)]
          for (const share of [less.yieldShare, more.breakShare])
            if (share) expect(Number.isFinite(share.low) && Number.isFinite(share.high)).toBe(true)
          if (!less.doubts.includes('hardly_clamps'))
            expect(rank[more.verdict]).toBeGreaterThanOrEqual(rank[less.verdict])
        },
      ),
    )
  })
})
