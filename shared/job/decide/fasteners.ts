/** Which fastener stands in which place: hand-tight, temporary, new, reused, removed. A fact. */
import { indexPlan } from '../../plan/read'
import type { AdoptedJoint } from '../../plan/types'
import type { CommandOf } from '../commands'
import { type Context, done, no, noPosition, type Outcome } from '../context'
import type { JobEvent } from '../events'
import type { FastenerFlag } from '../kinds'
import type { FastenerState, PlannedJob } from '../types'
import { isSpentByRule, isTightened, tighteningsHere, touchedSinceSaid } from '../verdicts'
import { lapses } from './lapse'

/** [FA1–FA12] */
export function placeFasteners(
  job: PlannedJob,
  command: CommandOf<'PlaceFasteners'>,
  context: Context,
): Outcome {
  const { jointId, condition } = command
  const lengthMm = condition === 'removed' ? undefined : command.lengthMm
  // One taken out, or a temporary one, is in no cycle of its own.
  const cycle = condition === 'removed' || condition === 'temporary' ? undefined : command.cycle
  const distinctPositions = [...new Set(command.positions)]
  const { jointById } = indexPlan(job.plan)
  const joint = jointById.get(jointId)
  if (!joint) return no('joint_not_found', { jointId })
  const missing = distinctPositions.find((n) => !joint.positions.some((position) => position.n === n))
  if (missing !== undefined) return noPosition(joint, missing)
  const states = job.fasteners[jointId] ?? {}
  const unchanged = (n: number) =>
    states[n]?.condition === condition &&
    (lengthMm === undefined || states[n]?.lengthMm === lengthMm) &&
    (cycle === undefined || states[n]?.cycle === cycle) &&
    !touchedSinceSaid(job, joint, n)
  const positions = distinctPositions.filter((n) => !unchanged(n))
  if (positions.length === 0) return []
  // What is said of a place for the first time may be of the fastener that was tightened there. All else is
  // another one, or one since slackened, and the readings there are not of it.
  const voids = positions.filter(
    (n) =>
      isTightened(job, joint, n) &&
      (states[n] !== undefined || (condition !== 'new' && condition !== 'reused')),
  )
  const alike = new Map<string, { facts: Facts; members: number[] }>()
  for (const n of positions) {
    const facts = factsOf(job, joint, n, condition, cycle)
    const key = JSON.stringify(facts)
    alike.set(key, { facts, members: [...(alike.get(key)?.members ?? []), n] })
  }
  const placements = [...alike.values()].map(({ facts, members }): JobEvent => {
    const voidedMembers = members.filter((n) => voids.includes(n))
    return {
      type: 'FastenersPlaced',
      ...done(context),
      jointId,
      positions: members,
      condition,
      ...facts,
      ...(lengthMm === undefined ? {} : { lengthMm }),
      ...(voidedMembers.length > 0 ? { voids: voidedMembers } : {}),
    }
  })
  return [...placements, ...lapses(job, [{ joint: jointId, positions }], 'fastener', context)]
}

type Facts = Pick<FastenerState, 'cycle' | 'flags'>

/** [FA4–FA6] [FA9–FA12] Which tightening of this fastener it will be, and whether it may have that one. */
function factsOf(
  job: PlannedJob,
  joint: AdoptedJoint,
  position: number,
  condition: FastenerState['condition'],
  cycleEntered: number | undefined,
): Facts {
  const { use } = joint
  const before = job.fasteners[joint.id]?.[position]
  const had = tighteningsHere(job, joint, position)
  const tightened = isTightened(job, joint, position)
  if (condition === 'temporary') return { flags: [] }
  if (condition === 'removed') {
    const cycle = cyclesHad(before, had.length)
    return { ...(cycle ? { cycle } : {}), flags: [] }
  }
  if (condition === 'new') {
    // Said for the first time of one that is tightened: the record knows how often it was.
    const sofar = before === undefined && tightened ? had.length : 1
    return { cycle: cycleEntered ?? sofar, flags: [] }
  }
  // Put in by hand it is the one that was there, slackened or taken out, one tightening on.
  const last = cyclesHad(before, had.length)
  const next = condition === 'hand_tight' && last !== undefined ? last + 1 : undefined
  const cycle = cycleEntered ?? next
  const putBack = before?.condition === 'removed' && (last ?? 0) > 0
  const again =
    condition === 'reused' ||
    (condition === 'hand_tight' && (tightened || putBack || isSpentByRule(joint, had)))
  const flags: FastenerFlag[] = condition === 'hand_tight' ? [...(before?.flags ?? [])] : []
  if (again && use.kind === 'one_use') flags.push('fitted_twice')
  if (use.kind === 'cycles' && (cycle === undefined ? condition === 'reused' : cycle > use.limit))
    flags.push('cycles_spent')
  return { ...(cycle === undefined ? {} : { cycle }), flags: [...new Set(flags)] }
}

/** How many tightenings the one in this place has had, where what was said of it tells: also one taken out. */
function cyclesHad(state: FastenerState | undefined, tightenings: number): number | undefined {
  if (state?.cycle === undefined) return undefined
  return state.condition === 'removed' ? state.cycle : state.cycle - 1 + tightenings
}
