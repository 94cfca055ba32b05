/** The shop after one more event. Total, and shares what did not change. */
import type { Shop, ShopEvent } from './types'

/** Where neither maker nor plan gives limits and the shop has set none: common practice, no source. */
export const FIRST_TOLERANCES = { percent: { A: 5, B: 10, C: 15 }, angleDeg: 5 } as const

export function newShop(): Shop {
  return {
    version: 0,
    opened: false,
    name: '',
    invented: false,
    people: {},
    wrenches: {},
    tolerances: { percent: { ...FIRST_TOLERANCES.percent }, angleDeg: FIRST_TOLERANCES.angleDeg },
    plans: {},
    selfRecheck: { allowed: false },
  }
}

export function evolveShop(before: Shop, event: ShopEvent): Shop {
  const shop = { ...before, version: before.version + 1 }
  switch (event.type) {
    case 'ShopOpened':
      return { ...shop, opened: true, name: event.name, invented: event.invented }
    case 'PersonAdded':
    case 'PersonChanged':
      return { ...shop, people: { ...shop.people, [event.person.id]: event.person } }
    case 'WrenchAdded':
    case 'WrenchChanged':
      return { ...shop, wrenches: { ...shop.wrenches, [event.wrench.id]: event.wrench } }
    case 'TolerancesSet':
      return { ...shop, tolerances: event.tolerances }
    case 'SelfRecheckSet':
      return { ...shop, selfRecheck: event.selfRecheck }
    case 'PlanAdded': {
      const { id, edition } = event.plan
      return { ...shop, plans: { ...shop.plans, [id]: { ...shop.plans[id], [edition]: event.plan } } }
    }
    case 'PinSet': {
      const { personId, by, doneAt } = event
      return { ...shop, pins: { ...shop.pins, [personId]: { by, at: doneAt } } }
    }
  }
}
