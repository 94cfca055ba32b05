/** The record a supervisor reads: every fastener, pass by pass. */
import { describe, expect, test } from 'vitest'
import {
  completeness,
  filterRecord,
  RECORD_VERDICTS,
  type RecordLine,
  readingsOf,
  record,
} from '../../../shared/audit/record'
import {
  claim,
  click,
  type Given,
  leaveOut,
  open,
  place,
  scale,
  secondSign,
  shows,
  sign,
  slacken,
  strike,
  turn,
  waive,
} from '../../shop/acts'
import { floor, fresh, given } from '../../shop/given'
import { entry } from '../../shop/ids'
import { adoptedTestPlan } from '../../shop/plans/test-engine'
import {
  all,
  capSigned,
  drainDone,
  headProven,
  headSigned,
  headTorqued,
  headTurned,
  pumpProven,
  pumpSigned,
} from '../../shop/stories'
import { START } from '../../shop/time'
import { crib } from '../../shop/wrenches'

const lines = (...happened: Given[]) => record(given(...happened).job)
const line = (joint: string, position: number, all: readonly RecordLine[]): RecordLine => {
  const found = all.find((one) => one.joint === joint && one.position === position)
  if (!found) throw new Error(`no line ${joint} ${position}`)
  return found
}
const bolt = (n: number, ...happened: Given[]) => line('JH', n, lines(...happened))

describe('the record', () => {
  test('holds every fastener once, in the plan’s order, whatever the sets', () => {
    const positions = adoptedTestPlan.steps.flatMap(({ joints }) =>
      joints.flatMap((joint) => joint.positions.map(({ n }) => `${joint.id} ${n}`)),
    )
    expect(lines().map(({ joint, position }) => `${joint} ${position}`)).toEqual(positions)
    expect(record(fresh(open()).job)).toEqual([])
  })
  test('says what was asked and what stands, with the wrench as it was', () => {
    expect(bolt(1, headTorqued(), turn('JH', 2, 90))).toMatchObject({
      stepId: 'head',
      stage: 'top',
      jointTitle: 'Joint JH',
      class: 'A',
      label: 'front',
      set: 'step',
      secondAsked: true,
      verdict: 'open',
      passes: [
        {
          pass: 1,
          asked: { kind: 'torque', torqueNm: 30 },
          band: { minNm: 28, maxNm: 32, from: 'maker' },
          state: 'reached',
          reading: {
            torqueNm: 30,
            value: 30,
            unit: 'N·m',
            wrench: { id: 'dial', lastCheckedAt: crib.dial?.lastCheckedAt },
            by: 'ana',
            doneAt: START + 5 * 60_000,
            flags: [],
          },
          earlier: [],
        },
        { pass: 2, asked: { kind: 'angle', angleDeg: 90 }, state: 'open', earlier: [] },
      ],
    })
    expect(bolt(1, headTorqued()).passes[1]).not.toHaveProperty('reading')
    expect(bolt(2)).not.toHaveProperty('label')
  })
  test('a wait is by the clock', () => {
    expect(line('JR', 1, lines()).passes.map(({ state }) => state)).toEqual([
      'open',
      'open',
      'by_clock',
      'open',
    ])
  })
  test('keeps what was struck, retaken or taken back where it was taken', () => {
    const { passes, verdict } = bolt(
      2,
      claim('head'),
      shows('JH', 2, 40),
      strike(entry(2)),
      shows('JH', 2, 31),
      shows('JH', 2, 30),
      slacken('JH', 2),
      shows('JH', 2, 29),
    )
    expect(passes[0]).toMatchObject({
      state: 'reached',
      reading: { torqueNm: 29 },
      earlier: [
        { torqueNm: 40, struck: { by: 'ana' } },
        { torqueNm: 31, superseded: { because: 'retaken' } },
        { torqueNm: 30, superseded: { because: 'slackened' } },
        { how: 'slackened' },
      ],
    })
    expect(verdict).toBe('open')
    expect(readingsOf(bolt(2, headTurned()))).toHaveLength(2)
  })
  test('carries both signatures of its set', () => {
    const proven = bolt(3, headProven())
    expect(proven).toMatchObject({
      first: { by: 'ana' },
      second: { by: 'bo', through: 'sign_in' },
      verdict: 'proven',
    })
    const caps = lines(claim('caps'), capSigned(1), secondSign('caps', { setId: 'cap-1' }))
    expect(line('JC', 1, caps)).toMatchObject({ set: 'cap-1', setTitle: 'Cap 1', verdict: 'proven' })
    expect(line('JC', 3, caps)).toMatchObject({ set: 'cap-2', verdict: 'open' })
    expect(line('JC', 3, caps)).not.toHaveProperty('first')
  })
  test('a late second signature says so', () => {
    const late = lines(
      claim('caps'),
      capSigned(2),
      shows('JS', 1, 10, { by: 'cy' }),
      secondSign('caps', { setId: 'cap-2', through: 'grant' }),
    )
    expect(line('JC', 4, late).second).toMatchObject({ by: 'bo', through: 'grant', late: true })
  })
  test('names its verdict', () => {
    expect(bolt(3).verdict).toBe('open')
    expect(bolt(3, headTurned()).verdict).toBe('final')
    expect(bolt(3, headSigned()).verdict).toBe('final')
    expect(bolt(3, headProven()).verdict).toBe('proven')
    expect(bolt(3, shows('JH', 3, 30)).verdict).toBe('flagged')
    expect(bolt(3, headProven(), shows('JH', 2, 30)).verdict).toBe('final')
    expect(bolt(2, headProven(), shows('JH', 2, 30)).verdict).toBe('flagged')
  })
})

