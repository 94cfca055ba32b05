/** The shop after one more event. Total, and shares what did not change. */
import { hasLeft } from './left'
import type { Entitlement, Person, Shop, ShopEvent } from './types'

const NOTHING: Entitlement = { classes: [], families: [] }

function without<V>(record: Readonly<Record<string, V>> = {}, name: string): Record<string, V> {
  const { [name]: _, ...rest } = record
  return rest
}

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
    case 'PersonChanged': {
      const { person } = event
      const after = { ...shop, people: { ...shop.people, [person.id]: person } }
      return hasLeft(shop, person.id) ? { ...after, left: without(shop.left, person.id) } : after
    }
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
    case 'PersonLeft': {
      const { personId, by, doneAt } = event
      const card = { ...(shop.people[personId] as Person), roles: [], mayDo: NOTHING, maySecondSign: NOTHING }
      return {
        ...shop,
        people: { ...shop.people, [personId]: card },
        left: { ...shop.left, [personId]: { by, at: doneAt } },
        ...(shop.pins ? { pins: without(shop.pins, personId) } : {}),
      }
    }
  }
}
