/**
 * Messages beside commands as data from outside, and the published JSON Schema of everything that travels.
 *
 * Commands and events have their schemas in `job/` and `shop/`; what they mean stands in their `types.ts`.
 */
import { z } from 'zod'
import { jobCommandSchema, jobEventSchema, sha256 } from './job/schema'
import { isTooEasyPin, PIN_FORM, PIN_TOO_EASY, PIN_WORDS } from './pin'
import { planJsonSchema } from './plan/schema'
import { PROTOCOL_VERSION } from './protocol'
import { shopCommandSchema, shopEventSchema } from './shop/schema'

const id = z.string().min(1).max(64)
const jobId = z.string().regex(/^[A-Za-z0-9_-]{1,64}$/)
const jobRoom = z.string().regex(/^job:[A-Za-z0-9_-]{1,64}$/)
const version = z.int().min(0)
const newPin = z
  .string()
  .regex(PIN_FORM, `A PIN is ${PIN_WORDS}`)
  .refine((pin) => !isTooEasyPin(pin), PIN_TOO_EASY)
  .describe(PIN_WORDS)

export const watchSchema = z.strictObject({
  room: z.union([z.enum(['board', 'shop']), jobRoom]),
  have: version.optional(),
  unpacks: z.literal(true).optional(),
  leftLater: z.literal(true).optional(),
  protocol: z.int(),
})
export const unwatchSchema = z.strictObject({ room: watchSchema.shape.room })
/** Of a key of 3072 bits 512 digits. */
const sealedSchema = z.base64().max(1024)
export const sealedBesideSchema = z.strictObject({ sealed: sealedSchema })
/** The command itself is looked at by the schema of its stream, and here not even copied: every command passes. */
export const commandMessageSchema = z.strictObject({
  stream: z.union([jobRoom, z.literal('shop')]),
  command: z.custom<object>((value) => typeof value === 'object' && value !== null && !Array.isArray(value)),
  sealed: sealedSchema.optional(),
})
/** A device with more than that waiting is answered once fewer wait. */
const MOST_WAITING = 2000
export const entriesCountedSchema = z.strictObject({
  upTo: z.int().min(0),
  since: z.int().min(0),
  waiting: z.array(z.int().min(1)).max(MOST_WAITING),
})
export const presenceSchema = z.strictObject({
  jobId: jobId.optional(),
  place: z.enum(['engine', 'bench', 'audit']).optional(),
})

/** A wrong PIN is told as wrong, whatever its form. */
export const signInSchema = z.strictObject({ personId: id, pin: z.string().max(64) })
export const setPinSchema = z.strictObject({
  pin: newPin,
  before: z.string().max(64).optional().describe('The PIN until now, of somebody who sets their own'),
})
export const grantSchema = z
  .strictObject({
    personId: id,
    pin: z.string().max(64),
    jobId,
    stepId: id,
    digest: sha256.optional().describe('What the second signer looked at'),
    version: version.optional().describe('The same, of a page that can hash nothing'),
  })
  .refine(({ digest, version }) => digest !== undefined || version !== undefined, { path: ['digest'] })
export const firstRunSchema = z.strictObject({
  shopName: z.string().trim().min(1).max(80),
  name: z.string().trim().min(1).max(80),
  initials: z.string().trim().min(1).max(3),
  pin: newPin,
  code: z.string().max(64).describe('The code the server printed when it was started'),
})

export const demoActSchema = z.union([
  z.strictObject({ do: z.enum(['play', 'pause', 'step']) }),
  z.strictObject({ do: z.literal('restart'), run: id }),
  z.strictObject({ do: z.literal('speed'), speed: z.literal([1, 10, 60, 'at_once']) }),
])
export const demoSignInSchema = z.strictObject({ personId: id })

/** `GET /api/schema`: JSON Schema (draft 2020-12) of every command and event of both streams, and of the plan file. */
export function publishedSchema() {
  return {
    protocol: PROTOCOL_VERSION,
    job: { commands: byType(jobCommandSchema), events: byType(jobEventSchema) },
    shop: { commands: byType(shopCommandSchema), events: byType(shopEventSchema) },
    plan: planJsonSchema(),
  }
}

function byType(union: unknown): Record<string, unknown> {
  const { options } = union as { options: z.ZodObject<{ type: z.ZodLiteral<string> }>[] }
  return Object.fromEntries(
    options.map((option) => [option.shape.type.value, z.toJSONSchema(option, { io: 'input' })]),
  )
}
