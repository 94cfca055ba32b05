/** A proposal as data from outside: what it must look like to be looked at. */
import { z } from 'zod'
import type { Proposal } from './proposal'

const words = (max: number) => z.string().trim().min(1).max(max)
const number = z.number().min(0).max(1e9)
const above = z.number().positive().max(1e9)
const link = z.enum(['bolt', 'bolt_thread', 'hole_thread'])

export const proposalSchema = z.strictObject({
  added: z.strictObject({
    holeMaterial: z.union([words(120), z.strictObject({ words: words(120), shearMPa: above })]).optional(),
    engagementMm: above.optional(),
    utilisation: above.max(1).optional(),
    grade: words(60).optional(),
    lubrication: words(40).optional(),
    friction: z.strictObject({ low: above.max(2), high: above.max(2) }).optional(),
    headBearingMm: above.optional(),
    clearanceHoleMm: above.optional(),
  }),
  inputs: z.strictObject({
    thread: words(80),
    grade: words(80),
    lubrication: words(120),
    frictionLow: above,
    frictionHigh: above,
    holeMaterial: words(200),
    holeShearMPa: above,
    engagementMm: above,
    utilisation: above,
    headBearingMm: above,
    clearanceHoleMm: above,
    tolerancePct: number,
    insert: z.strictObject({ kind: words(20), usableMm: above }).optional(),
  }),
  results: z.strictObject({
    torqueNm: above,
    minNm: number,
    maxNm: above,
    ceilingNm: above,
    preloadLowN: above,
    preloadHighN: above,
    boltN: above,
    boltThreadN: above,
    holeThreadN: above,
    weakest: link,
    margin: above,
    heldBy: z.enum(['hole_thread', 'bolt_thread', 'limits']).optional(),
    fullUseNm: above,
  }),
  cautions: z.array(words(400)).max(40),
  basis: z
    .array(
      z.strictObject({
        title: words(200),
        formula: words(600),
        source: words(400),
        status: z.enum(['found', 'memory', 'common_practice', 'computed']),
      }),
    )
    .max(40),
})

/** The schema reads exactly the type: a part added to one and not the other does not compile. */
type Read = z.infer<typeof proposalSchema>
const _both: [Read] extends [Proposal] ? true : never = true
void _both
