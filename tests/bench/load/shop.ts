/** The shop of the bench: two people who may do everything, and every wrench the demo plan names. Invented. */
import type { Plan } from '../../../shared/plan/types'
import type { ShopCommand, Wrench } from '../../../shared/shop/types'
import { person as anyPerson } from '../../shop/people'
import { DAY } from '../../shop/time'
import { wrench as anyWrench } from '../../shop/wrenches'

export const DOER = 'bench-doer'
export const SECOND = 'bench-second'
/** Shows torque, for readings without a scale entry. */
export const DIAL = 'bench-dial'

const person = (id: string, name: string, initials: string) =>
  anyPerson(id, { name, initials, roles: ['technician', 'supervisor'] })

const wrench = (id: string, kind: Wrench['kind'], now: number) =>
  anyWrench(id, {
    kind,
    ...(kind === 'angle_gauge' ? { unit: 'deg', min: 0, max: 360 } : { min: 1, max: 600 }),
    lastCheckedAt: now - 30 * DAY,
    dueAt: now + 300 * DAY,
  })

/** By `DOER`, in this order. */
export function shopCommands(plan: Plan, now: number): ShopCommand[] {
  const named = new Map<string, Wrench['kind']>([[DIAL, 'indicating']])
  for (const { joints } of plan.steps)
    for (const { passes } of joints)
      for (const pass of passes)
        if ('wrench' in pass && pass.wrench)
          named.set(pass.wrench, pass.kind === 'angle' ? 'angle_gauge' : 'click')
  return [
    // Not marked as the demonstration's: its log is opened by the program of a real shop, which refuses that.
    {
      type: 'OpenShop',
      name: 'Bench shop',
      founder: person(DOER, 'Bench Doer', 'BD'),
    },
    { type: 'AddPerson', person: person(SECOND, 'Bench Second', 'BS') },
    ...[...named].map(([id, kind]) => ({ type: 'AddWrench' as const, wrench: wrench(id, kind, now) })),
    { type: 'AddPlan', plan },
  ]
}
