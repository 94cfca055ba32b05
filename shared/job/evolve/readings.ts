/** What readings, restarted rounds and changed fasteners do to a joint. Nothing is dropped, only marked. */
import { withEntry } from '../../look-up'
import { indexPlan } from '../../plan/read'
import type { EventOf } from '../events'
import type { FastenerState, Job, Reading, Signature } from '../types'
import { addReading, indexReadings } from '../verdicts/reading-index'
import { takesBack, tighteningsOf } from '../verdicts/readings'
import { changeReadings, lapseWaivers, signature, stepsOf, strength, supersede } from './parts'

export function takeReading(job: Job, reading: Reading): Job {
  const joint = job.plan && indexPlan(job.plan).jointById.get(reading.jointId)
  const back = joint !== undefined && takesBack(joint, reading)
  const taken = changeReadings(
    job,
    reading.jointId,
    (list) =>
      addReading(
        list,
        reading,
        // A slackening that took a fastener back is no reading of a pass; nothing later voids it.
        (earlier) => (back || earlier.pass === reading.pass) && !(joint && takesBack(joint, earlier)),
        { ...signature(reading), because: back ? 'slackened' : 'retaken' },
      ),
    reading,
  )
  return back ? slackenedAnew(taken, reading.jointId, [reading.position], reading) : taken
}

/** [WV7] A waiver of a fastener that counts its tightenings was of the one it had then. */
function slackenedAnew(job: Job, jointId: string, positions: readonly number[], who: Signature): Job {
  const joint = job.plan && indexPlan(job.plan).jointById.get(jointId)
  if (!joint || joint.use.kind === 'reusable') return job
  return lapseWaivers(
    job,
    positions.map((position) => ({ kind: 'fastener' as const, jointId, position })),
    who,
  )
}

export function countRound(job: Job, event: EventOf<'RoundCounted'>): Job {
  const { type: _, clockOffsetMs: __, positions, ...round } = event
  return positions.reduce(
    (counted, position) =>
      takeReading(counted, { ...round, id: `${round.id}.${position}`, how: 'counted', position }),
    job,
  )
}

export function strikeReading(job: Job, event: EventOf<'ReadingStruck'>): Job {
  const { jointId, readingId, reason } = event
  return changeReadings(job, jointId, (list) =>
    list.map((reading) =>
      reading.id === readingId ? { ...reading, struck: { ...signature(event), reason } } : reading,
    ),
  )
}

/** What was read in this round from that pass on is void; the interruption is over if its rule was followed. */
export function restartRound(job: Job, event: EventOf<'RoundRestarted'>): Job {
  const { jointId, positions, fromPass, how } = event
  const restarted = changeReadings(job, jointId, (list) =>
    supersede(list, (reading) => positions.includes(reading.position) && reading.pass >= fromPass, {
      ...signature(event),
      because: 'restarted',
      how,
    }),
  )
  const marks = (restarted.interrupted[jointId] ?? []).filter(
    (mark) => strength(how) < strength(mark.asks) || !mark.positions.some((n) => positions.includes(n)),
  )
  const { [jointId]: _, ...others } = restarted.interrupted
  const settled = {
    ...restarted,
    interrupted: marks.length > 0 ? { ...others, [jointId]: marks } : others,
  }
  if (how === 'slackened') return slackenedAnew(settled, jointId, positions, event)
  if (how !== 'new_fasteners') return settled
  return place(settled, jointId, positions, {
    ...signature(event),
    condition: 'new',
    cycle: 1,
    flags: [],
  })
}

export function placeFasteners(job: Job, event: EventOf<'FastenersPlaced'>): Job {
  const { jointId, positions, condition, cycle, lengthMm, flags, voids = [] } = event
  const voided = changeReadings(job, jointId, (list) =>
    supersede(list, (reading) => voids.includes(reading.position), {
      ...signature(event),
      because: 'refitted',
    }),
  )
  return place(voided, jointId, positions, {
    ...signature(event),
    condition,
    flags,
    ...(cycle === undefined ? {} : { cycle }),
    ...(lengthMm === undefined ? {} : { lengthMm }),
  })
}

function place(job: Job, jointId: string, positions: readonly number[], state: FastenerState): Job {
  const placed = Object.fromEntries(
    positions.map((position) => [position, { ...state, readings: readingsOf(job, jointId, position) }]),
  )
  const changed = {
    ...job,
    fasteners: withEntry(job.fasteners, jointId, { ...job.fasteners[jointId], ...placed }, stepsOf(job)),
  }
  return lapseWaivers(
    changeReadings(changed, jointId, (list) => list),
    positions.map((position) => ({ kind: 'fastener' as const, jointId, position })),
    state,
  )
}

/** A fastener's readings begin when it is said, unless it was tightened already and is said for the first time. */
function readingsOf(job: Job, jointId: string, position: number): NonNullable<FastenerState['readings']> {
  const list = job.readings[jointId] ?? []
  const before = list.length
  const joint = job.plan && indexPlan(job.plan).jointById.get(jointId)
  const tight = indexReadings(list)
    .standingAt.get(position)
    ?.some(({ how }) => how !== 'slackened')
  const last = joint && tight ? tighteningsOf(joint, list, position).at(-1) : undefined
  return { from: last?.from ?? before, before }
}
