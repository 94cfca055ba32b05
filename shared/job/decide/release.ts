/** The supervisor's word: release to fitting after bench proof, release to the owner after the last stage. */
import { RELEASES } from '../../plan/kinds'
import { LEADS, OFFICE } from '../../shop/entitlement'
import type { CommandOf } from '../commands'
import { type Context, done, no, type Outcome } from '../context'
import { namesNow, peopleNamed } from '../named'
import { againstRelease, caseOpen, releaseInForce, stepsOf } from '../release'
import type { PlannedJob } from '../types'
import { stepState } from '../verdicts'
import { roleMissing } from './roles'

/** [RL1–RL6, RL16] Refused with every reason that stands against it; each says its way out. */
export function release(job: PlannedJob, { kind }: CommandOf<'Release'>, context: Context): Outcome {
  const refusal = roleMissing(context, LEADS, `release an engine ${RELEASES[kind].to}`)
  if (refusal) return refusal
  if (releaseInForce(job, kind)) return []
  if (stepsOf(job, kind).length === 0) return no('no_such_release', { kind })
  const against = againstRelease(job, kind, context.doneAt)
  if (against.length > 0) return no('stands_against_release', { kind, against })
  // Without the log's own hash a missing tail could not be seen later; only the server has it.
  if (context.head === undefined) return no('needs_the_server', {})
  const edition = job.releases.filter((earlier) => earlier.kind === kind).length + 1
  const number = `${job.number}-${RELEASES[kind].letter}${edition}`
  const own = stepsOf(job, kind).some((step) =>
    Object.values(stepState(job, step.id).sets).some((set) => set.first?.by === context.by),
  )
  return [
    {
      type: 'Released',
      ...done(context),
      kind,
      number,
      edition,
      head: context.head,
      ...(own ? { ownWork: true as const } : {}),
      people: namesNow(context.shop, [...new Set([...peopleNamed(job), context.by])]),
    },
  ]
}

/** [RL7–RL9] A complaint after delivery: the job goes on, and ends in the next edition of the record. */
export function openWarranty(
  job: PlannedJob,
  { complaint }: CommandOf<'OpenWarranty'>,
  context: Context,
): Outcome {
  const refusal = roleMissing(context, OFFICE, 'open a warranty case')
  if (refusal) return refusal
  if (!releaseInForce(job, 'to_owner')) return no('not_released', {})
  return [{ type: 'WarrantyOpened', ...done(context), complaint }]
}

/** [RL12–RL14] What was found, also that nothing was: it answers the case and stands in the next edition. */
export function closeWarranty(
  job: PlannedJob,
  { finding }: CommandOf<'CloseWarranty'>,
  context: Context,
): Outcome {
  const refusal = roleMissing(context, LEADS, 'close a warranty case')
  if (refusal) return refusal
  const open = caseOpen(job)
  if (!open || open.closed?.finding === finding) return []
  return [{ type: 'WarrantyClosed', ...done(context), finding }]
}
