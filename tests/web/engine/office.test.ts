/** What the engine page says of holds, deferrals, notes, fasteners, sealant and releases, played through `decide`. */
import { describe, expect, test } from 'vitest'
import type { JobCommand } from '../../../shared/job/commands'
import type { PlannedJob } from '../../../shared/job/types'
import { localOf, momentOf } from '../../../web/pages/engine/office'
import {
  clocksOf,
  deferralViews,
  dueHere,
  fastenersSaid,
  holdWords,
  leftOut,
  notesOf,
  openHoldViews,
  photoWords,
  releaseStates,
  sealantWords,
} from '../../../web/pages/engine/office-view'
import { START, stepOf, tell, words } from '../engine-job'

const MINUTE = 60_000
const raise = (what: string, expectedAt?: number): [string, JobCommand] => [
  'suvi',
  {
    type: 'RaiseHold',
    kind: 'part',
    stepIds: ['C1', 'C2'],
    what,
    ...(expectedAt === undefined ? {} : { expectedAt }),
  },
]

describe('holds', () => {
  const now = START + 60 * MINUTE

  test('the late one first, then by date, then those nobody knows of; each with its when', () => {
    const { job } = tell(raise('a'), raise('b', now + 5 * MINUTE), raise('c', now - 5 * MINUTE))
    const views = openHoldViews(job, now, words)
    expect(views.map(({ hold, late }) => [hold.what, late])).toEqual([
      ['c', true],
      ['b', false],
      ['a', false],
    ])
    expect(views.map(holdWords)).toEqual([
      'part: c, was expected +55 min',
      'part: b, expected +65 min',
      'part: a, nobody knows when',
    ])
  })

  test('a cleared one is gone from the list', () => {
    const { job } = tell(raise('a'))
    const holdId = job.holds[0]?.id ?? ''
    const cleared = tell(raise('a'), ['bram', { type: 'ClearHold', holdId, how: 'came by van' }])
    expect(openHoldViews(cleared.job, now, words)).toEqual([])
  })
})

describe('what was left out', () => {
  const leave: [string, JobCommand] = [
    'bram',
    {
      type: 'Defer',
      what: { kind: 'fasteners', joint: 'J-sump', positions: [3] },
      dueStepId: 'C2',
      reason: 'stand in the way',
    },
  ]

  test('is named at the step it was left out of, and at the one where it is due', () => {
    const { job } = tell(leave)
    expect(leftOut(job, stepOf(job, 'C1'))).toMatchObject([
      {
        what: 'Sump bolts, bolt 3',
        due: { id: 'C2', title: 'Plug' },
        reason: 'stand in the way',
        closed: false,
      },
    ])
    expect(dueHere(job, 'C2').map(({ what }) => what)).toEqual(['Sump bolts, bolt 3'])
    expect(dueHere(job, 'C1')).toEqual([])
    expect(leftOut(job, stepOf(job, 'S1'))).toEqual([])
  })

  test('a withdrawn one is not listed', () => {
    const id = tell(leave).job.deferrals[0]?.id ?? ''
    const { job } = tell(leave, ['bram', { type: 'WithdrawDeferral', deferralId: id, reason: 'stand moved' }])
    expect(deferralViews(job)).toEqual([])
  })
})

test('notes: newest first, for a step or for all', () => {
  const { job } = tell(
    ['bram', { type: 'AddNote', text: 'one' }],
    ['suvi', { type: 'AddNote', text: 'two', stepId: 'S1' }],
  )
  expect(notesOf(job).map(({ text }) => text)).toEqual(['two', 'one'])
  expect(notesOf(job, 'S1').map(({ text }) => text)).toEqual(['two'])
})

test('temporary and removed fasteners are said with their places, new ones are not', () => {
  const place = (positions: number[], condition: 'temporary' | 'removed' | 'new'): [string, JobCommand] => [
    'suvi',
    { type: 'PlaceFasteners', jointId: 'J-rod', positions, condition },
  ]
  const { job } = tell(place([1, 2], 'temporary'), place([3], 'removed'), place([4], 'new'))
  const joint = stepOf(job, 'S2').joints[0]
  expect(joint && fastenersSaid(job, joint)).toEqual(['2 temporary (1–2)', '1 taken out (3)'])
})

