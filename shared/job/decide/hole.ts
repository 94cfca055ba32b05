/** The thread and hole register: what a hole is found to be, or was made. A fact. */
import { indexPlan } from '../../plan/read'
import type { CommandOf } from '../commands'
import { type Context, done, entryId, no, noPosition, type Outcome } from '../context'
import type { EventOf } from '../events'
import type { HoleEntry, PlannedJob } from '../types'
import { holeAt, misfit } from '../verdicts'
import { lapses } from './lapse'

/** [HR1–HR5] [HR12] */
export function recordHole(job: PlannedJob, command: CommandOf<'RecordHole'>, context: Context): Outcome {
  const { jointId, position, cureMinutes } = command
  const joint = indexPlan(job.plan).jointById.get(jointId)
  if (!joint) return no('joint_not_found', { jointId })
  if (!joint.positions.some(({ n }) => n === position)) return noPosition(joint, position)
  const finding = findingOf(command)
  const before = holeAt(job, jointId, position)
  if (before && cureMinutes === undefined && JSON.stringify(findingOf(before)) === JSON.stringify(finding))
    return []
  const entries = Object.values(job.holes).flat()
  const recorded: EventOf<'HoleRecorded'> = {
    type: 'HoleRecorded',
    ...done(context),
    id: entryId(context.commandId, (id) => entries.some((entry) => entry.id === id)),
    jointId,
    position,
    ...finding,
    ...(cureMinutes === undefined ? {} : { curesUntil: context.doneAt + cureMinutes * 60_000 }),
  }
  const then: PlannedJob = {
    ...job,
    holes: { ...job.holes, [jointId]: [...(job.holes[jointId] ?? []), recorded] },
  }
  const disturbs =
    finding.condition === 'stripped' ||
    finding.condition === 'insert' ||
    misfit(then, joint, position) !== misfit(job, joint, position)
  return [
    recorded,
    ...(disturbs ? lapses(job, [{ joint: jointId, positions: [position] }], 'hole', context) : []),
  ]
}

type HoleFinding = Pick<HoleEntry, 'condition' | 'depthMm' | 'threadMm' | 'insert' | 'doneBy' | 'note'>

/** Always in one order, so that what was found can be compared. */
function findingOf({ condition, depthMm, threadMm, insert, doneBy, note }: HoleFinding): HoleFinding {
  return {
    condition,
    ...(depthMm === undefined ? {} : { depthMm }),
    ...(threadMm === undefined ? {} : { threadMm }),
    ...(insert === undefined ? {} : { insert: insertIn(insert) }),
    ...(doneBy === undefined ? {} : { doneBy }),
    ...(note === undefined ? {} : { note }),
  }
}

const insertIn = ({
  kind,
  lengthMm,
  setDownMm,
  outerThread,
}: NonNullable<HoleFinding['insert']>): HoleFinding['insert'] => ({
  kind,
  lengthMm,
  ...(setDownMm === undefined ? {} : { setDownMm }),
  ...(outerThread === undefined ? {} : { outerThread }),
})
