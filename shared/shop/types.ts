/**
 * The shop as a stream: who works here, what wrenches hang in the crib, what tolerances hold where the
 * maker is silent, and the plan library. The same shape as `../job/`.
 *
 * PINs are not here: credentials never enter a stream (see `server/people/`).
 */
import type { Instant } from '../log'
import type { JointClass } from '../plan/kinds'
import type { Plan, Tolerances } from '../plan/types'
import type { TorqueUnit } from '../units'
import type { Role, WrenchKind, WrenchState } from './kinds'

/** The joint classes and engine families somebody may sign for; `families: []` means every family. */
export interface Entitlement {
  classes: JointClass[]
  families: string[]
}

export interface Person {
  id: string
  name: string
  /** Two or three letters beside every stripe, so that nothing depends on colour. */
  initials: string
  /** Which paint of `paints.ts` their stripe wears. */
  paint: PaintName
  roles: Role[]
  mayDo: Entitlement
  maySecondSign: Entitlement
}

export const PAINTS = [
  'blue',
  'green',
  'plum',
  'ochre',
  'teal',
  'crimson',
  'slate',
  'olive',
  'violet',
  'brown',
] as const
export type PaintName = (typeof PAINTS)[number]

export interface Wrench {
  id: string
  kind: WrenchKind
  title: string
  /** The unit on its scale; an angle gauge reads degrees. */
  unit: TorqueUnit | 'deg'
  /** What its scale covers, in `unit`. */
  min: number
  max: number
  /** The scale's step, in `unit`. */
  increment?: number
  /** From the middle of the drive to the middle of the grip, mm: the lever that an adapter lengthens. */
  lengthMm?: number
  /** Where it is when it does not hang in the crib, in words: `often at the slip`. */
  away?: string
  lastCheckedAt?: Instant
  dueAt?: Instant
  state: WrenchState
}

/** The shop as folded from its events. Plain data: it travels as JSON. */
export interface Shop {
  version: number
  opened: boolean
  name: string
  /** True for a demonstration shop: its values are invented and marked so. */
  invented: boolean
  people: Record<string, Person>
  wrenches: Record<string, Wrench>
  tolerances: Tolerances
  /** By plan id, then by edition. */
  plans: Record<string, Record<number, Plan>>
  /** Whether a doer may look at their own class B and C work again, and after how long. Off unless set. */
  selfRecheck: SelfRecheck
  /** By person, who set their PIN last and when. Nobody is in it whose PIN no entry tells of. */
  pins?: Record<string, PinSetting>
  /** Who has left, by person. Their cards stay in `people`, without roles, so that what they did keeps its name. */
  left?: Record<string, Leaving>
}

export interface Leaving {
  by: string
  at: Instant
}

export interface PinSetting {
  /** A person, or `AT_THE_MACHINE`. */
  by: string
  at: Instant
}

/** Who did what was done at the server's machine, where nobody signs in. No person's id: the schema keeps it back. */
export const AT_THE_MACHINE = 'server-machine'

/** Never class A: the same eyes see the same thing. */
export type SelfRecheck = { allowed: false } | { allowed: true; afterMinutes: number }

export type ShopCommand =
  | { type: 'OpenShop'; name: string; founder: Person; invented?: boolean }
  | { type: 'AddPerson'; person: Person }
  | { type: 'ChangePerson'; person: Person }
  | { type: 'LeaveShop'; personId: string }
  | { type: 'AddWrench'; wrench: Wrench }
  | { type: 'ChangeWrench'; wrench: Wrench }
  | { type: 'SetTolerances'; tolerances: Tolerances }
  | { type: 'SetSelfRecheck'; selfRecheck: SelfRecheck }
  | { type: 'AddPlan'; plan: Plan }

/** The server's own, never taken from the wire: the entry of a PIN that becomes good in the same commit. */
export type PinCommand = { type: 'SetPin'; personId: string }

/** Who and when, on every event of both streams. `doneAt` is the device's clock, already corrected. */
export interface Done {
  by: string
  doneAt: Instant
  /** What was added to the device's clock, ms; absent when the server stamped the time. */
  clockOffsetMs?: number
}

export type ShopEvent = Done &
  (
    | { type: 'ShopOpened'; name: string; invented: boolean }
    | { type: 'PersonAdded'; person: Person }
    | { type: 'PersonChanged'; person: Person }
    | { type: 'WrenchAdded'; wrench: Wrench }
    | { type: 'WrenchChanged'; wrench: Wrench }
    | { type: 'TolerancesSet'; tolerances: Tolerances }
    | { type: 'SelfRecheckSet'; selfRecheck: SelfRecheck }
    | { type: 'PlanAdded'; plan: Plan }
    | { type: 'PinSet'; personId: string }
    | { type: 'PersonLeft'; personId: string }
  )
