/** A job's commands and events as data from outside: what a message must look like to be looked at. */

import { z } from 'zod'
import type { Agree } from '../agree'
import { proposalSchema } from '../fastener/schema'
import { kindsOf } from '../kinds'
import { RELEASES } from '../plan/kinds'
import { adoptedPlanSchema, bandSchema } from '../plan/schema'
import { WRENCH_KINDS, WRENCH_STATES } from '../shop/kinds'
import { commandUnion, doneParts, id, instant } from '../shop/schema'
import { TORQUE_UNITS } from '../units'
import type { JobCommand } from './commands'
import type { JobEvent } from './events'
import {
  FASTENER_CONDITIONS,
  FASTENER_FLAGS,
  FLAGS,
  HOLD_KINDS,
  HOLE_CONDITIONS,
  LOOK_FLAGS,
  READ_BY_HEAD,
  RESTARTS,
} from './kinds'
import { TEXT_LENGTHS } from './text-lengths'
import type { Engine } from './types'

const words = (max: number) => z.string().trim().min(1).max(max)
const pass = z.int().min(1).max(50).describe('1 for the first')
const position = z.int().min(1).max(1000)
/** Wide enough for any wrench, narrow enough that a slipped keypad is a fault and not a fact. */
const number = z.number().min(-1_000_000).max(1_000_000)
const how = z.enum(READ_BY_HEAD)

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

const positions = z.array(position).min(1).max(1000)
const reason = words(TEXT_LENGTHS.reason)
const note = words(TEXT_LENGTHS.note)
const story = words(TEXT_LENGTHS.story)
const condition = z.enum(kindsOf(FASTENER_CONDITIONS))
const cycle = z.int().min(1).max(1000)
const restartHow = z.enum(kindsOf(RESTARTS))
const holdKind = z.enum(kindsOf(HOLD_KINDS))
const releaseKind = z.enum(kindsOf(RELEASES))
const torqueNm = z.number().positive().max(1_000_000)
const day = z.iso.date().describe('A day of the shop’s calendar, YYYY-MM-DD')

const deferredSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('step'), stepId: id }),
  z.strictObject({ kind: z.literal('fasteners'), joint: id, positions }),
])
const basisSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('source'), title: words(200), edition: words(80), page: words(80) }),
  z.strictObject({
    kind: z.literal('computed'),
    method: words(200),
    inputs: words(1000),
    proposal: proposalSchema.optional(),
  }),
  z.strictObject({ kind: z.literal('word'), competence: words(200) }),
])
const waivedSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('reading'), readingId: id }),
  z.strictObject({ kind: z.literal('fastener'), jointId: id, position }),
  z.strictObject({ kind: z.literal('measurement'), entryId: id }),
  z.strictObject({ kind: z.literal('second'), stepId: id, setId: id }),
  z.strictObject({ kind: z.literal('hiding'), stepId: id }),
  z.strictObject({ kind: z.literal('sealant'), stepId: id }),
  z.strictObject({ kind: z.literal('gate'), stepId: id, gateId: id }),
])
export const sha256 = z.string().regex(/^[0-9a-f]{64}$/, 'SHA-256 as 64 hex digits')
const photoSchema = z.strictObject({
  id,
  sha256,
  bytes: z.int().min(1).max(20_000_000),
  mime: z.enum(['image/jpeg', 'image/webp', 'image/png']),
  widthPx: z.int().min(1).max(20_000),
  heightPx: z.int().min(1).max(20_000),
  caption: words(500).optional(),
  stepId: id.optional(),
  gateId: id.optional(),
  place: words(80).optional(),
})

const sizeMm = z.number().positive().max(5000)
const holeParts = {
  condition: z.enum(kindsOf(HOLE_CONDITIONS)),
  depthMm: sizeMm.optional(),
  threadMm: sizeMm.optional(),
  insert: z
    .strictObject({
      kind: z.enum(['wire', 'solid']),
      lengthMm: sizeMm,
      setDownMm: z.number().min(0).max(100).optional(),
      outerThread: words(40).optional(),
    })
    .optional(),
  doneBy: words(120).optional(),
  note: words(500).optional(),
}

