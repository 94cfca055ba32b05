/**
 * A supervisor's acceptance of a deviation, with the reason. It lifts what stands against a signature or a
 * release; it proves nothing, and the record says so.
 */
import { indexPlan, signatureSets } from '../../plan/read'
import { LEADS } from '../../shop/entitlement'
import type { CommandOf } from '../commands'
import { type Context, done, entryId, no, noPosition, type Outcome } from '../context'
import type { PlannedJob, Waived } from '../types'
import {
  fastenerFault,
  isWaived,
  readingById,
  signaturesAsked,
  standingFlags,
  stands,
  stepState,
  unprovenBehind,
} from '../verdicts'
import { gateMet, sealantOpen } from './open-ends'
import { roleMissing } from './roles'

/** [WV1–WV5] */
export function waive(job: PlannedJob, { what, reason }: CommandOf<'Waive'>, context: Context): Outcome {
  const refusal = nothingThere(job, what)
  if (refusal) return refusal
  const roleRefusal = roleMissing(context, LEADS, 'accept what is not as planned')
  if (roleRefusal) return roleRefusal
  if (isWaived(job, what)) return []
  const nothing = nothingToAccept(job, what, context)
  if (nothing !== undefined) return no('nothing_to_accept', { what: nothing })
  const id = entryId(context.commandId, (taken) => job.waivers.some((waiver) => waiver.id === taken))
  const own = workedOn(job, what, context.by)
  return [{ type: 'Waived', ...done(context), id, what, reason, ...(own ? { ownWork: true as const } : {}) }]
}

function nothingThere(job: PlannedJob, what: Waived) {
  const { stepById, jointById } = indexPlan(job.plan)
  switch (what.kind) {
    case 'reading':
      return readingById(job, what.readingId)
        ? undefined
        : no('reading_not_found', { readingId: what.readingId })
    case 'fastener': {
      const joint = jointById.get(what.jointId)
      if (!joint) return no('joint_not_found', { jointId: what.jointId })
      return joint.positions.some(({ n }) => n === what.position)
        ? undefined
        : noPosition(joint, what.position)
    }
    case 'measurement':
      return Object.values(job.steps).some((state) =>
        state.measurements.some(({ id }) => id === what.entryId),
      )
        ? undefined
        : no('entry_not_found', { entryId: what.entryId })
    default: {
      const step = stepById.get(what.stepId)
      if (!step) return no('step_not_found', { stepId: what.stepId })
      if (what.kind === 'second' && !signatureSets(step).some(({ id }) => id === what.setId))
        return no('set_not_found', {
          stepId: step.id,
          setId: what.setId,
          sets: signatureSets(step).map(({ id }) => id),
        })
      if (what.kind === 'second' && signaturesAsked(job, step, what.setId) === 1)
        return no('no_second_asked', { stepId: step.id })
      if (what.kind === 'second' && !stepState(job, step.id).sets[what.setId]?.first)
        return no('not_signed_yet', { stepId: step.id, setId: what.setId })
      if (what.kind === 'gate' && !step.gates.some(({ id }) => id === what.gateId))
        return no('gate_not_found', { stepId: step.id, gateId: what.gateId })
      return undefined
    }
  }
}

/** What nothing stands against, or undefined: a waiver given ahead would accept what nobody has seen yet. */
function nothingToAccept(job: PlannedJob, what: Waived, { doneAt }: Context): string | undefined {
  const { stepById, jointById } = indexPlan(job.plan)
  const step = 'stepId' in what ? stepById.get(what.stepId) : undefined
  switch (what.kind) {
    case 'reading': {
      const reading = readingById(job, what.readingId)
      const odd = reading && stands(reading) && standingFlags(job, reading).length > 0
      return odd ? undefined : 'this reading'
    }
    case 'fastener': {
      const joint = jointById.get(what.jointId)
      return joint && fastenerFault(job, joint, what.position)
        ? undefined
        : joint
          ? `${joint.title}, ${joint.fastener} ${what.position}`
          : 'this fastener'
    }
    case 'measurement': {
      const entry = Object.values(job.steps)
        .flatMap(({ measurements }) => measurements)
        .find(({ id }) => id === what.entryId)
      return entry && stands(entry) && !entry.inBand ? undefined : 'this measurement'
    }
    case 'second':
      return stepState(job, what.stepId).sets[what.setId]?.second
        ? `the second signature on ${what.stepId}`
        : undefined
    case 'hiding':
      return step && unprovenBehind(job, step).length > 0 ? undefined : `what ${what.stepId} covers`
    case 'sealant':
      return step && sealantOpen(job, step, doneAt) ? undefined : `the sealant of ${what.stepId}`
    case 'gate': {
      const gate = step?.gates.find(({ id }) => id === what.gateId)
      const met = step && gate && gate.kind !== 'photo' && gateMet(job, step, gate, doneAt)
      return met ? `“${gate.text}”` : undefined
    }
  }
}

/** Whether the one who waives had a hand in it: recorded beside the waiver, for whoever reads it later. */
function workedOn(job: PlannedJob, what: Waived, by: string): boolean {
  if (what.kind === 'reading') return readingById(job, what.readingId)?.by === by
  if (what.kind === 'measurement')
    return Object.values(job.steps).some((state) =>
      state.measurements.some((entry) => entry.id === what.entryId && entry.by === by),
    )
  if (what.kind === 'fastener') return job.fasteners[what.jointId]?.[what.position]?.by === by
  const state = stepState(job, what.stepId)
  return state.claim?.by === by || Object.values(state.sets).some((set) => set.first?.by === by)
}
