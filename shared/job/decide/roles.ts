/** Who may say what, by role. Entitlements to joints and engine families stand in `shared/shop/`. */
import type { Refusal } from '../../log'
import { LEADS } from '../../shop/entitlement'
import type { Role } from '../../shop/kinds'
import { type Context, no, personOf } from '../context'
import type { RefusalCode } from '../refusals'

export const holds = (context: Context, roles: readonly Role[]): boolean =>
  personOf(context)?.roles.some((role) => roles.includes(role)) ?? false

/** A supervisor, or the owner of the shop. */
export const leads = (context: Context): boolean => holds(context, LEADS)

/** The refusal for somebody without any of these roles, or nothing; `what` is what only they can do. */
export const roleMissing = (
  context: Context,
  roles: readonly Role[],
  what: string,
): Refusal<RefusalCode> | undefined =>
  holds(context, roles) ? undefined : no('role_needed', { what, roles: [...roles] })