test('a photo is named by its caption, its place once, and its step', () => {
  const photo = {
    id: 'p',
    sha256: '',
    bytes: 1,
    mime: 'image/jpeg' as const,
    widthPx: 1,
    heightPx: 1,
    by: 'bram',
    doneAt: START,
  }
  expect(photoWords(photo)).toBe('a photo of the engine')
  expect(photoWords({ ...photo, caption: 'Port 3, clear.', place: 'port 3', stepId: 'F3' })).toBe(
    'Port 3, clear, on F3',
  )
  expect(photoWords({ ...photo, place: 'port 3' })).toBe('port 3')
})

describe('sealant', () => {
  /** The sump takes paste: closed within 8 minutes, cured after an hour. */
  const pasted = (job: PlannedJob, closedAt?: number): PlannedJob => ({
    ...job,
    plan: {
      ...job.plan,
      steps: job.plan.steps.map((step) =>
        step.id === 'C1'
          ? { ...step, sealant: { product: 'Paste', closeWithinMinutes: 8, cureMinutes: 60, before: ['C2'] } }
          : step,
      ),
    },
    steps: {
      ...job.steps,
      C1: {
        sets: {},
        measurements: [],
        gates: {},
        touchedAt: 1,
        sealant: [
          {
            started: { by: 'bram', doneAt: START },
            ...(closedAt === undefined ? {} : { closed: { by: 'bram', doneAt: closedAt } }),
          },
        ],
      },
    },
  })
  const said = (job: PlannedJob, minutes: number) =>
    sealantWords(job, stepOf(job, 'C1'), START + minutes * MINUTE, words)

  test('open so long of so long, then too long', () => {
    const job = pasted(tell().job)
    expect(said(job, 4.5)).toBe('Paste open 4 of 8 min')
    expect(said(job, 9)).toBe('Paste open for longer than 8 min')
    expect(clocksOf(job, START + 9 * MINUTE, words)).toMatchObject([{ late: true, step: { id: 'C1' } }])
  })

  test('closed in time it cures until a moment, then says nothing; closed late it says so', () => {
    const job = pasted(tell().job, START + 7 * MINUTE)
    expect(said(job, 10)).toBe('Paste cures until +67 min')
    expect(said(job, 70)).toBeUndefined()
    expect(said(pasted(tell().job, START + 20 * MINUTE), 30)).toBe('Paste was open for longer than 8 min')
  })
})

describe('releases in the head', () => {
  const { job } = tell()
  const release = {
    kind: 'to_owner' as const,
    number: 'E-1-1',
    edition: 1,
    version: 2,
    head: '',
    by: 'bram',
    doneAt: START,
  }

  test('nothing before any', () => {
    expect(releaseStates(job, words)).toEqual([])
  })

  test('released, then back under warranty', () => {
    const out: PlannedJob = { ...job, releases: [release] }
    expect(releaseStates(out, words)).toEqual([
      {
        text: 'Released to its owner by Bram, +0 min: record E-1-1, edition 1.',
        against: false,
        record: 'E-1-1',
      },
    ])
    const back = {
      ...out,
      warranties: [{ by: 'suvi', doneAt: START + MINUTE, complaint: 'smokes', version: 3 }],
    }
    expect(releaseStates(back, words).at(-1)).toEqual({
      text: 'Back under warranty since +1 min: smokes',
      against: true,
    })
  })

  test('withdrawn by a rework', () => {
    const fitted = {
      ...release,
      kind: 'to_fitting' as const,
      withdrawn: { by: 'suvi', doneAt: START + MINUTE, stepId: 'S1' },
    }
    expect(releaseStates({ ...job, releases: [fitted] }, words)).toEqual([
      { text: 'Release to fitting withdrawn: S1 was worked on again, +1 min.', against: true },
    ])
  })
})

test('a moment goes into a date field and comes out the same', () => {
  const at = new Date(2026, 10, 24, 9, 5).getTime()
  expect(localOf(at)).toBe('2026-11-24T09:05')
  expect(momentOf(localOf(at))).toBe(at)
  expect(momentOf('')).toBeUndefined()
  expect(localOf(undefined)).toBe('')
})
