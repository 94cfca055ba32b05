/** A job's commands and events as data from outside: what a message must look like to be looked at. */
import { z } from 'zod'
import { adoptedPlanSchema, bandSchema } from '../plan/schema'
import { commandUnion, doneParts, id, instant } from '../shop/schema'
import { TORQUE_UNITS } from '../units'
import { FLAGS } from './flags'
import type { JobCommand, JobEvent } from './types'

const words = (max: number) => z.string().trim().min(1).max(max)
const pass = z.int().min(1).max(50).describe('1 for the first')
const position = z.int().min(1).max(1000)
/** Wide enough for any wrench, narrow enough that a slipped keypad is a fault and not a fact. */
const number = z.number().min(-1_000_000).max(1_000_000)
const how = z.enum(['clicked', 'indicated', 'turned', 'slackened'])

const engineSchema = z.strictObject({ model: words(120), serial: words(80), drives: words(200).optional() })
const adapterSchema = z.strictObject({
  // No lever is shorter; next to nothing would multiply a setting past every number.
  wrenchMm: z.number().min(1).max(5000),
  adapterMm: z.number().min(0).max(5000),
  angleDeg: z.number().min(0).max(360),
})
const jobParts = {
  number: z.string().trim().min(1).max(24),
  engine: engineSchema,
  owner: words(120),
  agreed: words(2000),
}

const commandParts = {
  OpenJob: jobParts,
  AdoptPlan: { planId: id, edition: z.int().min(1) },
  ClaimStep: { stepId: id },
  PutDownStep: { stepId: id },
  EnterScale: {
    jointId: id,
    pass,
    wrenchId: id,
    value: z.number().min(0).max(1_000_000),
    adapter: adapterSchema.optional(),
  },
  TakeReading: {
    jointId: id,
    position,
    pass,
    how,
    wrenchId: id.optional(),
    value: z.number().min(0).max(1_000_000).optional(),
    readsSo: z.boolean().optional(),
  },
  StrikeReading: { readingId: id, reason: words(500) },
  TakeMeasurement: { stepId: id, measurementId: id, place: words(80), value: number, instrument: words(120) },
  StrikeMeasurement: { entryId: id, reason: words(500) },
  AnswerGate: { stepId: id, gateId: id, count: z.int().min(0).max(100_000).optional() },
  SignStep: { stepId: id, setId: id.optional() },
  SecondSignStep: { stepId: id, setId: id.optional() },
} as const

export const jobCommandSchema = commandUnion(commandParts)

const unit = z.enum(TORQUE_UNITS)
const wrenchThenSchema = z.strictObject({
  id,
  kind: z.enum(['click', 'indicating', 'angle_gauge']),
  unit: z.enum([...TORQUE_UNITS, 'deg']),
  min: z.number(),
  max: z.number(),
  state: z.enum(['in_service', 'failed', 'out_for_check', 'dropped']),
  lastCheckedAt: instant.optional(),
  dueAt: instant.optional(),
})
const slipSchema = z.strictObject({
  value: z.number(),
  readAs: unit,
  readNm: z.number(),
  fitsAs: unit,
  fitsNm: z.number(),
})
const band = bandSchema.nullable()

/** One event a type; `doneParts` says who and when on each. */
const event = <Type extends string, Shape extends z.ZodRawShape>(type: Type, shape: Shape) =>
  z.strictObject({ type: z.literal(type), ...doneParts, ...shape })

export const jobEventSchema = z.discriminatedUnion('type', [
  event('JobOpened', jobParts),
  event('PlanAdopted', { plan: adoptedPlanSchema }),
  event('StepClaimed', { stepId: id }),
  event('StepPutDown', { stepId: id }),
  event('ScaleEntered', {
    id,
    jointId: id,
    pass,
    wrenchId: id,
    wrench: wrenchThenSchema.optional(),
    value: z.number(),
    unit,
    adapter: adapterSchema.optional(),
    appliesNm: z.number(),
    band,
    slip: slipSchema.optional(),
  }),
  event('ReadingTaken', {
    id,
    jointId: id,
    position,
    pass,
    how,
    wrenchId: id.optional(),
    wrench: wrenchThenSchema.optional(),
    value: z.number().optional(),
    unit: z.enum([...TORQUE_UNITS, 'deg']).optional(),
    torqueNm: z.number().optional(),
    angleDeg: z.number().optional(),
    band,
    scaleId: id.optional(),
    slip: slipSchema.optional(),
    flags: z.array(z.enum(FLAGS)),
  }),
  event('ReadingStruck', { jointId: id, readingId: id, reason: words(500) }),
  event('MeasurementTaken', {
    id,
    stepId: id,
    measurementId: id,
    place: words(80),
    value: z.number(),
    instrument: words(120),
    inBand: z.boolean(),
  }),
  event('MeasurementStruck', { stepId: id, entryId: id, reason: words(500) }),
  event('GateAnswered', { stepId: id, gateId: id, count: z.int().optional() }),
  event('StepSigned', { stepId: id, setId: id }),
  event('StepSecondSigned', {
    stepId: id,
    setId: id,
    through: z.enum(['sign_in', 'grant']),
    late: z.literal(true).optional(),
  }),
  event('SignaturesLapsed', {
    stepId: id,
    setId: id,
    because: z.enum(['reading', 'strike', 'measurement', 'gate']),
  }),
])

/** The types and the schemas name the same commands and events; a new one in only one of them does not compile. */
type Same<A extends string, B extends string> = [A] extends [B] ? ([B] extends [A] ? true : never) : never
export const jobCommandsAgree: Same<JobCommand['type'], keyof typeof commandParts> = true
export const jobEventsAgree: Same<JobEvent['type'], z.infer<typeof jobEventSchema>['type']> = true