const commandParts = {
  OpenJob: jobParts,
  AdoptPlan: { planId: id, edition: z.int().min(1) },
  ClaimStep: { stepId: id, hidesKnowingly: z.boolean().optional() },
  PutDownStep: { stepId: id, note: story.optional() },
  HandOverStep: { stepId: id, to: id, note: story.optional() },
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
  CountRound: {
    jointId: id,
    pass,
    wrenchId: id.optional(),
    count: z.int().min(0).max(10_000),
    position: position.optional(),
  },
  RestartRound: { jointId: id, position, how: restartHow },
  StrikeReading: { readingId: id, reason },
  PlaceFasteners: {
    jointId: id,
    positions,
    condition,
    cycle: cycle.optional(),
    lengthMm: sizeMm.optional(),
  },
  RecordHole: {
    jointId: id,
    position,
    ...holeParts,
    cureMinutes: z.int().min(1).max(100_000).optional(),
  },
  TakeMeasurement: { stepId: id, measurementId: id, place: words(80), value: number, instrument: words(120) },
  StrikeMeasurement: { entryId: id, reason },
  StartSealant: { stepId: id },
  CloseSealant: { stepId: id },
  AnswerGate: { stepId: id, gateId: id, count: z.int().min(0).max(100_000).optional() },
  TakeOff: { stepId: id },
  NoteLook: { stepId: id, setId: id.optional(), personId: id },
  AddNote: { text: note, stepId: id.optional() },
  AddPhoto: { photo: photoSchema },
  ConfirmPhoto: { photoId: id },
  SignStep: { stepId: id, setId: id.optional() },
  SecondSignStep: {
    stepId: id,
    setId: id.optional(),
    look: z.strictObject({ personId: id, digest: sha256 }).optional(),
  },
  RecheckOwnWork: { stepId: id, setId: id.optional() },
  Defer: { what: deferredSchema, dueStepId: id, reason },
  WithdrawDeferral: { deferralId: id, reason },
  SettleValue: { jointId: id, pass, torqueNm, minNm: torqueNm, maxNm: torqueNm, basis: basisSchema, reason },
  Waive: { what: waivedSchema, reason },
  Release: { kind: releaseKind },
  OpenWarranty: { complaint: story },
  CloseWarranty: { finding: story },
  RaiseHold: {
    kind: holdKind,
    stepIds: z.array(id).min(1).max(500),
    what: reason,
    expectedAt: instant.optional(),
  },
  ChangeHold: { holdId: id, what: reason.optional(), expectedAt: instant.nullable().optional() },
  ClearHold: { holdId: id, how: reason },
  PromiseDate: { date: day, reason },
} as const

export const jobCommandSchema = commandUnion(commandParts)

