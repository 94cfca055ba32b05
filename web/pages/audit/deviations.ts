/**
 * What a supervisor's waiver could lift beside flagged readings: a measurement out of its limits, a fastener that
 * is not right, a seal closed too late, a count that differs, a step that would hide what is not proven.
 *
 * Pure, in the plan's order. What only wants doing is not here.
 */
import { sealantState } from '../../../shared/job/clocks'
import { FASTENER_FAULTS, type FastenerFault } from '../../../shared/job/fastener-faults'
import type { PlannedJob, Waived } from '../../../shared/job/types'
import {
  fastenerFault,
  inTheWay,
  isHoleFault,
  isWaived,
  openNeeds,
  positionState,
  stands,
  stepState,
  unprovenBehind,
} from '../../../shared/job/verdicts'
import { ofStep } from '../../../shared/job/verdicts/memory'
import { indexPlan } from '../../../shared/plan/read'
import type { AdoptedStep } from '../../../shared/plan/types'
import { limitsWords } from '../../../shared/plan/words'
import { unitAfter } from '../../../shared/units'
import { counted, listed, positionsInWords } from '../../../shared/words'
import { format } from '../../format'

export interface Deviation {
  stepId: string
  title: string
  /** What is so. */
  say: string
  /** What a waiver would accept, one for each. */
  what: Waived[]
}

export function deviations(job: PlannedJob, now: number): Deviation[] {
  return job.plan.steps.flatMap((step) => [
    ...ofStep(job, step, 'audit of fasteners', () => fasteners(job, step)),
    ...sealed(job, step, now),
    ...hiding(job, step),
  ])
}

/** Numbers that stand like a flag: measurements out of limits and wrong counts, in the plan's order. */
export const numbersOff = (job: PlannedJob): Deviation[] =>
  job.plan.steps.flatMap((step) =>
    ofStep(job, step, 'audit of numbers', () => [...measured(job, step), ...miscounted(job, step)]),
  )

function measured(job: PlannedJob, step: AdoptedStep): Deviation[] {
  return stepState(job, step.id).measurements.flatMap((entry) => {
    const what: Waived = { kind: 'measurement', entryId: entry.id }
    if (entry.inBand || !stands(entry) || isWaived(job, what)) return []
    const measurement = step.measurements.find(({ id }) => id === entry.measurementId)
    const limits = measurement ? `; the plan says ${limitsWords(measurement, format)}` : ''
    return [
      {
        stepId: step.id,
        title: `${measurement?.title ?? entry.measurementId}, ${entry.place}`,
        say: `${format.number(entry.value, 6)}${measurement ? unitAfter(measurement.unit) : ''}${limits}`,
        what: [what],
      },
    ]
  })
}

/** Holes at once, else only what is tightened through: until then the bench asks for the right one. */
function fasteners(job: PlannedJob, step: AdoptedStep): Deviation[] {
  return step.joints.flatMap((joint) => {
    const byFault = new Map<FastenerFault, number[]>()
    for (const { n } of joint.positions) {
      const fault = fastenerFault(job, joint, n)
      if (!fault) continue
      if (!isHoleFault(fault) && positionState(job, joint, n).nextPass !== undefined) continue
      byFault.set(fault, [...(byFault.get(fault) ?? []), n])
    }
    return [...byFault].map(([fault, positions]) => ({
      stepId: step.id,
      title: `${joint.title} ${positionsInWords(positions)}`,
      say: `The fastener: ${FASTENER_FAULTS[fault].what}.`,
      what: positions.map((position): Waived => ({ kind: 'fastener', jointId: joint.id, position })),
    }))
  })
}

function sealed(job: PlannedJob, step: AdoptedStep, now: number): Deviation[] {
  const state = sealantState(job, step, now)
  if (state.state !== 'late' || state.closedAt === undefined || !step.sealant) return []
  const late = Math.ceil((state.closedAt - state.closeBy) / 60_000)
  return [
    {
      stepId: step.id,
      title: step.sealant.product,
      say: `The last fastener went in ${counted(late, 'minute')} too late: the sealant is open for ${counted(step.sealant.closeWithinMinutes, 'minute')}.`,
      what: [{ kind: 'sealant', stepId: step.id }],
    },
  ]
}

function miscounted(job: PlannedJob, step: AdoptedStep): Deviation[] {
  return step.gates.flatMap((gate) => {
    const answer = stepState(job, step.id).gates[gate.id]
    const what: Waived = { kind: 'gate', stepId: step.id, gateId: gate.id }
    if (gate.kind !== 'count' || !answer || answer.count === gate.expect || isWaived(job, what)) return []
    return [
      {
        stepId: step.id,
        title: gate.text,
        say: `${answer.count ?? 0} counted, ${gate.expect} needed.`,
        what: [what],
      },
    ]
  })
}

/** The step itself could begin, were it not for what it covers. */
function hiding(job: PlannedJob, step: AdoptedStep): Deviation[] {
  const what: Waived = { kind: 'hiding', stepId: step.id }
  if (inTheWay(job, step) || openNeeds(job, step).length > 0 || isWaived(job, what)) return []
  const { jointById } = indexPlan(job.plan)
  const behind = unprovenBehind(job, step)
  if (behind.length === 0) return []
  const names = behind.map(({ joint, positions }) => {
    const title = jointById.get(joint)?.title ?? joint
    return positions ? `${title} ${positionsInWords(positions)}` : title
  })
  return [
    {
      stepId: step.id,
      title: step.title,
      say: `Cannot begin: it would cover ${listed(names)}, not signed off yet.`,
      what: [what],
    },
  ]
}
