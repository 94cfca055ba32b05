/**
 * No printed torque is doubted as too light or too heavy, and one whose decimal point slipped is: every row of the published
 * tables, and the same row ten times less and ten times more.
 */
import { describe, expect, test } from 'vitest'
import { type Doubt, judgeTorque, type TorqueToJudge, tightening } from '../../shared/fastener'
import { isRefusal } from '../../shared/log'
import { toNm } from '../../shared/units'
import { SEALS } from './data/seals'
import { AIRFRAME } from './data/torque-tables'
import { VDI_TABLES } from './data/vdi2230'

const doubts = (given: TorqueToJudge) => judgeTorque(given).doubts
const M8: TorqueToJudge = { fastener: 'bolt', thread: 'M8x1.25', grade: '8.8', lubrication: 'oil' }
function yieldAt(grade: string) {
  const found = tightening({ thread: 'M8x1.25', grade, muThread: 0.12, utilisation: 1 })
  if (isRefusal(found)) throw new Error(found.refused)
  return found
}

const clamps = VDI_TABLES.flatMap(({ title, rows }) =>
  rows.map(([thread, grade, mu, , torqueNm]) => ({
    title,
    mu,
    given: { thread, grade, nominalNm: Number(torqueNm) },
  })),
)

describe('bolts', () => {
  test.each(VDI_TABLES.map(({ title }) => title))(
    '[FT22] %s: none is too light, whatever is known of grade and lubrication; a tenth of each is',
    (of) => {
      for (const { title, given } of clamps.filter(({ title }) => title === of)) {
        const { thread, nominalNm } = given
        for (const known of [given, { ...given, lubrication: 'oil' }, { thread, nominalNm }]) {
          const words = `${title}: ${JSON.stringify(known)}`
          expect(doubts(known), words).not.toContain('hardly_clamps')
          expect(doubts({ ...known, nominalNm: nominalNm / 10 }), words).toContain('hardly_clamps')
        }
      }
    },
  )
  test('[FT22] ten times as much as a table prints up to its middle friction is impossible where the grade is known', () => {
    const usual = clamps.filter(({ mu, given }) => mu <= 0.12 && !given.grade.startsWith('A'))
    expect(usual.length).toBeGreaterThan(50)
    for (const { given } of usual)
      expect(judgeTorque({ ...given, nominalNm: 10 * given.nominalNm }).verdict).toBe('impossible')
  })
  test('[FT22] the airframe table, shear column and all: none is too light, a tenth of each is', () => {
    for (const [thread, ...printed] of AIRFRAME)
      for (const lbfIn of printed.slice(0, 4) as number[]) {
        const nominalNm = toNm(lbfIn, 'lbf·in')
        expect(doubts({ thread, nominalNm }), `${thread} ${lbfIn}`).not.toContain('hardly_clamps')
        expect(doubts({ thread, nominalNm: nominalNm / 10 }), `${thread} ${lbfIn}`).toContain('hardly_clamps')
      }
  })
})

describe('what seals', () => {
  const rows = SEALS.flatMap(({ unit, rows }) =>
    rows.flatMap(([thread, ...printed]) => printed.map((torque) => [thread, toNm(torque, unit)] as const)),
  ).filter(([thread]) => !thread.startsWith('7/8'))
  test.each(rows)('[FT22] %s: %d N·m is not doubted, a tenth of it is', (thread, nominalNm) => {
    const plug: TorqueToJudge = { fastener: 'plug', thread, grade: 'brass' }
    expect(judgeTorque({ ...plug, nominalNm })).toMatchObject({ verdict: 'not_judged', doubts: [] })
    expect(judgeTorque({ ...plug, nominalNm: nominalNm / 10 })).toMatchObject({
      verdict: 'implausible',
      doubts: ['hardly_seals'],
    })
  })
  test('[FT22] ten times the lightest print of a size is doubted or stopped, wherever it is more than any print', () => {
    for (const { unit, rows } of SEALS)
      for (const [thread, lowest] of rows) {
        const nominalNm = 10 * toNm(lowest, unit)
        const judged = judgeTorque({ fastener: 'plug', thread, nominalNm })
        if (judged.thread) expect(['implausible', 'impossible'], thread).toContain(judged.verdict)
      }
  })
  test('[FT22] what a doubt says that tables print for a size is what they print, from least to most', () => {
    const perMm2 = rows.map(([thread, nm]) => nm / Number(/^M(\d+)/.exec(thread)?.[1]) ** 2)
    const { sealsNm } = judgeTorque({ fastener: 'plug', thread: 'M10x1', nominalNm: 0.1 })
    expect((sealsNm?.low ?? 0) / 100 / Math.min(...perMm2)).toBeCloseTo(1, 2)
    expect((sealsNm?.high ?? 0) / 100 / Math.max(...perMm2)).toBeCloseTo(1, 2)
  })
})

describe('the judge', () => {
  test('[FT22] where each doubt begins, to half a per cent', () => {
    const { low: middle } = yieldAt('8.8')
    const begins = (doubt: Doubt, at: (times: number) => TorqueToJudge, downward = false) => {
      const [inside, outside] = downward ? [1.005, 0.995] : [0.995, 1.005]
      expect(judgeTorque(at(inside)).doubts, doubt).not.toContain(doubt)
      expect(judgeTorque(at(outside)).doubts, doubt).toContain(doubt)
    }
    const bolt = (nominalNm: number, more: TorqueToJudge = {}) => ({ ...M8, nominalNm, ...more })
    const plug = (nominalNm: number) => ({ fastener: 'plug', thread: 'M20x1.5', nominalNm })
    begins('hardly_clamps', (times) => bolt(0.14 * middle.torqueNm * times), true)
    begins('past_yield', (times) => bolt(middle.torqueNm * times))
    begins('seats_past_full', (times) => bolt(1.05 * 0.9 * middle.torqueNm * times, { before: 'angle' }))
    begins('limits_far', (times) => bolt(20, { minNm: 20 - 10 * times }))
    begins('hardly_seals', (times) => plug(0.04 * 400 * times), true)
    begins('over_seal', (times) => plug(0.45 * 400 * times))
  })
  test('[FT22] breaking is yield by the ratio of the two strengths', () => {
    const { breakShare, yieldShare } = judgeTorque({ ...M8, nominalNm: 20 })
    expect((breakShare?.high ?? 0) / (yieldShare?.high ?? 1)).toBeCloseTo(640 / 800, 9)
  })
})
