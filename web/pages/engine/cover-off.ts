/** Who is offered to say that a cover is off again: whoever holds a step of this engine, and who leads. */
import type { Job } from '../../../shared/job/types'
import type { Shop } from '../../../shared/shop/types'

export function mayTakeOff(job: Job, shop: Shop, me: string | undefined): boolean {
  if (me === undefined) return false
  const leads = shop.people[me]?.roles.some((role) => role === 'supervisor' || role === 'owner') ?? false
  return leads || Object.values(job.steps).some(({ claim }) => claim?.by === me)
}
