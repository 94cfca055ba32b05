/** Fasteners that are not the real thing, sealant clocks and releases in words, as the engine page shows them. Pure. */
import type { FastenerCondition } from '../../../shared/job/kinds'
import { releaseInForce } from '../../../shared/job/release'
import type { Job, PlannedJob } from '../../../shared/job/types'
import type { AdoptedJoint } from '../../../shared/plan/types'
import { positionsInWords, type Words } from '../../../shared/words'
import { clockView } from '../../job/step/sealant-words'

const SAID: Partial<Record<FastenerCondition, string>> = {
  temporary: 'temporary',
  removed: 'taken out',
}

/** `2 temporary (3–4)`, `1 taken out (7)`: what must not be taken for the real thing. */
export function fastenersSaid(job: PlannedJob, joint: AdoptedJoint): string[] {
  const states = job.fasteners[joint.id] ?? {}
  return (Object.keys(SAID) as FastenerCondition[]).flatMap((condition) => {
    const positions = joint.positions.map(({ n }) => n).filter((n) => states[n]?.condition === condition)
    return positions.length === 0
      ? []
      : [`${positions.length} ${SAID[condition]} (${positionsInWords(positions)})`]
  })
}

/** Steps whose clock runs or ran over, in the plan's order. */
export const clocksOf = (job: PlannedJob, now: number, words: Words) =>
  job.plan.steps.flatMap((step) => {
    const { brief, state } = clockView(job, step, now, words)
    return brief ? [{ step, words: brief, late: state === 'late' }] : []
  })

interface HeadState {
  text: string
  against: boolean
  /** The number of the record it left, to be opened from here. */
  record?: string
}

/** What of the releases the head says, the last word last. */
export function releaseStates(job: Job, words: Words): HeadState[] {
  if (!job.plan) return []
  const planned = job as PlannedJob
  const states: (HeadState & { at: number })[] = []
  for (const release of job.releases) {
    const owner = release.kind === 'to_owner'
    const who = `${words.person(release.by)}, ${words.moment(release.doneAt)}`
    const { withdrawn } = release
    if (withdrawn)
      states.push({
        at: withdrawn.doneAt,
        text: `Release to ${owner ? 'its owner' : 'fitting'} withdrawn: ${withdrawn.stepId} was worked on again, ${words.moment(withdrawn.doneAt)}.`,
        against: releaseInForce(planned, release.kind) === undefined,
      })
    else
      states.push({
        at: release.doneAt,
        text: owner
          ? `Released to its owner by ${who}: record ${release.number}, edition ${release.edition}.`
          : `Released to fitting by ${who}.`,
        against: false,
        record: release.number,
      })
  }
  const last = job.warranties.at(-1)
  if (last)
    states.push({
      at: last.doneAt,
      text: `Back under warranty since ${words.moment(last.doneAt)}: ${last.complaint}${last.closed ? `. Found: ${last.closed.finding}` : ''}`,
      against: releaseInForce(planned, 'to_owner') === undefined,
    })
  return states.sort((a, b) => a.at - b.at).map(({ at: _, ...state }) => state)
}
