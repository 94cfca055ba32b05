/** What a second person looks at [SS20]: which events change it, of which step and set, and which leave it alone. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decide } from '../../../shared/job/decide'
import type { JobEvent } from '../../../shared/job/events'
import { evolve, newJob } from '../../../shared/job/evolve'
import { lookedAt } from '../../../shared/job/looked-at'
import type { Job, PlannedJob } from '../../../shared/job/types'
import { setsCovering } from '../../../shared/job/verdicts'
import { isRefusal } from '../../../shared/log'
import { indexPlan, STEP_SET, signatureSets } from '../../../shared/plan/read'
import { hole, place, restart, settle, shows, sign, strike, turn } from '../../shop/acts'
import { given } from '../../shop/given'
import { floorHistory, type History, playAll } from '../../shop/random/floor'
import { headSigned, headTurned } from '../../shop/stories'

/** Every set of every step, with what is looked at there. */
const looks = (job: PlannedJob): Map<string, string> =>
  new Map(
    job.plan.steps.flatMap((step) =>
      signatureSets(step).map((set) => [`${step.id} ${set.id}`, lookedAt(job, step, set)] as const),
    ),
  )

const changed = (before: PlannedJob, after: PlannedJob): string[] => {
  const then = looks(before)
  return [...looks(after)].flatMap(([name, text]) => (then.get(name) === text ? [] : [name]))
}

/** The sets an event is about: nothing else may change; `must` change with it. */
function about(job: PlannedJob, event: JobEvent): { may: readonly string[]; must: readonly string[] } {
  const covering = (joint: string, positions?: number[]) =>
    setsCovering(job, { joint, ...(positions ? { positions } : {}) }).map(
      ({ step, set }) => `${step.id} ${set.id}`,
    )
  const exactly = (names: readonly string[]) => ({ may: names, must: names })
  const perhaps = (names: readonly string[]) => ({ may: names, must: [] })
  switch (event.type) {
    case 'ReadingTaken':
      return exactly(covering(event.jointId, [event.position]))
    case 'RoundCounted':
      return exactly(covering(event.jointId, event.positions))
    case 'RoundRestarted':
    case 'FastenersPlaced':
      return perhaps(covering(event.jointId, event.positions))
    case 'HoleRecorded':
      return perhaps(covering(event.jointId, [event.position]))
    case 'ReadingStruck': {
      const struck = job.readings[event.jointId]?.find(({ id }) => id === event.readingId)
      return perhaps(struck ? covering(event.jointId, [struck.position]) : [])
    }
    case 'ValueSettled':
      return perhaps(covering(event.jointId))
    case 'MeasurementTaken':
    case 'SealantStarted':
      return exactly(ownSet(job, event.stepId))
    case 'MeasurementStruck':
    case 'SealantClosed':
    case 'GateAnswered':
    case 'StepTakenOff':
      return perhaps(ownSet(job, event.stepId))
    case 'StepSigned':
      // A step that was off is on again with it, and that is the own set's.
      return {
        may: [`${event.stepId} ${event.setId}`, ...ownSet(job, event.stepId)],
        must: [`${event.stepId} ${event.setId}`],
      }
    case 'SignaturesLapsed':
      return exactly([`${event.stepId} ${event.setId}`])
    case 'Deferred':
    case 'DeferralWithdrawn':
      return perhaps([...looks(job).keys()])
    default:
      return exactly([])
  }
}

const ownSet = (job: PlannedJob, stepId: string): string[] => {
  const step = indexPlan(job.plan).stepById.get(stepId)
  return step && signatureSets(step).some(({ remainder }) => remainder) ? [`${stepId} ${STEP_SET}`] : []
}

function live(
  history: History,
  watch: (before: PlannedJob, event: JobEvent, after: PlannedJob) => void,
): void {
  let job: Job = newJob('job-1')
  const moments = playAll(history, job)
  for (let next = moments.next(job); !next.done; next = moments.next(job)) {
    const { asked, context } = next.value
    const outcome = decide(job, asked.command, context)
    for (const event of isRefusal(outcome) ? [] : outcome) {
      const before = job
      job = evolve(job, event)
      if (before.plan) watch(before as PlannedJob, event, job as PlannedJob)
    }
  }
}

describe('what was looked at', () => {
  test('[SS20] changes with what happened to it and to nothing else, whatever anybody does', () => {
    const seen = new Set<string>()
    fc.assert(
      fc.property(floorHistory, (history) =>
        live(history, (before, event, after) => {
          const { may, must } = about(before, event)
          const found = changed(before, after)
          expect({ event, beyond: found.filter((name) => !may.includes(name)) }).toEqual({
            event,
            beyond: [],
          })
          expect({ event, same: must.filter((name) => !found.includes(name)) }).toEqual({ event, same: [] })
          if (found.length > 0) seen.add(event.type)
        }),
      ),
      { numRuns: 60, seed: 7 },
    )
    for (const type of ['ReadingTaken', 'StepSigned', 'SignaturesLapsed', 'MeasurementTaken', 'GateAnswered'])
      expect(seen).toContain(type)
    for (const type of [
      'StepClaimed',
      'StepPutDown',
      'NoteAdded',
      'LookNoted',
      'HoldRaised',
      'StepSecondSigned',
    ])
      expect(seen).not.toContain(type)
  })

  test('[SS20] is the same text from stored JSON with its keys in another order, and on another clock', () => {
    const { job } = given(headSigned())
    const late = given(
      headTurned()
        .flat(9)
        .map((act) => ({ ...act, clockOffsetMs: 7000 })),
      sign('head', { at: 4000 }),
    ).job
    expect(looks(reversed(job) as PlannedJob)).toEqual(looks(job))
    expect(looks(late)).toEqual(looks(job))
  })

  test.each([
    ['read again, the same', [shows('JH', 2, 30), turn('JH', 2, 90)]],
    ['crossed out', [strike('00000003')]],
    ['a fastener changed', [place('JH', [2], { condition: 'reused' })]],
    ['a hole found stripped', [hole('JH', 2)]],
    ['gone round again', [restart('JH', 2)]],
  ])('[SS20] another, though signed again: %s', (_, acts) => {
    const { job } = given(headSigned())
    const id = job.readings.JH?.at(-1)?.id ?? ''
    const these = acts.map((act) =>
      act.command.type === 'StrikeReading' ? { ...act, command: { ...act.command, readingId: id } } : act,
    )
    expect(changed(job, given(headSigned(), these).job)).toContain('head step')
  })

  test('[SS20] a value settled anew is another', () => {
    expect(changed(given().job, given(settle('JN', 12)).job)).toEqual(['drain step'])
  })
})

function reversed(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(reversed)
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([key, inner]) => [key, reversed(inner)]),
  )
}
