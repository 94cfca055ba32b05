/** [LP1–LP3] A signature stands on what it covered; when that is disturbed it lapses, both of them. */
import { signatureSets } from '../../plan/read'
import type { AdoptedStep, Fasteners } from '../../plan/types'
import { type Context, done } from '../context'
import type { JobEvent, LapseCause } from '../events'
import type { PlannedJob } from '../types'
import { setsCovering, stepState } from '../verdicts'

const lapse = (step: AdoptedStep, setId: string, because: LapseCause, context: Context): JobEvent => ({
  type: 'SignaturesLapsed',
  ...done(context),
  stepId: step.id,
  setId,
  because,
})

/** The lapses that touching these fasteners causes, in the steps that answer for them. */
export function lapses(
  job: PlannedJob,
  touched: Required<Fasteners>[],
  because: LapseCause,
  context: Context,
): JobEvent[] {
  const seen = new Set<string>()
  return touched
    .flatMap((fasteners) => setsCovering(job, fasteners))
    .filter(({ step, set }) => {
      const key = `${step.id} ${set.id}`
      return stepState(job, step.id).sets[set.id]?.first !== undefined && !seen.has(key) && seen.add(key)
    })
    .map(({ step, set }) => lapse(step, set.id, because, context))
}

/** The lapses of every set of a step that carries a signature. */
export function stepLapses(
  job: PlannedJob,
  step: AdoptedStep,
  because: LapseCause,
  context: Context,
): JobEvent[] {
  const { sets } = stepState(job, step.id)
  return signatureSets(step).flatMap(({ id }) => (sets[id]?.first ? [lapse(step, id, because, context)] : []))
}

/** The lapse of a step's own set, which answers for its measurements, gates and sealant. */
export function ownSetLapses(
  job: PlannedJob,
  step: AdoptedStep,
  because: LapseCause,
  context: Context,
): JobEvent[] {
  const own = signatureSets(step).find((set) => set.remainder)
  return own && stepState(job, step.id).sets[own.id]?.first ? [lapse(step, own.id, because, context)] : []
}
