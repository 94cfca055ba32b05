import { indexPlan } from '../../../shared/plan/read'
import type { AdoptedStep } from '../../../shared/plan/types'
import { phaseOf } from '../../../web/pages/bench/phase'
import { type Round, roundsIn } from '../../../web/pages/bench/work'
import type { Bench } from '../../shop/bench'

/** The round of a joint in a step, the step's first where no joint is named. */
export const roundAt = ({ job, step }: Bench, stepId: string, jointId?: string): Round =>
  roundsIn(job(), step(stepId)).find(({ joint }) => jointId === undefined || joint.id === jointId) as Round

/** What the bench asks next of Bram, with one wrench in the hand or none. */
export function phaseAt(
  { job, now, shop }: Bench,
  round: Round,
  pass: number,
  wrenchId: string | undefined,
  {
    confirmedScales = [],
    skippedRestarts,
  }: { confirmedScales?: string[]; skippedRestarts?: ReadonlySet<string> } = {},
) {
  return phaseOf({
    job: job(),
    step: indexPlan(job().plan).stepOfJoint.get(round.joint.id) as AdoptedStep,
    round,
    pass,
    me: 'bram',
    now: now(),
    wrench: wrenchId === undefined ? undefined : shop.wrenches[wrenchId],
    confirmedScales: new Set(confirmedScales),
    ...(skippedRestarts ? { skippedRestarts } : {}),
  })
}
