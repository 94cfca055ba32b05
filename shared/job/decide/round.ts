/** Whole rounds: a class B or C pass counted in one press, and a round begun again after an interruption. */
import { indexPlan } from '../../plan/read'
import type { AdoptedJoint, AdoptedStep } from '../../plan/types'
import type { CommandOf } from '../commands'
import { type Context, done, entryId, jointData, no, noPosition, type Outcome } from '../context'
import type { PlannedJob } from '../types'
import { answeringStep, interruptionOf, nextInRound, standingReading, stepState } from '../verdicts'
import { lapses } from './lapse'
import { readingFacts } from './reading'

/** What one head of a counted round got, as its pass asks; a wait is no pass to count. */
const HOW = { torque: 'clicked', angle: 'turned', slacken: 'slackened', wait: 'clicked' } as const

/** [RN1–RN6, RN12] One press for a pass of class B or C, with the count, recorded as such. Class A: every head. */
export function countRound(job: PlannedJob, command: CommandOf<'CountRound'>, context: Context): Outcome {
  const { jointId, pass, wrenchId, count, position } = command
  const { jointById, stepOfJoint } = indexPlan(job.plan)
  const joint = jointById.get(jointId)
  const step = stepOfJoint.get(jointId)
  if (!joint || !step) return no('joint_not_found', { jointId })
  const passAsked = joint.passes[pass - 1]
  if (!passAsked)
    return no('pass_not_found', { jointId, title: joint.title, pass, passes: joint.passes.length })
  if (joint.class === 'A') return no('every_head', jointData(joint))
  if (position !== undefined && !joint.positions.some(({ n }) => n === position))
    return noPosition(joint, position)
  const open =
    position === undefined
      ? openRound(job, step, joint, pass, context)
      : openOf(job, joint, pass, nextInRound(job, step, joint, position, pass).positions)
  const [first] = open
  if (first === undefined) return []
  if (count !== open.length) return no('count_differs', { ...jointData(joint), counted: count, open })
  const factsOf = (position: number) => {
    const reading = { type: 'TakeReading', jointId, position, pass, how: HOW[passAsked.kind] } as const
    return readingFacts(job, { ...reading, ...(wrenchId ? { wrenchId } : {}) }, context, step, joint)
  }
  const { position: _, how: __, ...facts } = factsOf(first)
  // The order within the round is in the count; what is odd about one of its fasteners is odd about the round.
  const others = open.flatMap((position) => factsOf(position).flags).filter((flag) => flag !== 'out_of_order')
  const flags = [...new Set([...facts.flags, ...others])]
  return [
    {
      type: 'RoundCounted',
      ...done(context),
      id: entryId(
        context.commandId,
        (id) => job.readings[jointId]?.some((r) => r.id.startsWith(id)) ?? false,
      ),
      ...facts,
      flags,
      positions: open,
    },
    ...lapses(job, [{ joint: jointId, positions: open }], 'reading', context),
  ]
}

const openOf = (job: PlannedJob, joint: AdoptedJoint, pass: number, positions: readonly number[]): number[] =>
  positions.filter((n) => !standingReading(job, joint, n, pass))

/** The open positions of the round meant: the first due at a step this hand holds, else the first of all. */
function openRound(
  job: PlannedJob,
  step: AdoptedStep,
  joint: AdoptedJoint,
  pass: number,
  context: Context,
): number[] {
  const rounds = joint.positions
    .map(({ n }) => nextInRound(job, step, joint, n, pass).positions)
    .map((positions) => openOf(job, joint, pass, positions))
    .filter((open) => open.length > 0)
  const isClaimed = (open: number[]) => {
    const answering = answeringStep(job, joint.id, open[0] ?? 0)
    return answering !== undefined && stepState(job, answering.id).claim?.by === context.by
  }
  return rounds.find(isClaimed) ?? rounds[0] ?? []
}

/**
 * [RN7–RN11] Going round again: what was read from that pass on is void. How much is void follows from what was
 * done: again this pass, slackened all of it, or new fasteners.
 */
export function restartRound(job: PlannedJob, command: CommandOf<'RestartRound'>, context: Context): Outcome {
  const { jointId, position, how } = command
  const { jointById, stepOfJoint } = indexPlan(job.plan)
  const joint = jointById.get(jointId)
  const step = stepOfJoint.get(jointId)
  if (!joint || !step) return no('joint_not_found', { jointId })
  if (!joint.positions.some(({ n }) => n === position)) return noPosition(joint, position)
  const { positions } = nextInRound(job, step, joint, position, 1)
  const begun = joint.passes.map((_, index) =>
    positions.some((n) => standingReading(job, joint, n, index + 1)),
  )
  const latest = begun.lastIndexOf(true) + 1
  const mark = interruptionOf(job, jointId, position)
  if (latest === 0 && !mark) return []
  const fromPass = how === 'again' ? (mark?.pass ?? latest) : 1
  return [
    { type: 'RoundRestarted', ...done(context), jointId, positions: [...positions], fromPass, how },
    ...lapses(job, [{ joint: jointId, positions: [...positions] }], 'restart', context),
  ]
}
