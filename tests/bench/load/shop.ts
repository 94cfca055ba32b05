/** The shop of the bench: two people who may do everything, and every wrench the demo plan names. Invented. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { repoFolder } from '../../../server/repo-folder'
import type { Plan } from '../../../shared/plan/types'
import type { Person, ShopCommand, Wrench } from '../../../shared/shop/types'

export const DOER = 'bench-doer'
export const SECOND = 'bench-second'
/** Shows torque, for readings without a scale entry. */
export const DIAL = 'bench-dial'

export const demoPlan = (): Plan =>
  JSON.parse(readFileSync(join(repoFolder(), 'seed', 'plans', 'orrath-q31.json'), 'utf8')) as Plan

const person = (id: string, name: string, initials: string, paint: Person['paint']): Person => ({
  id,
  name,
  initials,
  paint,
  roles: ['technician', 'supervisor'],
  mayDo: { classes: ['A', 'B', 'C'], families: [] },
  maySecondSign: { classes: ['A', 'B', 'C'], families: [] },
})

const wrench = (id: string, kind: Wrench['kind'], now: number): Wrench => ({
  id,
  kind,
  title: `Wrench ${id}`,
  unit: kind === 'angle_gauge' ? 'deg' : 'N·m',
  min: kind === 'angle_gauge' ? 0 : 1,
  max: kind === 'angle_gauge' ? 360 : 600,
  lastCheckedAt: now - 30 * 86_400_000,
  dueAt: now + 300 * 86_400_000,
  state: 'in_service',
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
      founder: person(DOER, 'Bench Doer', 'BD', 'blue'),
    },
    { type: 'AddPerson', person: person(SECOND, 'Bench Second', 'BS', 'green') },
    ...[...named].map(([id, kind]) => ({ type: 'AddWrench' as const, wrench: wrench(id, kind, now) })),
    { type: 'AddPlan', plan },
  ]
}
