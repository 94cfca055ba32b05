/** What stops a release, deviations and their waivers, settled values: as the audit words them. */
import { describe, expect, test } from 'vitest'
import type { JobCommand } from '../../../shared/job/commands'
import { againstRelease } from '../../../shared/job/release'
import { deferralViews } from '../../../web/job/deferrals/deferrals'
import { rowsOf, verdictWords, waiversOfRow, waiversOfSets, waiverWords } from '../../../web/job/record/rows'
import { auditLines, countsByClass } from '../../../web/job/record/verdict'
import { waiverLines } from '../../../web/job/record/waivers'
import { ownWork, previewCommand } from '../../../web/job/scope'
import { deviations, numbersOff } from '../../../web/pages/audit/deviations'
import {
  releaseLines,
  releaseViews,
  sortAgainst,
  stepIdOf,
  waysOut,
} from '../../../web/pages/audit/release-view'
import { LATER, releasable, release, released } from '../../shop/releasing-engine'
import { caps, claim, read, second, shop, sign, tell, words } from '../../shop/small-engine'
import { START } from '../../shop/time'

type Move = [string, JobCommand]
const waive = (by: string, what: Extract<JobCommand, { type: 'Waive' }>['what']): Move => [
  by,
  { type: 'Waive', what, reason: 'it holds' },
]

describe('accepted is not proven', () => {
  const line = (told: ReturnType<typeof tell>, joint: string, position: number) =>
    auditLines(told.job).find((one) => one.joint === joint && one.position === position) ??
    expect.fail('no such line')
  const waivedSecond = [
    ...caps,
    sign('bram', 'S1'),
    waive('bram', { kind: 'second', stepId: 'S1', setId: 'step' }),
  ]

  test('a waived second signature leaves the fasteners accepted, and says whose word it was', () => {
    const told = tell(...waivedSecond)
    const cap = line(told, 'J-cap', 1)
    expect(cap.verdict).toBe('accepted')
    expect(verdictWords(cap)).toBe('accepted with a reason')
    const [waiver] = waiversOfSets([cap])
    expect(waiverWords(waiver ?? expect.fail('no waiver'), words)).toBe(
      'accepted by Bram, +8 min: it holds (own work)',
    )
  })
  test('counted apart from proven; looked at after all, it is proven', () => {
    expect(countsByClass(auditLines(tell(...waivedSecond).job)).get('A')).toMatchObject({
      fasteners: 6,
      accepted: 2,
      proven: 0,
    })
    expect(line(tell(...waivedSecond, second('suvi', 'S1')), 'J-cap', 1).verdict).toBe('proven')
  })
  test('signed by both over a waived reading: the whole set is accepted, none of it proven', () => {
    const off = [claim('bram', 'S1'), read('bram', 'J-cap', 1, 1, 50), read('bram', 'J-cap', 2, 1, 50)]
    const taken = [...off, read('bram', 'J-cap', 1, 2, 100), read('bram', 'J-cap', 2, 2, 120)]
    const odd = tell(...taken).job.readings['J-cap']?.at(-1)?.id ?? ''
    const told = tell(
      ...taken,
      waive('bram', { kind: 'reading', readingId: odd }),
      sign('bram', 'S1'),
      second('suvi', 'S1'),
    )
    expect([1, 2].map((n) => line(told, 'J-cap', n).verdict)).toEqual(['accepted', 'accepted'])
  })
  test('a waived reading says so on its own row and nowhere else', () => {
    const taken = [claim('bram', 'S2'), read('bram', 'J-rod', 1, 1, 70), read('bram', 'J-rod', 2, 1, 40)]
    const readingId = tell(...taken).job.readings['J-rod']?.[0]?.id ?? ''
    const told = tell(...taken, waive('bram', { kind: 'reading', readingId }))
    const said = (position: number) => rowsOf(line(told, 'J-rod', position)).flatMap(waiversOfRow)
    expect(said(1).map(({ reason }) => reason)).toEqual(['it holds'])
    expect(said(2)).toEqual([])
    expect(line(told, 'J-rod', 1).verdict).toBe('final')
  })
})

