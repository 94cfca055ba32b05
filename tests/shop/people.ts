/** Who works in the test shop: a technician who may do everything, unless a test says otherwise. */
import type { Entitlement, Person } from '../../shared/shop/types'

export const EVERYTHING: Entitlement = { classes: ['A', 'B', 'C'], families: [] }
export const NOTHING: Entitlement = { classes: [], families: [] }

export const person = (id: string, some: Partial<Person> = {}): Person => ({
  id,
  name: `${id[0]?.toUpperCase()}${id.slice(1)}`,
  initials: id.slice(0, 2).toUpperCase(),
  paint: 'blue',
  roles: ['technician'],
  mayDo: EVERYTHING,
  maySecondSign: EVERYTHING,
  ...some,
})

/** Each entitled to something else. */
export const people = {
  /** Everything, on every family. */
  ana: person('ana'),
  /** Everything, named family by family. */
  bo: person('bo', {
    mayDo: { classes: ['A', 'B', 'C'], families: ['diesel', 'petrol'] },
    maySecondSign: { classes: ['A', 'B', 'C'], families: ['diesel'] },
  }),
  /** Class C only, and everything on another family. */
  cy: person('cy', {
    mayDo: { classes: ['C'], families: [] },
    maySecondSign: { classes: ['A'], families: ['motorcycle'] },
  }),
  /** Looks, and does not do. */
  dee: person('dee', { roles: ['supervisor'], mayDo: NOTHING }),
  wim: person('wim', { roles: ['service_writer'], mayDo: NOTHING, maySecondSign: NOTHING }),
}
