/** [SV1–SV9] [SV13] A torque without a published value: settled by a source, a computation or a competent person's word. */
import { indexPlan } from '../../plan/read'
import { LEADS } from '../../shop/entitlement'
import { compareNm } from '../../units'
import type { CommandOf } from '../commands'
import { type Context, done, no, type Outcome } from '../context'
import { judgeDecided, proposeFor, sameFigures } from '../proposal'
import type { PlannedJob } from '../types'
import { lapses } from './lapse'
import { roleMissing } from './roles'

export function settleValue(job: PlannedJob, command: CommandOf<'SettleValue'>, context: Context): Outcome {
  const { jointId, pass, torqueNm, minNm, maxNm, basis, reason } = command
  const joint = indexPlan(job.plan).jointById.get(jointId)
  if (!joint) return no('joint_not_found', { jointId })
  const passAsked = joint.passes[pass - 1]
  if (!passAsked)
    return no('pass_not_found', { jointId, title: joint.title, pass, passes: joint.passes.length })
  const refusal = roleMissing(context, LEADS, 'decide a torque')
  if (refusal) return refusal
  if (passAsked.kind !== 'torque' || passAsked.torqueNm !== null)
    return no('value_published', { title: joint.title, pass })
  if (!(minNm <= torqueNm && torqueNm <= maxNm)) return no('limits_miss_value', { torqueNm, minNm, maxNm })
  const inForce = job.settled[jointId]?.[pass]
  if (
    inForce?.torqueNm === torqueNm &&
    inForce.band.minNm === minNm &&
    inForce.band.maxNm === maxNm &&
    inForce.reason === reason &&
    JSON.stringify(inForce.basis) === JSON.stringify(basis)
  )
    return []
  const proposal = basis.kind === 'computed' && basis.proposal
  // A computed one is held below what gives way (SV9, SV11).
  const judgement = proposal
    ? undefined
    : judgeDecided(job, joint, pass, context.shop.tolerances, { torqueNm, minNm, maxNm })
  if (judgement?.verdict === 'impossible')
    return no('torque_impossible', {
      stepId: indexPlan(job.plan).stepOfJoint.get(jointId)?.id ?? '',
      title: joint.title,
      pass,
      judged: judgement,
    })
  const recomputed = proposal ? proposeFor(job, joint, pass, context.shop.tolerances, proposal.added) : null
  if (recomputed && 'refusals' in recomputed)
    return no('proposal_refused', {
      title: joint.title,
      reasons: recomputed.refusals,
    })
  if (proposal && recomputed && !sameFigures(proposal, recomputed.proposal))
    return no('proposal_differs', { title: joint.title, torqueNm: recomputed.proposal.results.torqueNm })
  if (recomputed && compareNm(maxNm, recomputed.proposal.results.ceilingNm) > 0)
    return no('above_proposal', { maxNm, ceilingNm: recomputed.proposal.results.ceilingNm })
  // A signature stood on the value that was in force then.
  const positions = joint.positions.map(({ n }) => n)
  return [
    { type: 'ValueSettled', ...done(context), jointId, pass, torqueNm, minNm, maxNm, basis, reason },
    ...lapses(job, [{ joint: jointId, positions }], 'value', context),
  ]
}