describe('a filter', () => {
  const all = lines(
    headProven(),
    claim('caps', { by: 'bo' }),
    scale('JC', 50, { by: 'bo' }),
    click('JC', 2, { by: 'bo' }),
    strike(entry(14), { by: 'bo' }),
  )
  const found = (filter: Parameters<typeof filterRecord>[1]) =>
    filterRecord(all, filter).map(({ joint, position }) => `${joint} ${position}`)
  const head = ['JH 1', 'JH 2', 'JH 3', 'JH 4']

  test('without a field asks nothing', () => {
    expect(filterRecord(all, {})).toEqual(all)
  })
  test('by person: who read it, struck or not, or signed for it', () => {
    expect(found({ person: 'ana' })).toEqual(head)
    expect(found({ person: 'bo' })).toEqual(['JC 2', ...head])
    expect(found({ person: 'wim' })).toEqual([])
  })
  test('by wrench: in any pass, struck or not', () => {
    expect(found({ wrench: 'gauge' })).toEqual(head)
    expect(found({ wrench: 'click' })).toEqual(['JC 2'])
    expect(found({ wrench: 'foot' })).toEqual([])
  })
  test('by verdict, stage and joint, together', () => {
    expect(found({ verdict: 'proven' })).toEqual(head)
    expect(found({ stage: 'top', verdict: 'open' })).toEqual(['JV 1', 'JV 2', 'JX 1', 'JX 2'])
    expect(found({ joint: 'JN' })).toEqual(['JN 1'])
    expect(found({ joint: 'JN', stage: 'top' })).toEqual([])
    const verdicts = RECORD_VERDICTS.flatMap((verdict) => found({ verdict }))
    expect(verdicts.toSorted()).toEqual(found({}).toSorted())
  })
})

describe('completeness', () => {
  test('counts fasteners by class and verdict, each where it is fitted', () => {
    const none = { open: 0, flagged: 0, final: 0, accepted: 0, proven: 0 }
    expect(completeness(given().job)).toEqual({
      A: { ...none, fasteners: 8, open: 8 },
      B: { ...none, fasteners: 3, open: 3 },
      C: { ...none, fasteners: 4, open: 4 },
    })
    const { A, B } = completeness(
      given(headProven(), claim('caps'), capSigned(1), shows('JC', 4, 60), claim('drain'), shows('JN', 1, 9))
        .job,
    )
    expect(A).toEqual({ fasteners: 8, open: 1, flagged: 1, final: 2, accepted: 0, proven: 4 })
    expect(B).toEqual({ fasteners: 3, open: 2, flagged: 1, final: 0, accepted: 0, proven: 0 })
  })
  test('is all nothing without a plan', () => {
    expect(completeness(fresh(open()).job).A).toEqual({
      fasteners: 0,
      open: 0,
      flagged: 0,
      final: 0,
      accepted: 0,
      proven: 0,
    })
  })
})

describe('the record of the whole floor', () => {
  const at = (joint: string, position: number, ...happened: Given[]) =>
    line(joint, position, record(floor(...happened).job))

  test('T13: a second signature accepted is accepted, not proven', () => {
    const what = { kind: 'second', stepId: 'pump', setId: 'step' } as const
    expect(at('JP', 1, pumpSigned(), waive(what)).verdict).toBe('accepted')
    expect(at('JP', 1, pumpSigned(), waive(what), secondSign('pump')).verdict).toBe('proven')
    expect(completeness(floor(pumpSigned(), waive(what)).job).A).toMatchObject({ accepted: 3, proven: 0 })
  })
  test('T2: what was left out stands where it belongs, signed where it is due', () => {
    const left = [leaveOut('JP', [3], 'lift'), pumpProven([1, 2])]
    expect(at('JP', 3, left)).toMatchObject({
      set: 'step',
      dueAt: 'lift',
      secondAsked: true,
      verdict: 'open',
    })
    expect(at('JP', 1, left)).toMatchObject({ verdict: 'proven' })
    expect(at('JP', 3, left)).not.toHaveProperty('first')
    const done = [left, claim('lift'), shows('JL', 1, 15), shows('JP', 3, 30), sign('lift')]
    expect(at('JP', 3, done)).toMatchObject({ verdict: 'final', first: { by: 'ana' } })
    expect(at('JP', 3, done, secondSign('lift')).verdict).toBe('proven')
  })
  test('T14: a temporary bolt is flagged, however well it is tightened', () => {
    const slave = [claim('pump'), place('JP', [2], { condition: 'temporary' }), all('JP', [1, 2, 3], 30)]
    expect(at('JP', 2, slave)).toMatchObject({ fault: 'temporary', verdict: 'flagged' })
    expect(at('JP', 1, slave)).toMatchObject({ verdict: 'final' })
  })
  test('T3: a settled value is the band it is judged by', () => {
    const settled = line('JN', 1, record(given(drainDone()).job))
    expect(settled).toMatchObject({
      verdict: 'proven',
      passes: [{ band: { minNm: 11, maxNm: 13, from: 'shop' } }],
    })
  })
  test('T9: what a cover hides is said so', () => {
    const covered = [pumpSigned(), waive({ kind: 'hiding', stepId: 'shroud' }), all('JS', [1, 2], 9)]
    expect(at('JP', 1, covered)).toMatchObject({ hidden: true, verdict: 'final' })
    expect(at('JO', 1, covered).hidden).toBe(false)
  })
})
