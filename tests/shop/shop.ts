/** A shop of five people, each entitled to something else, and a crib with one wrench of every kind. */
import type { Plan } from '../../shared/plan/types'
import { newShop } from '../../shared/shop/evolve'
import type { Person, Shop, Wrench } from '../../shared/shop/types'
import { people } from './people'
import { floorPlan } from './plans/floor-engine'
import { testPlan } from './plans/test-engine'
import { crib } from './wrenches'

export const testShop: Shop = shopOf({
  people: Object.values(people),
  wrenches: Object.values(crib),
  plans: [testPlan, floorPlan],
})

/** An open shop of these alone. */
export function shopOf(has: { people?: Person[]; wrenches?: Wrench[]; plans?: Plan[] }): Shop {
  const { people = [], wrenches = [], plans = [] } = has
  return {
    ...newShop(),
    version: 1 + people.length + wrenches.length + plans.length,
    opened: true,
    name: 'Test shop',
    invented: true,
    people: Object.fromEntries(people.map((one) => [one.id, one])),
    wrenches: Object.fromEntries(wrenches.map((one) => [one.id, one])),
    plans: Object.fromEntries(plans.map((one) => [one.id, { [one.edition]: one }])),
  }
}
