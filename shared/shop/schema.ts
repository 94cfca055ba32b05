/** The shop's commands and events as data from outside: what a message must look like to be looked at. */
import { z } from 'zod'
import { kindsOf } from '../kinds'
import { planSchema } from '../plan/schema'
import { TORQUE_UNITS } from '../units'
import { ROLES } from './kinds'
import { AT_THE_MACHINE, PAINTS, type ShopCommand, type ShopEvent } from './types'

export const id = z.string().trim().min(1).max(64)
/** What is entered under a new id becomes a key of a plain record; a name every object answers to cannot. */
const newId = id.refine(
  (text) => !(text in Object.prototype) && text !== AT_THE_MACHINE,
  'is a word the system keeps for itself',
)
const words = (max: number) => z.string().trim().min(1).max(max)
export const instant = z
  .int()
  .min(0)
  .max(8_640_000_000_000_000)
  .describe('Milliseconds since 1970-01-01T00:00Z')
const entitlement = z.strictObject({
  classes: z.array(z.enum(['A', 'B', 'C'])).max(3),
  families: z.array(words(40)).max(40),
})

export const personSchema = z.strictObject({
  id: newId,
  name: words(80),
  initials: z.string().trim().min(1).max(3),
  paint: z.enum(PAINTS),
  roles: z.array(z.enum(kindsOf(ROLES))).max(kindsOf(ROLES).length),
  mayDo: entitlement,
  maySecondSign: entitlement,
})

const wrenchCard = z.strictObject({
  id: newId,
  kind: z.enum(['click', 'indicating', 'angle_gauge']),
  title: words(120),
  unit: z.enum([...TORQUE_UNITS, 'deg']),
  min: z.number().min(0),
  max: z.number().positive(),
  increment: z.number().positive().optional(),
  lengthMm: z.number().min(50).max(5000).optional(),
  away: words(80).optional(),
  lastCheckedAt: instant.optional(),
  dueAt: instant.optional(),
  state: z.enum(['in_service', 'failed', 'out_for_check', 'dropped']),
})

export const wrenchSchema = wrenchCard
  .refine(({ min, max }) => min < max, {
    path: ['max'],
    error: 'is not above the lowest number on the scale',
  })
  .refine(({ kind, unit }) => (kind === 'angle_gauge') === (unit === 'deg'), {
    path: ['unit'],
    error: 'does not suit this kind: an angle gauge reads degrees, a torque wrench does not',
  })

const percent = z.number().positive().max(50)
export const tolerancesSchema = z.strictObject({
  percent: z.strictObject({ A: percent, B: percent, C: percent }),
  angleDeg: z.number().positive().max(45),
})

export const selfRecheckSchema = z.discriminatedUnion('allowed', [
  z.strictObject({ allowed: z.literal(false) }),
  z.strictObject({ allowed: z.literal(true), afterMinutes: z.int().min(1).max(100_000) }),
])

const commandParts = {
  OpenShop: { name: words(80), founder: personSchema, invented: z.boolean().optional() },
  AddPerson: { person: personSchema },
  ChangePerson: { person: personSchema },
  LeaveShop: { personId: id },
  AddWrench: { wrench: wrenchSchema },
  ChangeWrench: { wrench: wrenchSchema },
  SetTolerances: { tolerances: tolerancesSchema },
  SetSelfRecheck: { selfRecheck: selfRecheckSchema },
  AddPlan: { plan: planSchema },
} as const

/** What every sent command carries beside its own fields; see `protocol.ts`. */
export const commandHead = {
  commandId: z.uuid().describe('UUIDv7; a resend keeps it and gets its first answer'),
  signInId: z.uuid().optional(),
  doneAt: instant.optional(),
  // However wrong: a clock that lost its battery stands in 1970, and what it stamped is still a fact.
  clockOffsetMs: z.int().optional(),
  grantId: z.uuid().optional(),
  entryNumber: z
    .int()
    .min(1)
    .optional()
    .describe('its place in the device’s own count of entries: what never arrives leaves a gap'),
}

/** One strict object a command type, told apart by `type`. */
export function commandUnion<Parts extends Record<string, z.ZodRawShape>>(parts: Parts) {
  const options = Object.entries(parts).map(([type, shape]) =>
    z.strictObject({ type: z.literal(type), ...commandHead, ...shape }),
  )
  return z.discriminatedUnion('type', options as never) as unknown as z.ZodType<{
    type: keyof Parts & string
    commandId: string
  }>
}

export const shopCommandSchema = commandUnion(commandParts)

/** Who and when, on every event. */
export const doneParts = { by: id, doneAt: instant, clockOffsetMs: z.int().optional() }

export const shopEventSchema = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('ShopOpened'), ...doneParts, name: words(80), invented: z.boolean() }),
  z.strictObject({ type: z.literal('PersonAdded'), ...doneParts, person: personSchema }),
  z.strictObject({ type: z.literal('PersonChanged'), ...doneParts, person: personSchema }),
  z.strictObject({ type: z.literal('WrenchAdded'), ...doneParts, wrench: wrenchSchema }),
  z.strictObject({ type: z.literal('WrenchChanged'), ...doneParts, wrench: wrenchSchema }),
  z.strictObject({ type: z.literal('TolerancesSet'), ...doneParts, tolerances: tolerancesSchema }),
  z.strictObject({ type: z.literal('SelfRecheckSet'), ...doneParts, selfRecheck: selfRecheckSchema }),
  z.strictObject({ type: z.literal('PlanAdded'), ...doneParts, plan: planSchema }),
  z.strictObject({ type: z.literal('PinSet'), ...doneParts, personId: id }),
  z.strictObject({ type: z.literal('PersonLeft'), ...doneParts, personId: id }),
])

/** The types and the schemas name the same commands and events; a new one in only one of them does not compile. */
type Same<A extends string, B extends string> = [A] extends [B] ? ([B] extends [A] ? true : never) : never
export const shopCommandsAgree: Same<ShopCommand['type'], keyof typeof commandParts> = true
export const shopEventsAgree: Same<ShopEvent['type'], z.infer<typeof shopEventSchema>['type']> = true
