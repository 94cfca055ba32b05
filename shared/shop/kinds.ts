/** The kinds the shop speaks of, each a table with its words. The names are stored: they never change. */

interface RoleEntry {
  word: string
  means: string
  /** Somebody who holds it, where one is asked for: `a technician`, `the owner of the shop`. */
  somebody: string
  /** Its word settles what others may not. */
  leads: boolean
  /** It speaks for the shop with the owners of engines. */
  office: boolean
}

export const ROLES = {
  service_writer: {
    word: 'service writer',
    means: 'opens jobs, speaks with the owners, makes promises',
    somebody: 'a service writer',
    leads: false,
    office: true,
  },
  technician: {
    word: 'technician',
    means: 'works at the bench',
    somebody: 'a technician',
    leads: false,
    office: false,
  },
  supervisor: {
    word: 'supervisor',
    means: 'keeps people, wrenches, tolerances and plans; releases',
    somebody: 'a supervisor',
    leads: true,
    office: true,
  },
  owner: {
    word: 'owner of the shop',
    means: 'the same as a supervisor',
    somebody: 'the owner of the shop',
    leads: true,
    office: true,
  },
} as const satisfies Record<string, RoleEntry>
export type Role = keyof typeof ROLES

export const WRENCH_KINDS = {
  click: { word: 'click wrench', means: 'set to a number, clicks there: proves a setting, not a value' },
  indicating: {
    word: 'indicating wrench',
    means: 'shows what it applies: its readings are entered as numbers',
  },
  angle_gauge: { word: 'angle gauge', means: 'shows how far a head was turned, in degrees' },
} as const satisfies Record<string, { word: string; means: string }>
export type WrenchKind = keyof typeof WRENCH_KINDS

export const WRENCH_STATES = {
  in_service: 'in service',
  failed: 'failed its check',
  out_for_check: 'out for check',
  dropped: 'dropped',
} as const satisfies Record<string, string>
export type WrenchState = keyof typeof WRENCH_STATES
