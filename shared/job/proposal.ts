/**
 * A joint of a job as `shared/fastener` reckons a proposal from it: the plan's bolt and hole, the hole register's word on
 * each thread, the shop's tolerance. What a supervisor adds comes on top.
 */
import {
  holeFit,
  type InsertGiven,
  type Proposal,
  type ProposalAdded,
  type ProposalJoint,
  type Proposed,
  propose,
} from '../fastener'
import { isRefusal } from '../log'
import type { AdoptedJoint, Tolerances } from '../plan/types'
import type { Job } from './types'
import { holeAt } from './verdicts/holes'

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
  const fits = fitsOf(job, joint)
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
    ...(joint.hole ? { holeMaterial: joint.hole.material } : {}),
    ...(fits.length > 0 ? { engagementMm: Math.min(...fits.map(({ heldMm }) => heldMm)) } : {}),
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

/** How much thread holds each bolt, mm, where plan or register say enough to reckon it. */
function fitsOf(job: Job, joint: AdoptedJoint) {
  const { hole } = joint
  if (!hole) return []
  return joint.positions.flatMap(({ n }) => {
    const lengthMm = job.fasteners[joint.id]?.[n]?.lengthMm ?? joint.lengthMm
    if (lengthMm === undefined) return []
    const entry = holeAt(job, joint.id, n)
    const threadDepthMm = entry?.threadMm ?? hole.threadMm
    const depthMm = entry?.depthMm ?? hole.depthMm
    const gripMm = hole.stackMm + (hole.washerMm ?? 0)
    const fit = holeFit({
      boltLengthMm: lengthMm,
      stackMm: hole.stackMm,
      washerMm: hole.washerMm ?? 0,
      holeDepthMm: depthMm ?? threadDepthMm,
      threadDepthMm,
      through: depthMm === undefined,
      thread: joint.thread,
      ...(entry?.condition === 'insert' && entry.insert ? { insert: { ...entry.insert } } : {}),
    })
    if (isRefusal(fit) || fit.engagementMm <= 0) return []
    return [
      {
        lengthMm,
        roomMm: gripMm + threadDepthMm,
        heldMm: Math.min(fit.engagementMm, threadDepthMm),
        bottoms: fit.verdict === 'bottoms_out',
      },
    ]
  })
}

const distinct = (inserts: readonly InsertGiven[]): InsertGiven[] => [
  ...new Map(inserts.map((one) => [JSON.stringify(one), one])).values(),
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
