/**
 * The shop without the bodies of its plans, as it travels: a library of forty plans is megabytes, and a page
 * needs to know that a plan is there long before it needs its steps. `GET /api/plans/:id/:edition` has them.
 */
import type { StreamEvent } from '../shared/log'
import type { Plan } from '../shared/plan/types'
import type { Shop } from '../shared/shop/types'
import type { AnyEvent } from './desk'

const withoutBody = (plan: Plan): Plan => ({ ...plan, stages: [], steps: [] })

const cache = new WeakMap<Shop, Shop>()

export function withoutPlanBodies(shop: Shop): Shop {
  const cached = cache.get(shop)
  if (cached) return cached
  const plans = Object.fromEntries(
    Object.entries(shop.plans).map(([id, editions]) => [
      id,
      Object.fromEntries(Object.entries(editions).map(([edition, plan]) => [edition, withoutBody(plan)])),
    ]),
  )
  const thin = { ...shop, plans }
  cache.set(shop, thin)
  return thin
}

export function eventWithoutPlanBody(entry: StreamEvent<AnyEvent>): StreamEvent<AnyEvent> {
  const { event } = entry
  return event.type === 'PlanAdded' ? { ...entry, event: { ...event, plan: withoutBody(event.plan) } } : entry
}
