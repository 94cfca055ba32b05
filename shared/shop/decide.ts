/**
 * What may happen next to the shop itself: people, wrenches, tolerances, the plan library.
 *
 * The same shape as `../job/decide.ts`: events, nothing to do, or a refusal. Entering people, wrenches and
 * tolerances is the supervisor's and the owner's; the founder opens the shop and is entered with it.
 */
import { type Instant, type Refusal, refuse } from '../log'
import { lookUp } from '../look-up'
import { checkPlan } from '../plan/check'
import type { Figures } from '../words'
import { leads } from './entitlement'
import { hasLeft } from './left'
import type { ShopRefusalCode, ShopRefusalData } from './refusals'
import {
  AT_THE_MACHINE,
  type Done,
  type Person,
  type PinCommand,
  type Shop,
  type ShopCommand,
  type ShopEvent,
} from './types'

export interface ShopContext {
  by: string
  doneAt: Instant
  clockOffsetMs?: number
  /** The server's: whether a photo's bytes are on it. */
  bytesHere?: ((sha256: string) => boolean) | undefined
  /** The server's: a PIN becomes good with what is decided. */
  withPin?: boolean | undefined
  /** For what is said of a plan. */
  figures: Figures
}

export type ShopOutcome = ShopEvent[] | Refusal<ShopRefusalCode>

const no = <Code extends ShopRefusalCode>(
  code: Code,
  data: ShopRefusalData[Code],
): Refusal<ShopRefusalCode> => refuse(code, data as Record<string, unknown>)

/** [SH1–SH19] */
export function decideShop(shop: Shop, command: ShopCommand | PinCommand, context: ShopContext): ShopOutcome {
  const { by, doneAt, clockOffsetMs, bytesHere, withPin, figures } = context
  const done: Done = clockOffsetMs === undefined ? { by, doneAt } : { by, doneAt, clockOffsetMs }
  if (command.type === 'OpenShop') {
    if (shop.opened) return no('shop_already_open', { name: shop.name })
    const fault = personFault(shop, command.founder)
    if (fault) return fault
    if (!leads(command.founder)) return no('founder_leads', {})
    return [
      { type: 'ShopOpened', ...done, name: command.name, invented: command.invented ?? false },
      { type: 'PersonAdded', ...done, person: command.founder },
      ...(withPin ? [{ type: 'PinSet' as const, ...done, personId: command.founder.id }] : []),
    ]
  }
  if (!shop.opened) return no('shop_not_open', {})
  const person = lookUp(shop.people, by)
  if (command.type === 'SetPin') {
    const { personId } = command
    const whose = lookUp(shop.people, personId)
    if (!whose) return no('person_not_found', { id: personId })
    if (hasLeft(shop, personId)) return no('person_left', { name: whose.name })
    const may = by === personId || by === AT_THE_MACHINE || (person !== undefined && leads(person))
    return may ? [{ type: 'PinSet', ...done, personId }] : no('pin_of_another', {})
  }
  if (!person || !leads(person)) return no('shop_role_needed', {})
  switch (command.type) {
    case 'AddPerson':
      if (lookUp(shop.people, command.person.id)) return no('person_exists', { name: command.person.name })
      return personFault(shop, command.person) ?? [{ type: 'PersonAdded', ...done, person: command.person }]
    case 'ChangePerson':
      if (!lookUp(shop.people, command.person.id)) return no('person_not_found', { id: command.person.id })
      if (!hasLeft(shop, command.person.id) && same(lookUp(shop.people, command.person.id), command.person))
        return []
      return (
        personFault(shop, command.person) ??
        lastLeader(shop, command.person) ?? [{ type: 'PersonChanged', ...done, person: command.person }]
      )
    case 'LeaveShop': {
      const { personId } = command
      const leaver = lookUp(shop.people, personId)
      if (!leaver) return no('person_not_found', { id: personId })
      if (hasLeft(shop, personId)) return []
      return lastLeader(shop, { ...leaver, roles: [] }) ?? [{ type: 'PersonLeft', ...done, personId }]
    }
    case 'AddWrench':
      if (lookUp(shop.wrenches, command.wrench.id)) return no('wrench_exists', { id: command.wrench.id })
      return [{ type: 'WrenchAdded', ...done, wrench: command.wrench }]
    case 'ChangeWrench':
      if (!lookUp(shop.wrenches, command.wrench.id))
        return no('shop_wrench_not_found', { id: command.wrench.id })
      if (same(lookUp(shop.wrenches, command.wrench.id), command.wrench)) return []
      return [{ type: 'WrenchChanged', ...done, wrench: command.wrench }]
    case 'SetTolerances':
      if (same(shop.tolerances, command.tolerances)) return []
      return [{ type: 'TolerancesSet', ...done, tolerances: command.tolerances }]
    case 'SetSelfRecheck':
      if (same(shop.selfRecheck, command.selfRecheck)) return []
      return [{ type: 'SelfRecheckSet', ...done, selfRecheck: command.selfRecheck }]
    case 'AddPlan': {
      const { id, edition } = command.plan
      const known = lookUp(lookUp(shop.plans, id) ?? {}, edition)
      if (known) return same(known, command.plan) ? [] : no('edition_taken', { title: known.title, edition })
      const [fault] = checkPlan(command.plan, figures, { bytesHere, tolerances: shop.tolerances }).faults
      if (fault) return no('plan_has_faults', fault)
      return [{ type: 'PlanAdded', ...done, plan: command.plan }]
    }
  }
}

/** Two stripes that look alike would put one person's word on another's bolt. */
function personFault(shop: Shop, person: Person): Refusal<ShopRefusalCode> | undefined {
  const clash = Object.values(shop.people).find(
    (other) => other.id !== person.id && other.initials.toLowerCase() === person.initials.toLowerCase(),
  )
  return clash && no('initials_taken', { initials: person.initials, name: clash.name })
}

function lastLeader(shop: Shop, changed: Person): Refusal<ShopRefusalCode> | undefined {
  const others = Object.values(shop.people).some((person) => person.id !== changed.id && leads(person))
  return others || leads(changed) ? undefined : no('last_leader', { name: changed.name })
}

/** Equal as plain data, whatever the order of the keys. */
function same(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true
  if (typeof a !== 'object' || typeof b !== 'object' || !a || !b || Array.isArray(a) !== Array.isArray(b))
    return false
  const keys = Object.keys({ ...a, ...b })
  return keys.every((key) => same((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]))
}
