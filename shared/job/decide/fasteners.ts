/** Which fastener stands in which place: hand-tight, temporary, new, reused, removed. A fact. */
import { indexPlan } from '../../plan/read'
import { type Context, done, no, type Outcome, type PlannedJob } from '../context'
import type { CommandOf, FastenerFlag } from '../types'
import { stands } from '../verdicts'
import { lapses } from './lapse'

/** [FA1–FA5] */
export function placeFasteners(
  job: PlannedJob,
  command: CommandOf<'PlaceFasteners'>,
  context: Context,
): Outcome {
  const { jointId, positions, condition, cycle } = command
  const { jointById } = indexPlan(job.plan)
  const joint = jointById.get(jointId)
  if (!joint) return no('joint_not_found', { jointId })
  const missing = positions.find((n) => !joint.positions.some((position) => position.n === n))
  if (missing !== undefined)
    return no('position_not_found', {
      jointId,
      position: missing,
      positions: joint.positions.map(({ n }) => n),
    })
  const flags: FastenerFlag[] = []
  if (condition === 'reused' && joint.use.kind === 'one_use') flags.push('fitted_twice')
  if (
    condition === 'reused' &&
    joint.use.kind === 'cycles' &&
    (cycle === undefined || cycle > joint.use.limit)
  )
    flags.push('cycles_spent')
  // Saying what was fitted before any reading disturbs nothing; swapping a tightened fastener does.
  const tightened = positions.filter((n) => job.readings[jointId]?.some((r) => r.position === n && stands(r)))
  const swapped = condition === 'hand_tight' || tightened.length === 0 ? [] : tightened
  return [
    {
      type: 'FastenersPlaced',
      ...done(context),
      jointId,
      positions,
      condition,
      ...(condition === 'new' || cycle !== undefined ? { cycle: cycle ?? 1 } : {}),
      flags,
    },
    ...(swapped.length > 0 ? lapses(job, [{ joint: jointId, positions: swapped }], 'fastener', context) : []),
  ]
}
