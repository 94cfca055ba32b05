/** Who could second-sign a set: asked of the same rule that will decide it, person by person. */
import type { PlannedJob } from '../../../shared/job/context'
import { decide } from '../../../shared/job/decide'
import { isRefusal } from '../../../shared/log'
import type { Shop } from '../../../shared/shop/types'

export function whoMaySecond(
  job: PlannedJob,
  shop: Shop,
  stepId: string,
  setId: string,
  doneAt: number,
): string[] {
  return Object.keys(shop.people).filter((by) => {
    const outcome = decide(
      job,
      { type: 'SecondSignStep', stepId, setId },
      { shop, by, doneAt, commandId: 'who-may', through: 'sign_in' },
    )
    return !isRefusal(outcome) && outcome.length > 0
  })
}
