/** Which fastener stands in which place: hand-tight, temporary, new, reused, removed. A fact. */
import { indexPlan } from '../../plan/read'
import type { AdoptedJoint } from '../../plan/types'
import { type Context, done, no, type Outcome, type PlannedJob } from '../context'
import type { CommandOf, FastenerFlag, FastenerState, JobEvent } from '../types'
import { isTightened } from '../verdicts'
import { lapses } from './lapse'

/** [FA1–FA8] */
export function placeFasteners(
  job: PlannedJob,
  command: CommandOf<'PlaceFasteners'>,
  context: Context,
): Outcome {
  const { jointId, condition, cycle } = command
  const positions = [...new Set(command.positions)]
  const { jointById } = indexPlan(job.plan)
  const joint = jointById.get(jointId)
  if (!joint) return no('joint_not_found', { jointId })
  const missing = positions.find((n) => !joint.positions.some((position) => position.n === n))
  if (missing !== undefined)
    return no('position_not_found', {
      jointId,
      position: missing,
      positions: joint.positions.map(({ n }) => n),
    })
  const known = job.fasteners[jointId] ?? {}
  const tightened = positions.filter((n) => isTightened(job, joint, n))
  const said = (n: number) =>
    known[n]?.condition === condition && (cycle === undefined || known[n]?.cycle === cycle)
  if (tightened.length === 0 && positions.every(said)) return []
  // What is said of a place for the first time may be of the fastener that was tightened there. All else is
  // another one, or one since slackened, and the readings there are not of it.
  const voids = tightened.filter(
    (n) => known[n] !== undefined || (condition !== 'new' && condition !== 'reused'),
  )
  const alike = new Map<string, { facts: Facts; members: number[] }>()
  for (const n of positions) {
    const facts = factsOf(joint, condition, cycle, known[n], tightened.includes(n))
    const key = JSON.stringify(facts)
    alike.set(key, { facts, members: [...(alike.get(key)?.members ?? []), n] })
  }
  const placed = [...alike.values()].map(({ facts, members }): JobEvent => {
    const voided = members.filter((n) => voids.includes(n))
    return {
      type: 'FastenersPlaced',
      ...done(context),
      jointId,
      positions: members,
      condition,
      ...facts,
      ...(voided.length > 0 ? { voids: voided } : {}),
    }
  })
  return [
    ...placed,
    ...(tightened.length > 0
      ? lapses(job, [{ joint: jointId, positions: tightened }], 'fastener', context)
      : []),
  ]
}

type Facts = Pick<FastenerState, 'cycle' | 'flags'>

/** Which tightening of this fastener it will be, and whether it may have that one. */
function factsOf(
  joint: AdoptedJoint,
  condition: FastenerState['condition'],
  cycle: number | undefined,
  before: FastenerState | undefined,
  tightened: boolean,
): Facts {
  const { use } = joint
  if (condition === 'removed' || condition === 'temporary') return { flags: [] }
  if (condition === 'new') return { cycle: cycle ?? 1, flags: [] }
  // Slackened and put in by hand it is the same fastener, one tightening on.
  const next = condition === 'hand_tight' && before?.cycle ? before.cycle + (tightened ? 1 : 0) : undefined
  const now = cycle ?? next
  const again = condition === 'reused' || (condition === 'hand_tight' && tightened)
  const flags: FastenerFlag[] = condition === 'hand_tight' ? [...(before?.flags ?? [])] : []
  if (again && use.kind === 'one_use') flags.push('fitted_twice')
  if (use.kind === 'cycles' && (now === undefined ? condition === 'reused' : now > use.limit))
    flags.push('cycles_spent')
  return { ...(now === undefined ? {} : { cycle: now }), flags: [...new Set(flags)] }
}
