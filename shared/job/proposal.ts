/**
 * A joint of a job as `shared/fastener` reckons a proposal from it: the plan's bolt and hole, the hole register's word on
 * each thread, the shop's tolerance. What a supervisor adds comes on top.
 */
import {
  type FastenerRefusal,
  type InsertGiven,
  judgeTorque,
  loadAfter,
  type Proposal,
  type ProposalAdded,
  type ProposalJoint,
  type Proposed,
  propose,
  type TorqueJudgement,
} from '../fastener'
import { isRefusal } from '../log'
import { NOT_GIVEN } from '../plan/fasteners'
import type { AdoptedJoint, Tolerances } from '../plan/types'
import type { Job } from './types'
import { boltFit, holeAt } from './verdicts/holes'

/** What plan and register know of a joint, for a proposal of one of its passes. */
export function proposalJoint(
  job: Job,
  joint: AdoptedJoint,
  pass: number,
  tolerances: Tolerances,
): ProposalJoint {
  const later = joint.passes.findIndex(({ kind }, index) => index >= pass && kind === 'torque')
  const entries = joint.positions.map(({ n }) => ({ n, entry: holeAt(job, joint.id, n) }))
  const of = (condition: string) => entries.filter(({ entry }) => entry?.condition === condition)
  const inserts = of('insert').flatMap(({ entry }): InsertGiven[] =>
    entry?.insert ? [{ ...entry.insert }] : [],
  )
  const { fits, fault } = fitsOf(job, joint)
  const bottoms = fits.find(({ bottoms: is }) => is)
  return {
    fastener: joint.fastener,
    thread: joint.thread,
    grade: joint.grade,
    lubrication: joint.lubrication,
    pass,
    tolerancePct: tolerances.percent[joint.class],
    ...(joint.passes.some(({ kind }) => kind === 'angle') ? { angle: true } : {}),
    ...(later < 0 ? {} : { laterPass: later + 1 }),
    ...(joint.hole && joint.hole.material !== NOT_GIVEN ? { holeMaterial: joint.hole.material } : {}),
    ...(fits.length > 0 ? { engagementMm: Math.min(...fits.map(({ heldMm }) => heldMm)) } : {}),
    ...(fault ? { fault } : {}),
    ...(bottoms ? { bottoms: { lengthMm: bottoms.lengthMm, roomMm: bottoms.roomMm } } : {}),
    ...(inserts.length > 0
      ? { inserts: distinct(inserts), plain: inserts.length < joint.positions.length }
      : {}),
    stripped: of('stripped').map(({ n }) => n),
    worn: of('worn').map(({ n }) => n),
  }
}

/** The proposal for one pass of a joint as job and shop stand, with what a person adds. */
export const proposeFor = (
  job: Job,
  joint: AdoptedJoint,
  pass: number,
  tolerances: Tolerances,
  added: ProposalAdded = {},
): Proposed => propose(proposalJoint(job, joint, pass, tolerances), added)

/** What a torque that somebody decides would do to the joint, as plan and register know it; N·m. */
export function judgeDecided(
  job: Job,
  joint: AdoptedJoint,
  pass: number,
  tolerances: Tolerances,
  { torqueNm, minNm, maxNm }: { torqueNm: number; minNm: number; maxNm: number },
): TorqueJudgement {
  const known = proposalJoint(job, joint, pass, tolerances)
  const { fastener, thread, grade, lubrication, holeMaterial, engagementMm, inserts } = known
  return judgeTorque({
    fastener,
    thread,
    grade,
    lubrication,
    ...(holeMaterial === undefined ? {} : { holeMaterial }),
    ...(engagementMm === undefined ? {} : { engagementMm }),
    ...(inserts?.[0] && known.plain === false ? { insert: inserts[0] } : {}),
    nominalNm: torqueNm,
    minNm,
    maxNm,
    ...loadAfter(joint.passes, pass - 1),
  })
}

/**
 * How much thread holds each bolt, mm, where plan or register say enough to reckon it: the same fit that is judged before
 * the bolt goes in. One that does not reach its thread holds nothing, and an insert that cannot be there is told.
 */
function fitsOf(job: Job, joint: AdoptedJoint): { fits: Fit[]; fault?: FastenerRefusal } {
  const boltFits = joint.positions.map(({ n }) => boltFit(job, joint, n))
  const fault = boltFits.find((fit) => isRefusal(fit)) as FastenerRefusal | undefined
  const fits = boltFits.flatMap((fit): Fit[] => {
    if (fit === undefined || isRefusal(fit)) return []
    const { stackMm, aboveMm = 0, washerMm = 0, threadMm } = fit.hole
    return [
      {
        lengthMm: fit.lengthMm,
        roomMm: stackMm + aboveMm + washerMm + threadMm,
        heldMm: Math.min(fit.fit.engagementMm, threadMm),
        bottoms: fit.fit.verdict === 'bottoms_out',
      },
    ]
  })
  return { fits, ...(fault ? { fault } : {}) }
}

interface Fit {
  lengthMm: number
  roomMm: number
  heldMm: number
  bottoms: boolean
}

const distinct = (inserts: readonly InsertGiven[]): InsertGiven[] => [
  ...new Map(inserts.map((insert) => [JSON.stringify(insert), insert])).values(),
]

/**
 * Whether two proposals were reckoned from the same and came to the same.
 *
 * Words may differ between builds, and the last digits between machines; a figure of another size does not.
 */
export function sameFigures(a: Proposal, b: Proposal): boolean {
  return alike(a.inputs, b.inputs) && alike(a.results, b.results)
}

const REL = 1e-6

function alike(a: unknown, b: unknown): boolean {
  if (typeof a === 'number' && typeof b === 'number')
    return Math.abs(a - b) <= REL * Math.max(Math.abs(a), Math.abs(b))
  if (typeof a !== 'object' || typeof b !== 'object' || !a || !b) return a === b
  const keys = new Set([...Object.keys(a), ...Object.keys(b)])
  return [...keys].every((key) =>
    alike((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]),
  )
}
