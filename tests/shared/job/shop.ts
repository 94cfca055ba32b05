/** A shop of five people, each entitled to something else, and a crib with one wrench of every kind. */

import { newShop } from '../../../shared/shop/evolve'
import type { Entitlement, Person, Role, Shop, Wrench } from '../../../shared/shop/types'
import { floorPlan } from './floor-plan'
import { testPlan } from './plan'

/** The first moment of every test: 2030-01-07, 08:00 UTC. */
export const START = Date.UTC(2030, 0, 7, 8)
const DAY = 86_400_000

const all: Entitlement = { classes: ['A', 'B', 'C'], families: [] }
const nothing: Entitlement = { classes: [], families: [] }

const person = (id: string, initials: string, roles: Role[], some: Partial<Person>): Person => ({
  id,
  name: id[0]?.toUpperCase() + id.slice(1),
  initials,
  paint: 'blue',
  roles,
  mayDo: nothing,
  maySecondSign: nothing,
  ...some,
})

export const people = {
  /** Everything, on every family. */
  ana: person('ana', 'AN', ['technician'], { mayDo: all, maySecondSign: all }),
  /** Everything, named family by family. */
  bo: person('bo', 'BO', ['technician'], {
    mayDo: { classes: ['A', 'B', 'C'], families: ['diesel', 'petrol'] },
    maySecondSign: { classes: ['A', 'B', 'C'], families: ['diesel'] },
  }),
  /** Class C only, and everything on another family. */
  cy: person('cy', 'CY', ['technician'], {
    mayDo: { classes: ['C'], families: [] },
    maySecondSign: { classes: ['A'], families: ['motorcycle'] },
  }),
  /** Looks, and does not do. */
  dee: person('dee', 'DE', ['supervisor'], { maySecondSign: all }),
  wim: person('wim', 'WI', ['service_writer'], {}),
}

const wrench = (id: string, some: Partial<Wrench>): Wrench => ({
  id,
  kind: 'click',
  title: `Wrench ${id}`,
  unit: 'N·m',
  min: 5,
  max: 60,
  lastCheckedAt: START - 100 * DAY,
  dueAt: START + 265 * DAY,
  state: 'in_service',
  ...some,
})

export const crib: Record<string, Wrench> = {
  /** Clicks, N·m. */
  click: wrench('click', {}),
  /** Clicks, lbf·ft. */
  foot: wrench('foot', { unit: 'lbf·ft', min: 5, max: 80 }),
  /** Shows, N·m. */
  dial: wrench('dial', { kind: 'indicating', max: 100 }),
  gauge: wrench('gauge', { kind: 'angle_gauge', unit: 'deg', min: 0, max: 360 }),
  failed: wrench('failed', { kind: 'indicating', state: 'failed' }),
  stale: wrench('stale', { kind: 'indicating', dueAt: START - DAY }),
}

export const testShop: Shop = {
  ...newShop(),
  version: 14,
  opened: true,
  name: 'Test shop',
  invented: true,
  people,
  wrenches: crib,
  plans: {
    [testPlan.id]: { [testPlan.edition]: testPlan },
    [floorPlan.id]: { [floorPlan.edition]: floorPlan },
  },
}
