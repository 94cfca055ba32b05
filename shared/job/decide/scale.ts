/** The number on the wrench's scale: entered when it is taken, at each new target, after each stop. */
import { lookUp } from '../../look-up'
import { indexPlan } from '../../plan/read'
import { appliedNm, unitSlip, unitsInUse, wrenchThen } from '../../wrench'
import type { CommandOf } from '../commands'
import { type Context, done, entryId, no, type Outcome } from '../context'
import type { PlannedJob } from '../types'
import { bandFor } from '../verdicts'

/** [SC1–SC7] A fact: a setting that fits only in another unit is recorded, held up with both readings. */
export function enterScale(job: PlannedJob, command: CommandOf<'EnterScale'>, context: Context): Outcome {
  const { jointId, pass, wrenchId, value, adapter } = command
  const joint = indexPlan(job.plan).jointById.get(jointId)
  if (!joint) return no('joint_not_found', { jointId })
  if (!joint.passes[pass - 1])
    return no('pass_not_found', { jointId, title: joint.title, pass, passes: joint.passes.length })
  const wrench = lookUp(context.shop.wrenches, wrenchId)
  // Without the crib's card nobody knows the unit on the scale, so the number would mean nothing.
  if (!wrench) return no('wrench_not_found', { wrenchId })
  if (wrench.unit === 'deg') return no('wrench_has_no_torque_scale', { wrenchId })
  const band = bandFor(job, joint, pass)
  const slip = unitSlip(value, wrench.unit, band, unitsInUse(context.shop), adapter)
  return [
    {
      type: 'ScaleEntered',
      ...done(context),
      id: entryId(context.commandId, (id) => job.scaleLog.some((entry) => entry.id === id)),
      jointId,
      pass,
      wrenchId,
      wrench: wrenchThen(wrench),
      value,
      unit: wrench.unit,
      ...(adapter ? { adapter } : {}),
      appliesNm: appliedNm(value, wrench.unit, adapter),
      band,
      ...(slip ? { slip } : {}),
    },
  ]
}
