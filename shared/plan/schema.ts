/**
 * The plan file as data from outside: its layout, and a reader that says where a file is wrong and what to
 * write instead.
 *
 * `readPlanText` and `readPlan` are the only ways a plan comes in. The published JSON Schema is made from the
 * same source (`planJsonSchema`); it knows the layout, not the meaning (`check.ts`).
 */

import { z } from 'zod'
import type { Agree } from '../agree'
import { kindsOf } from '../kinds'
import type { Figures } from '../words'
import { checkPlan } from './check'
import type { AtHand } from './fasteners'
import { readJson } from './json'
import { JOINT_CLASSES, RELEASES } from './kinds'
import type { PlanCaution } from './order'
import type { PlanFault } from './place'
import { faultOf } from './schema-faults'
import type {
  AdoptedPlan,
  Band,
  Fasteners,
  Gate,
  Joint,
  Measurement,
  OutlineShape,
  Pass,
  Plan,
  PlanStep,
  Position,
} from './types'

export const PLAN_FORMAT = 'paintmark-plan/1'

/** Ids become keys of plain records: a name every object answers to would be found where nothing was put. */
const id = z
  .string()
  .max(40)
  .regex(/^[\p{L}\p{N}][\p{L}\p{N}._-]*$/u)
  .refine((text) => !(text in Object.prototype), 'is a word the system keeps for itself')
const words = (max: number) => z.string().trim().min(1).max(max)
const notes = z.array(words(400)).max(40).optional()
const minutes = z.number().min(0).max(100_000)
const torqueNm = z.number().positive().max(50_000)
const angleDeg = z.number().positive().max(1080)
const coordinate = z.number().min(-10_000).max(10_000)
const length = z.number().positive().max(10_000)
const n = z.int().min(1).max(999)
const ids = z.array(id).max(200)
const from = z.enum(['maker', 'plan'])
const wrench = words(40).optional()

const fasteners = z.strictObject({ joint: id, positions: z.array(n).min(1).max(200).optional() })
const covers = z.array(fasteners).min(1).max(60)

const pass = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('torque'),
    torqueNm: torqueNm.nullable(),
    limits: z.strictObject({ minNm: torqueNm, maxNm: torqueNm, from }).optional(),
    wrench,
    asPrinted: z
      .strictObject({
        torqueNm,
        maxNm: torqueNm.optional(),
        photo: z.string().regex(/^[0-9a-f]{64}$/),
        reason: words(400),
      })
      .optional(),
  }),
  z.strictObject({
    kind: z.literal('angle'),
    angleDeg,
    limits: z.strictObject({ minDeg: z.number().min(0), maxDeg: angleDeg, from }).optional(),
    wrench,
  }),
  z.strictObject({ kind: z.literal('slacken'), angleDeg: angleDeg.optional() }),
  z.strictObject({ kind: z.literal('wait'), minutes: z.number().positive().max(100_000) }),
])

const outline = z.discriminatedUnion('shape', [
  z.strictObject({
    shape: z.literal('rect'),
    x: coordinate,
    y: coordinate,
    w: length,
    h: length,
    r: length.optional(),
  }),
  z.strictObject({ shape: z.literal('circle'), x: coordinate, y: coordinate, r: length }),
  z.strictObject({
    shape: z.literal('path'),
    d: z
      .string()
      .max(2000)
      .regex(/^[MmLlHhVvCcSsQqTtAaZz0-9 ,.+-]+$/),
  }),
])

const position = z.strictObject({ n, x: coordinate, y: coordinate, label: words(24).optional() })

const joint = z.strictObject({
  id,
  title: words(120),
  fastener: z.enum(['bolt', 'nut', 'stud', 'plug', 'union', 'sender', 'injector']),
  thread: words(40),
  grade: words(60),
  lengthMm: length.optional(),
  boltThreadMm: length.optional(),
  hole: z
    .strictObject({
      material: words(60),
      stackMm: length,
      washerMm: length.optional(),
      aboveMm: length.optional(),
      depthMm: length.optional(),
      threadMm: length,
    })
    .optional(),
  lubrication: words(80),
  class: z.enum(JOINT_CLASSES),
  use: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('reusable') }),
    z.strictObject({ kind: z.literal('one_use') }),
    z.strictObject({ kind: z.literal('cycles'), limit: z.int().min(1).max(1000) }),
  ]),
  positions: z.array(position).min(1).max(200),
  outline: z.array(outline).max(100).optional(),
  order: z.array(n).min(1).max(200).optional(),
  passes: z.array(pass).min(1).max(20),
  interruption: z.strictObject({
    torqueOnly: z.enum(['restart_pass', 'slacken_restart_joint']),
    afterAngle: z.enum(['new_fasteners', 'slacken_restart_joint']).optional(),
    overshootDeg: z.number().min(0).max(360).optional(),
  }),
  recheckOf: id.optional(),
  clampsAlso: z.array(fasteners).max(20).optional(),
  notes,
})

const gate = z.discriminatedUnion('kind', [
  z.strictObject({ id, kind: z.literal('count'), text: words(200), expect: z.int().min(0).max(10_000) }),
  z.strictObject({ id, kind: z.literal('look'), text: words(200) }),
  z.strictObject({
    id,
    kind: z.literal('photo'),
    text: words(200),
    places: z.array(words(60)).min(1).max(60),
  }),
  z.strictObject({ id, kind: z.literal('proven'), text: words(200), covers }),
  z.strictObject({ id, kind: z.literal('cured'), text: words(200), steps: ids.min(1) }),
  z.strictObject({ id, kind: z.literal('no_open_class_a'), text: words(200) }),
])

