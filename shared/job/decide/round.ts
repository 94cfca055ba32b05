/** Whole rounds: a class B or C pass counted in one press, and a round begun again after an interruption. */
import { indexPlan } from '../../plan/read'
import { type Context, done, entryId, no, type Outcome, type PlannedJob } from '../context'
import type { CommandOf } from '../types'
import { nextInRound, standingReading } from '../verdicts'
import { lapses } from './lapse'
import { readingFacts } from './reading'

/** [RN1–RN6] One press for a pass of class B or C, with the count, recorded as such. Class A: every head. */
export function countRound(job: PlannedJob, command: CommandOf<'CountRound'>, context: Context): Outcome {
  const { jointId, pass, wrenchId, count } = command
  const { jointById, stepOfJoint } = indexPlan(job.plan)
  const joint = jointById.get(jointId)
  const step = stepOfJoint.get(jointId)
  if (!joint || !step) return no('joint_not_found', { jointId })
  if (!joint.passes[pass - 1]) return no('pass_not_found', { jointId, pass, passes: joint.passes.length })
  if (joint.class === 'A') return no('every_head', { joint: jointId, title: joint.title })
  const [any] = joint.positions
  if (!any) return no('joint_not_found', { jointId })
  const { positions } = nextInRound(job, step, joint, any.n, pass)
  const open = positions.filter((n) => !standingReading(job, joint, n, pass))
  if (open.length === 0) return []
  if (count !== open.length) return no('count_differs', { title: joint.title, counted: count, open })
  const reading = {
    type: 'TakeReading',
    jointId,
    position: open[0] ?? any.n,
    pass,
    how: 'clicked',
    ...(wrenchId ? { wrenchId } : {}),
  } as const
  const { position: _, how: __, ...facts } = readingFacts(job, reading, context, step, joint)
  return [
    {
      type: 'RoundCounted',
      ...done(context),
      id: entryId(
        context.commandId,
        (id) => job.readings[jointId]?.some((r) => r.id.startsWith(id)) ?? false,
      ),
      ...facts,
      positions: open,
    },
    ...lapses(job, [{ joint: jointId, positions: open }], 'reading', context),
  ]
}

/**
 * [RN7–RN9] Going round again: what was read from that pass on is void. How much is void follows from what was
 * done: again this pass, slackened all of it, or new fasteners.
 */
export function restartRound(job: PlannedJob, command: CommandOf<'RestartRound'>, context: Context): Outcome {
  const { jointId, position, how } = command
  const { jointById, stepOfJoint } = indexPlan(job.plan)
  const joint = jointById.get(jointId)
  const step = stepOfJoint.get(jointId)
  if (!joint || !step) return no('joint_not_found', { jointId })
  if (!joint.positions.some(({ n }) => n === position))
    return no('position_not_found', { jointId, position, positions: joint.positions.map(({ n }) => n) })
  const { positions } = nextInRound(job, step, joint, position, 1)
  const begun = joint.passes.map((_, index) =>
    positions.some((n) => standingReading(job, joint, n, index + 1)),
  )
  const latest = begun.lastIndexOf(true) + 1
  const mark = job.interrupted[jointId]
  if (latest === 0 && !mark) return []
  const fromPass = how === 'again' ? (mark?.pass ?? latest) : 1
  return [
    { type: 'RoundRestarted', ...done(context), jointId, positions: [...positions], fromPass, how },
    ...lapses(job, [{ joint: jointId, positions: [...positions] }], 'restart', context),
  ]
}
