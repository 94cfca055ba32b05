/** What a step waits for: a part, a damaged one, a tool, outside work, an approval, room, an answer. */
import { indexPlan } from '../../plan/read'
import type { CommandOf } from '../commands'
import { type Context, done, entryId, no, type Outcome } from '../context'
import { holdKind } from '../kinds'
import type { PlannedJob } from '../types'
import { roleMissing } from './roles'

/** [HD1–HD3] Anybody in the shop may raise one: whoever sees it says it. */
export function raiseHold(job: PlannedJob, command: CommandOf<'RaiseHold'>, context: Context): Outcome {
  const { kind, stepIds, what, expectedAt } = command
  const unknown = stepIds.find((id) => !indexPlan(job.plan).stepById.has(id))
  if (unknown !== undefined) return no('step_not_found', { stepId: unknown })
  const same = job.holds.some(
    (hold) =>
      !hold.cleared && hold.kind === kind && hold.what === what && hold.stepIds.join() === stepIds.join(),
  )
  if (same) return []
  const id = entryId(context.commandId, (taken) => job.holds.some((hold) => hold.id === taken))
  return [
    {
      type: 'HoldRaised',
      ...done(context),
      id,
      kind,
      stepIds,
      what,
      ...(expectedAt === undefined ? {} : { expectedAt }),
    },
  ]
}

/** [HD4–HD6, HD9] An expected date can be taken back: a supplier who says nothing any more is no date. */
export function changeHold(job: PlannedJob, command: CommandOf<'ChangeHold'>, context: Context): Outcome {
  const { holdId, what, expectedAt } = command
  const hold = job.holds.find(({ id }) => id === holdId)
  if (!hold) return no('hold_not_found', { holdId })
  if (hold.cleared) return no('hold_cleared', { what: hold.what, by: hold.cleared.by })
  const changes = {
    ...(what === undefined || what === hold.what ? {} : { what }),
    ...(expectedAt === undefined || expectedAt === null || expectedAt === hold.expectedAt
      ? {}
      : { expectedAt }),
    ...(expectedAt === null && hold.expectedAt !== undefined ? { undated: true as const } : {}),
  }
  return Object.keys(changes).length === 0
    ? []
    : [{ type: 'HoldChanged', ...done(context), holdId, ...changes }]
}

/** [HD7–HD8, HD10] The owner's approval is the office's to take down; the rest is whoever's who sees it settled. */
export function clearHold(job: PlannedJob, command: CommandOf<'ClearHold'>, context: Context): Outcome {
  const { holdId, how } = command
  const hold = job.holds.find(({ id }) => id === holdId)
  if (!hold) return no('hold_not_found', { holdId })
  if (hold.cleared) return []
  const { clearedBy, word } = holdKind(hold.kind)
  const refused = clearedBy && roleMissing(context, clearedBy, `clear a hold for ${word}`)
  return refused ?? [{ type: 'HoldCleared', ...done(context), holdId, how }]
}
