/** Who is offered to say that a cover is off again: whoever holds a step of this engine, and who leads. */
import type { Job } from '../../../shared/job/types'
import { leads } from '../../../shared/shop/entitlement'
import type { Shop } from '../../../shared/shop/types'

export function mayTakeOff(job: Job, shop: Shop, me: string | undefined): boolean {
  if (me === undefined) return false
  const person = shop.people[me]
  return (
    (person !== undefined && leads(person)) || Object.values(job.steps).some(({ claim }) => claim?.by === me)
  )
}