describe('what stops a release', () => {
  test('steps that only want doing stand by stage, decisions one by one, none lost', () => {
    const { job } = releasable()
    const against = againstRelease(job, 'to_owner', START)
    const sorted = sortAgainst(job, against)
    expect(sorted.count).toBe(against.length)
    expect(sorted.decisions.length + sorted.unsigned.flatMap(({ steps }) => steps).length).toBe(
      against.length,
    )
    expect(sorted.unsigned.map(({ stage, steps }) => [stage, steps.map(({ stepId }) => stepId)])).toEqual([
      ['S', ['R1', 'R2']],
      ['K', ['R3']],
    ])
    expect(sorted.decisions.map(({ code }) => code)).toEqual(['not_released_to_fitting', 'no_value'])
    expect(releaseViews(tell().job, START)).toEqual([])
  })
  test('the later release names only what the earlier does not', () => {
    const [fitting, owner] = releaseViews(releasable().job, START)
    expect(fitting?.further).toEqual(fitting?.against)
    expect(owner?.further.map(({ code }) => code)).toEqual(['not_released_to_fitting', 'not_signed'])
  })
  test('every reason leads to what can be done about it', () => {
    const told = releasable(...released.slice(0, 4))
    const owed = againstRelease(told.job, 'to_fitting', LATER).find(({ code }) => code === 'second_missing')
    if (!owed) return expect.fail('no second signature is missing')
    expect(waysOut(owed)).toEqual([
      { do: 'look', stepId: 'R1', setId: 'step' },
      { do: 'waive', what: { kind: 'second', stepId: 'R1', setId: 'step' } },
    ])
    expect(stepIdOf(told.job, owed)).toBe('R1')
  })
  test('a doer who also releases is told beforehand; a technician may not', () => {
    const told = releasable(...released)
    const view = { job: () => told.job, shop: () => shop, words, me: () => 'bram', now: () => LATER }
    const ask = (as: string) => previewCommand(view, { type: 'Release', kind: 'to_fitting' }, { as })
    expect(ownWork(ask('bram'))).toBe(true)
    expect(ask('suvi').refusal?.code).toBe('role_needed')
  })
  test('a release disturbed by rework is withdrawn, and stays on the list', () => {
    const told = releasable(...released, release('to_fitting'), read('suvi', 'JR1', 1, 1, 50))
    expect(releaseLines(told.job).map(({ state, release: { number } }) => [number, state])).toEqual([
      ['E-1-F1', 'withdrawn'],
    ])
  })
})

describe('deviations a waiver could lift', () => {
  const measured: Move[] = [
    claim('bram', 'S3'),
    [
      'bram',
      {
        type: 'TakeMeasurement',
        stepId: 'S3',
        measurementId: 'float',
        place: 'crank',
        value: 0.3,
        instrument: 'dial gauge',
      },
    ],
  ]
  test('a measurement out of its limits, until it is waived', () => {
    const told = tell(...measured)
    const [one] = numbersOff(told.job)
    expect(one).toMatchObject({
      stepId: 'S3',
      title: 'End float, crank',
      say: '0.3 mm; the plan says 0.10 to 0.25 mm',
    })
    const after = tell(...measured, waive('bram', one?.what[0] ?? expect.fail('nothing to waive')))
    expect(numbersOff(after.job)).toEqual([])
    expect(waiverLines(after.job).map(({ name, stepId }) => [name, stepId])).toEqual([
      ['End float, crank: 0.3 mm', 'S3'],
    ])
  })
  test('a step that would hide what is not proven, once nothing else stops it', () => {
    expect(deviations(tell().job, START)).toEqual([])
    const ready = [...measured.slice(0, 1), measuredRight, sign('bram', 'S3')]
    const [one] = deviations(tell(...ready).job, LATER)
    expect(one?.say).toBe(
      'Cannot begin: it would cover Main cap bolts and Rod cap bolts 1–2, not signed off yet.',
    )
    expect(one?.what).toEqual([{ kind: 'hiding', stepId: 'C1' }])
  })
})
const measuredRight: Move = [
  'bram',
  {
    type: 'TakeMeasurement',
    stepId: 'S3',
    measurementId: 'float',
    place: 'crank',
    value: 0.2,
    instrument: 'dial gauge',
  },
]

test('a deferral stands in the record until it is withdrawn', () => {
  const defer: Move = [
    'bram',
    {
      type: 'Defer',
      what: { kind: 'fasteners', joint: 'J-sump', positions: [3] },
      dueStepId: 'C2',
      reason: 'bracket comes later',
    },
  ]
  const told = tell(defer)
  const [line] = deferralViews(told.job)
  expect(line).toMatchObject({ what: 'Sump bolts, bolt 3', due: { id: 'C2', title: 'Plug' }, state: 'open' })
  const id = line?.deferral.id ?? ''
  const after = tell(defer, ['bram', { type: 'WithdrawDeferral', deferralId: id, reason: 'bracket is here' }])
  expect(deferralViews(after.job)[0]?.state).toBe('withdrawn')
  const position = auditLines(told.job).find((one) => one.joint === 'J-sump' && one.position === 3)
  expect(position && verdictWords(position)).toBe('left out, due at C2')
})
