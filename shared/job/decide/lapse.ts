/** [LP1–LP2] A signature stands on what it covered; when that is disturbed it lapses, both of them. */
import { signatureSets } from '../../plan/read'
import type { AdoptedStep, Fasteners } from '../../plan/types'
import { type Context, done, type PlannedJob } from '../context'
import type { JobEvent } from '../types'
import { stepState } from '../verdicts'

type Because = Extract<JobEvent, { type: 'SignaturesLapsed' }>['because']

/** The lapses a change causes: of sets that cover these fasteners, or (without any) of the step's own set. */
export function lapses(
  job: PlannedJob,
  step: AdoptedStep,
  touched: Fasteners[],
  because: Because,
  context: Context,
): JobEvent[] {
  const { sets } = stepState(job, step.id)
  return signatureSets(step)
    .filter((set) => sets[set.id]?.first)
    .filter((set) =>
      touched.length === 0
        ? set.remainder
        : set.covers.some((cover) =>
            touched.some(
              (t) => t.joint === cover.joint && (t.positions ?? []).some((n) => cover.positions.includes(n)),
            ),
          ),
    )
    .map((set) => ({ type: 'SignaturesLapsed', ...done(context), stepId: step.id, setId: set.id, because }))
}
