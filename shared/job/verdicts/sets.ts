/** What one signature covers, and what is still open, odd or accepted in it. */
import { indexPlan, positionsOf, type SignatureSetView, signatureSets } from '../../plan/read'
import type { AdoptedStep, Fasteners } from '../../plan/types'
import type { FastenerFault } from '../fastener-faults'
import type { Flag } from '../kinds'
import type { PlannedJob, SetState } from '../types'
import { answeringStep, coversOf, signaturesAsked } from './deferrals'
import { fastenerFault, faultOf } from './fasteners'
import { ofStep } from './memory'
import { positionState } from './readings'
import { isWaived, stands, stepState } from './state'

export interface SetView {
  set: SignatureSetView
  covers: SignatureSetView['covers']
  state: SetState
  /** How many signatures it asks for. */
  asks: 1 | 2
  /** Positions with passes to go. */
  open: { joint: string; position: number; nextPass: number }[]
  /** Positions whose readings carry a flag. */
  flagged: { joint: string; position: number; flags: Flag[] }[]
  /** Positions whose fastener itself is not right. */
  faulty: { joint: string; position: number; fault: FastenerFault }[]
  /** Every position final, with a right fastener in it. */
  final: boolean
  /** Something in it stands on a waiver. */
  waived: boolean
  /** Final, every signature it asks for stands, and no waiver was needed. */
  proven: boolean
  /** Proven, or a supervisor has accepted what it lacks. */
  accepted: boolean
}

/** One signature set of a step, as it stands. */
export const setView = (job: PlannedJob, step: AdoptedStep, set: SignatureSetView): SetView =>
  ofStep(job, step, `set ${set.id}`, () => reckon(job, step, set))

function reckon(job: PlannedJob, step: AdoptedStep, set: SignatureSetView): SetView {
  const { jointById } = indexPlan(job.plan)
  const covers = coversOf(job, step, set)
  const open: SetView['open'] = []
  const flagged: SetView['flagged'] = []
  const faulty: SetView['faulty'] = []
  for (const { joint: jointId, positions } of covers) {
    const joint = jointById.get(jointId)
    if (!joint) continue
    for (const position of positions) {
      const { nextPass, flags } = positionState(job, joint, position)
      if (nextPass !== undefined) open.push({ joint: jointId, position, nextPass })
      if (flags.length > 0) flagged.push({ joint: jointId, position, flags })
      const fault = fastenerFault(job, joint, position)
      if (fault) faulty.push({ joint: jointId, position, fault })
    }
  }
  const state = stepState(job, step.id).sets[set.id] ?? {}
  const asks = signaturesAsked(job, step, set.id)
  const final = open.length === 0 && flagged.length === 0 && faulty.length === 0
  const signed = state.first !== undefined && (asks === 1 || state.second !== undefined)
  const secondWaived =
    state.first !== undefined && isWaived(job, { kind: 'second', stepId: step.id, setId: set.id })
  const waived =
    job.waivers.length > 0 && ((!signed && secondWaived) || leansOnWaiver(job, step, set, covers))
  return {
    set,
    covers,
    state,
    asks,
    open,
    flagged,
    faulty,
    final,
    waived,
    proven: final && signed && !waived,
    accepted: final && (signed || secondWaived),
  }
}

/** Whether a waiver lifts what would stand against it: looking at it proves nothing, so it is accepted only. */
function leansOnWaiver(
  job: PlannedJob,
  step: AdoptedStep,
  set: SignatureSetView,
  covers: SetView['covers'],
): boolean {
  const { jointById } = indexPlan(job.plan)
  const waivedReading = ({ joint, positions }: SetView['covers'][number]) =>
    job.readings[joint]?.some(
      (reading) =>
        positions.includes(reading.position) &&
        reading.flags.length > 0 &&
        stands(reading) &&
        isWaived(job, { kind: 'reading', readingId: reading.id }),
    ) ?? false
  const waivedFastener = ({ joint: jointId, positions }: SetView['covers'][number]) => {
    const joint = jointById.get(jointId)
    return (
      joint !== undefined &&
      positions.some(
        (position) =>
          faultOf(job, joint, position) !== undefined &&
          isWaived(job, { kind: 'fastener', jointId, position }),
      )
    )
  }
  if (covers.some((cover) => waivedReading(cover) || waivedFastener(cover))) return true
  if (!set.remainder) return false
  const { measurements } = stepState(job, step.id)
  return (
    isWaived(job, { kind: 'sealant', stepId: step.id }) ||
    step.gates.some(({ id }) => isWaived(job, { kind: 'gate', stepId: step.id, gateId: id })) ||
    measurements.some(
      (entry) => stands(entry) && !entry.inBand && isWaived(job, { kind: 'measurement', entryId: entry.id }),
    )
  )
}

export const setViews = (job: PlannedJob, step: AdoptedStep): SetView[] =>
  signatureSets(step).map((set) => setView(job, step, set))

/** A set and the step it is signed in. */
export interface SetOfStep {
  step: AdoptedStep
  set: SignatureSetView
}

/** The sets that cover any of these fasteners, wherever they were deferred to. */
export function setsCovering(job: PlannedJob, fasteners: Fasteners): SetOfStep[] {
  const joint = indexPlan(job.plan).jointById.get(fasteners.joint)
  if (!joint) return []
  const positions = positionsOf(fasteners, joint)
  const steps = new Set(positions.map((position) => answeringStep(job, fasteners.joint, position)))
  return [...steps].flatMap((step) =>
    step
      ? signatureSets(step)
          .filter((set) =>
            coversOf(job, step, set).some(
              (cover) =>
                cover.joint === fasteners.joint && cover.positions.some((n) => positions.includes(n)),
            ),
          )
          .map((set) => ({ step, set }))
      : [],
  )
}

export const isProven = (job: PlannedJob, fasteners: Fasteners): boolean =>
  setsCovering(job, fasteners).every(({ step, set }) => setView(job, step, set).proven)

/** Proven, or what it lacks accepted by a supervisor. */
export const isAccepted = (job: PlannedJob, fasteners: Fasteners): boolean =>
  setsCovering(job, fasteners).every(({ step, set }) => setView(job, step, set).accepted)