const unit = z.enum(TORQUE_UNITS)
const wrenchThenSchema = z.strictObject({
  id,
  kind: z.enum(kindsOf(WRENCH_KINDS)),
  unit: z.enum([...TORQUE_UNITS, 'deg']),
  min: z.number(),
  max: z.number(),
  state: z.enum(kindsOf(WRENCH_STATES)),
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

const stoppedAtSchema = z.strictObject({
  jointId: id,
  pass,
  position,
  positions,
  midPass: z.boolean(),
  asks: z.enum([...kindsOf(RESTARTS), 'nothing']),
})

const readingParts = {
  id,
  jointId: id,
  pass,
  wrenchId: id.optional(),
  wrench: wrenchThenSchema.optional(),
  value: z.number().optional(),
  unit: z.enum([...TORQUE_UNITS, 'deg']).optional(),
  torqueNm: z.number().optional(),
  angleDeg: z.number().optional(),
  band,
  scaleId: id.optional(),
  slip: slipSchema.optional(),
  flags: z.array(z.enum(kindsOf(FLAGS))),
}

export const jobEventSchema = z.discriminatedUnion('type', [
  event('JobOpened', jobParts),
  event('PlanAdopted', { plan: adoptedPlanSchema }),
  event('StepClaimed', { stepId: id, hidesKnowingly: z.array(id).optional() }),
  event('StepPutDown', { stepId: id, note: story.optional() }),
  event('StepStopped', { stepId: id, at: z.array(stoppedAtSchema), note: story.optional() }),
  event('StepHandedOver', {
    stepId: id,
    from: id,
    to: id,
    at: z.array(stoppedAtSchema),
    note: story.optional(),
  }),
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
  event('ReadingTaken', { ...readingParts, position, how }),
  event('RoundCounted', { ...readingParts, positions }),
  event('RoundRestarted', { jointId: id, positions, fromPass: pass, how: restartHow }),
  event('ReadingStruck', { jointId: id, readingId: id, reason }),
  event('FastenersPlaced', {
    jointId: id,
    positions,
    condition,
    cycle: cycle.optional(),
    lengthMm: sizeMm.optional(),
    flags: z.array(z.enum(kindsOf(FASTENER_FLAGS))),
    voids: positions.optional(),
  }),
  event('HoleRecorded', { id, jointId: id, position, ...holeParts, curesUntil: instant.optional() }),
  event('MeasurementTaken', {
    id,
    stepId: id,
    measurementId: id,
    place: words(80),
    value: z.number(),
    instrument: words(120),
    inBand: z.boolean(),
  }),
  event('MeasurementStruck', { stepId: id, entryId: id, reason }),
  event('SealantStarted', { stepId: id }),
  event('SealantClosed', { stepId: id }),
  event('GateAnswered', { stepId: id, gateId: id, count: z.int().optional() }),
  event('StepTakenOff', { stepId: id }),
  event('StepSigned', { stepId: id, setId: id }),
  event('StepSecondSigned', {
    stepId: id,
    setId: id,
    through: z.enum(['sign_in', 'grant', 'sealed']),
    late: z.literal(true).optional(),
  }),
  event('OwnWorkRechecked', { stepId: id, setId: id, late: z.literal(true).optional() }),
  event('LookNoted', {
    stepId: id,
    setId: id,
    personId: id,
    flag: z.enum(kindsOf(LOOK_FLAGS)).optional(),
  }),
  event('SignaturesLapsed', {
    stepId: id,
    setId: id,
    because: z.enum([
      'reading',
      'strike',
      'measurement',
      'gate',
      'restart',
      'fastener',
      'hole',
      'sealant',
      'value',
      'taken_off',
    ]),
  }),
  event('HoldRaised', {
    id,
    kind: holdKind,
    stepIds: z.array(id),
    what: reason,
    expectedAt: instant.optional(),
  }),
  event('HoldChanged', {
    holdId: id,
    what: reason.optional(),
    expectedAt: instant.optional(),
    undated: z.literal(true).optional(),
  }),
  event('HoldCleared', { holdId: id, how: reason }),
  event('Deferred', { id, what: deferredSchema, dueStepId: id, reason }),
  event('DeferralWithdrawn', { deferralId: id, reason }),
  event('ValueSettled', {
    jointId: id,
    pass,
    torqueNm,
    minNm: torqueNm,
    maxNm: torqueNm,
    basis: basisSchema,
    reason,
  }),
  event('Waived', { id, what: waivedSchema, reason, ownWork: z.literal(true).optional() }),
  event('Released', {
    kind: releaseKind,
    number: words(40),
    edition: z.int().min(1),
    head: z.string(),
    ownWork: z.literal(true).optional(),
    people: z.record(id, z.strictObject({ name: words(80), initials: words(3) })).optional(),
  }),
  event('ReleaseWithdrawn', { kind: z.literal('to_fitting'), because: z.literal('rework'), stepId: id }),
  event('WarrantyOpened', { complaint: story }),
  event('WarrantyClosed', { finding: story }),
  event('DatePromised', { date: day, reason }),
  event('NoteAdded', { id, text: note, stepId: id.optional() }),
  event('PhotoAdded', { photo: photoSchema }),
  event('PhotoArrived', { photoId: id }),
])

/** The types and the schemas name the same commands and events; a new one in only one of them does not compile. */
type Same<A extends string, B extends string> = [A] extends [B] ? ([B] extends [A] ? true : never) : never
export const jobCommandsAgree: Same<JobCommand['type'], keyof typeof commandParts> = true
true satisfies Agree<z.infer<typeof engineSchema>, Engine>
export const jobEventsAgree: Same<JobEvent['type'], z.infer<typeof jobEventSchema>['type']> = true