const sizeMm = z.number().min(0).max(1000)
const leadsTo = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('clearance'), of: z.enum(['bearing', 'end_play', 'ring_gap']) }),
  z.strictObject({
    kind: z.literal('gasket'),
    grades: z
      .array(z.strictObject({ name: words(60), minMm: z.number(), maxMm: z.number() }))
      .min(1)
      .max(20),
  }),
  z.strictObject({
    kind: z.literal('timing_shim'),
    fittedMm: sizeMm,
    perMm: z.number().min(-1000).max(1000),
    sizesMm: z.array(sizeMm).min(1).max(60),
  }),
])

const measurement = z.strictObject({
  id,
  title: words(160),
  unit: words(20),
  places: z.array(words(60)).min(1).max(100),
  min: z.number().optional(),
  max: z.number().optional(),
  instrument: words(80).optional(),
  leadsTo: leadsTo.optional(),
  notes,
})

const step = z.strictObject({
  id,
  stage: id,
  title: words(160),
  kind: z.enum(['prepare', 'measure', 'fit', 'tighten', 'check', 'run']),
  needs: ids,
  hides: z.array(fasteners).max(100),
  minutes: z.strictObject({ low: minutes, likely: minutes, high: minutes }),
  signatures: z.literal([1, 2]),
  sets: z
    .array(z.strictObject({ id, title: words(120), covers }))
    .max(60)
    .optional(),
  notes,
  cautions: notes,
  joints: z.array(joint).max(60),
  measurements: z.array(measurement).max(60),
  sealant: z
    .strictObject({
      product: words(120),
      closeWithinMinutes: z.number().positive().max(100_000),
      cureMinutes: minutes,
      before: ids,
    })
    .optional(),
  parts: z
    .array(
      z.strictObject({ name: words(160), quantity: z.number().positive(), oneUse: z.boolean().optional() }),
    )
    .max(200),
  gates: z.array(gate).max(60),
})

export const planSchema = z
  .strictObject({
    format: z.literal(PLAN_FORMAT),
    id,
    edition: z.int().min(1).max(100_000),
    title: words(160),
    family: words(40),
    source: words(400),
    invented: z.boolean().optional(),
    notices: notes,
    stages: z
      .array(z.strictObject({ id, title: words(80), releases: z.enum(kindsOf(RELEASES)).optional() }))
      .min(1)
      .max(60),
    steps: z.array(step).min(1).max(2000),
  })
  .describe('A build plan of Paintmark. Torques in N·m, angles in degrees, lengths in mm, times in minutes.')

const bandFrom = z.enum(['maker', 'plan', 'shop'])
export const bandSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('torque'), minNm: z.number(), maxNm: z.number(), from: bandFrom }),
  z.strictObject({ kind: z.literal('angle'), minDeg: z.number(), maxDeg: z.number(), from: bandFrom }),
])

/** The copy inside a job, as its event carries it. */
export const adoptedPlanSchema = planSchema.extend({
  steps: z.array(
    step.extend({ joints: z.array(joint.extend({ bands: z.array(bandSchema.nullable()).max(20) })).max(60) }),
  ),
})

/**
 * Compiles only while the schema and `types.ts` say the same, optional entries too. Piece by piece: a
 * compiler stops comparing a few levels down.
 */
true satisfies Agree<z.infer<typeof planSchema>, Plan>
true satisfies Agree<z.infer<typeof adoptedPlanSchema>, AdoptedPlan>
true satisfies Agree<z.infer<typeof step>, PlanStep>
true satisfies Agree<z.infer<typeof joint>, Joint>
true satisfies Agree<z.infer<typeof position>, Position>
true satisfies Agree<z.infer<typeof pass>, Pass>
true satisfies Agree<z.infer<typeof outline>, OutlineShape>
true satisfies Agree<z.infer<typeof gate>, Gate>
true satisfies Agree<z.infer<typeof measurement>, Measurement>
true satisfies Agree<z.infer<typeof fasteners>, Fasteners>
true satisfies Agree<z.infer<typeof bandSchema>, Band>

export type PlanReading = { plan: Plan; cautions: PlanCaution[] } | { faults: PlanFault[] }

/** A plan from the text of its file. */
export function readPlanText(text: string, figures: Figures, atHand?: AtHand): PlanReading {
  const read = readJson(text)
  if ('value' in read) return readPlan(read.value, figures, atHand)
  const { line, column, problem, fix } = read.slip
  return { faults: [{ path: `line ${line}, column ${column}`, problem, fix }] }
}

/** A plan from a value somebody sent; nothing about it is taken for granted. */
export function readPlan(value: unknown, figures: Figures, atHand?: AtHand): PlanReading {
  const format =
    typeof value === 'object' && value !== null ? (value as { format?: unknown }).format : undefined
  if (typeof format === 'string' && format !== PLAN_FORMAT)
    return {
      faults: [
        {
          path: 'format',
          problem: `“${format}” is not known here`,
          fix: `This reader knows ${PLAN_FORMAT}.`,
        },
      ],
    }
  const parsed = planSchema.safeParse(value, { reportInput: true })
  if (!parsed.success) return { faults: parsed.error.issues.map((issue) => faultOf(issue, value)) }
  const { faults, cautions } = checkPlan(parsed.data, figures, atHand)
  return faults.length > 0 ? { faults } : { plan: parsed.data, cautions }
}

/** The layout as published JSON Schema (draft 2020-12). */
export function planJsonSchema() {
  return z.toJSONSchema(planSchema, { io: 'input' })
}
