/** What the engine page says of fasteners, sealant and releases, played through `decide`. */
import { describe, expect, test } from 'vitest'
import type { JobCommand } from '../../../shared/job/commands'
import type { PlannedJob } from '../../../shared/job/types'
import { clockView } from '../../../web/job/step/sealant-words'
import { clocksOf, fastenersSaid, releaseStates } from '../../../web/pages/engine/office-view'
import { stepOf, tell, words } from '../../shop/small-engine'
import { START } from '../../shop/time'

const MINUTE = 60_000
test('temporary and removed fasteners are said with their places, new ones are not', () => {
  const place = (positions: number[], condition: 'temporary' | 'removed' | 'new'): [string, JobCommand] => [
    'suvi',
    { type: 'PlaceFasteners', jointId: 'J-rod', positions, condition },
  ]
  const { job } = tell(place([1, 2], 'temporary'), place([3], 'removed'), place([4], 'new'))
  const joint = stepOf(job, 'S2').joints[0]
  expect(joint && fastenersSaid(job, joint)).toEqual(['2 temporary (1–2)', '1 taken out (3)'])
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
    clockView(job, stepOf(job, 'C1'), START + minutes * MINUTE, words).brief

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
