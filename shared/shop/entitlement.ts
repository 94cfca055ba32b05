/** Who leads the shop, and who may sign what: joint classes and engine families, as the supervisor entered them. */
import { kindsOf } from '../kinds'
import type { JointClass } from '../plan/kinds'
import { listed } from '../words'
import { ROLES, type Role } from './kinds'
import type { Entitlement, Person } from './types'

/** The roles whose word settles what others may not: the supervisors' and the owner's. */
export const LEADS: readonly Role[] = kindsOf(ROLES).filter((role) => ROLES[role].leads)

/** Who speaks for the shop with the owners of engines. */
export const OFFICE: readonly Role[] = kindsOf(ROLES).filter((role) => ROLES[role].office)

/** `a supervisor or the owner of the shop`: somebody who holds one of these roles. */
export const somebodyOf = (roles: readonly Role[]): string =>
  listed(
    roles.map((role) => ROLES[role].somebody),
    'or',
  )

export const SOMEBODY_WHO_LEADS = somebodyOf(LEADS)

export const leads = ({ roles }: Pick<Person, 'roles'>): boolean => roles.some((role) => LEADS.includes(role))

function covers({ classes, families }: Entitlement, cls: JointClass, family: string): boolean {
  return classes.includes(cls) && (families.length === 0 || families.includes(family))
}

export const mayDo = (person: Person, cls: JointClass, family: string): boolean =>
  covers(person.mayDo, cls, family)

export const maySecondSign = (person: Person, cls: JointClass, family: string): boolean =>
  covers(person.maySecondSign, cls, family)
