/**
 * The sentences of the bench: what must not be done yet and why, what to do about a flag, what a stop costs.
 * Pure; quiet words, each saying what is so and what to do next.
 */
import { asksInWords } from '../../../shared/job/ask-words'
import type { Flag } from '../../../shared/job/kinds'
import { stoppedAt } from '../../../shared/job/stops'
import type { PlannedJob, Reading } from '../../../shared/job/types'
import {
  inPlaceBefore,
  inTheWay,
  isProven,
  positionState,
  setsCovering,
  standingReading,
  stepState,
} from '../../../shared/job/verdicts'
import { numberWords } from '../../../shared/plan/order'
import { indexPlan } from '../../../shared/plan/read'
import type { AdoptedJoint, AdoptedStep } from '../../../shared/plan/types'
import { bandWords } from '../../../shared/plan/words'
import { counted, listed, lowerFirst, positionsInWords } from '../../../shared/words'
import { format } from '../../format'

interface NotYet {
  stepId: string
  title: string
  why: string
}

/** The steps that would hide what this step has not proven: in plain words, at the top of its page. */
export function notYet(job: PlannedJob, step: AdoptedStep): NotYet[] {
  const { hiddenBy, stepById } = indexPlan(job.plan)
  const reasons = new Map<string, string[]>()
  for (const joint of step.joints)
    for (const { stepId, positions } of hiddenBy.get(joint.id) ?? []) {
      const hider = stepById.get(stepId)
      if (!hider || inTheWay(job, hider)) continue
      // What was left out on purpose until then is not in its way.
      const inPlace = inPlaceBefore(job, { joint: joint.id, positions: [...positions] }, hider)
      if (isProven(job, inPlace)) continue
      const whole = inPlace.positions.length === joint.positions.length
      const [only, ...more] = inPlace.positions
      const some = more.length > 0 ? ` ${positionsInWords(inPlace.positions)}` : `, ${joint.fastener} ${only}`
      reasons.set(stepId, [
        ...(reasons.get(stepId) ?? []),
        `${lowerFirst(joint.title)}${whole ? '' : some} (${lacksWords(job, joint, inPlace.positions)})`,
      ])
    }
  return [...reasons].map(([stepId, hidden]) => ({
    stepId,
    title: stepById.get(stepId)?.title ?? stepId,
    why: `It covers ${listed(hidden)}.`,
  }))
}

/** What these positions still lack, in the fewest words. */
export function lacksWords(job: PlannedJob, joint: AdoptedJoint, positions: readonly number[]): string {
  const states = positions.map((n) => positionState(job, joint, n))
  const open = states.filter(({ nextPass }) => nextPass !== undefined).length
  if (open > 0) {
    const passes = joint.passes.filter(({ kind }) => kind !== 'wait').length
    const left = Math.max(...states.map(({ reached }) => passes - reached.length))
    return left === passes ? 'not tightened yet' : `${counted(left, 'pass', 'passes')} to go`
  }
  if (states.some(({ flags }) => flags.length > 0)) return 'flagged'
  const sets = setsCovering(job, { joint: joint.id, positions: [...positions] })
  if (sets.some(({ step, set }) => !stepState(job, step.id).sets[set.id]?.first)) return 'not signed'
  return 'no second signature'
}

/** What to do about a flag, said so that it can be done now. */
export function adviceFor(flag: Flag, reading: Pick<Reading, 'how' | 'band' | 'pass'>): string {
  return ADVICE[flag](reading)
}

type Advice = (reading: Pick<Reading, 'how' | 'band' | 'pass'>) => string

const ADVICE: Record<Flag, Advice> = {
  not_claimed: () => 'Claim the step, then record this one again.',
  out_of_reach: () =>
    'A later step covers this. Enter how you reached it; the supervisor decides what has to come off again.',
  not_restarted: () => 'Do what the plan says after an interruption and record it, then tighten these again.',
  out_of_order: () => 'Ask the supervisor, or slacken it and go on in the order of the map.',
  pass_skipped: () => 'Do the earlier pass first, then record this one again.',
  too_early: () => 'Wait until the time is over, then record it again.',
  out_of_band: ({ how, band }) =>
    how === 'turned'
      ? `The band is ${band ? bandWords(band, format) : 'not set'}. Do what the plan says for a wrong angle.`
      : `The band is ${band ? bandWords(band, format) : 'not set'}. Slacken it, look at the thread, set the wrench and tighten again.`,
  no_published_value: () => 'A competent person has to decide the torque; until then this cannot be signed.',
  torque_impossible: () =>
    'If the number is wrong, cross it out. If it was really pulled so far, fit a new fastener, and look at the thread of its hole.',
  unit_held_up: () => 'Set the scale again in its own unit, slacken this one and tighten again.',
  scale_not_entered: () => 'Enter what the wrench is set to, then record this one again.',
  wrench_unknown: () => 'Take a wrench from the crib and record this one again.',
  other_than_asked: () => 'Cross it out if you pressed the wrong thing, and record what this pass calls for.',
  wrench_out_of_range: () => 'Take a wrench whose range fits, and do it again.',
  wrench_out_of_date: () => 'Take a wrench that is in date, and do it again.',
  wrench_failed: () => 'Take another wrench, and do it again.',
  turned_again: () => 'Nobody knows how far it was turned now: do what the plan says below.',
  overshot: () => 'Turned too far: do what the plan says below.',
  not_slackened: () => 'Slacken this one, then do all its passes again.',
}

/** The joint's own rule for a round broken off, as far as the round has gone. */
export function interruptionWords(job: PlannedJob, joint: AdoptedJoint, pass: number): string {
  const { torqueOnly, afterAngle, overshootDeg } = joint.interruption
  const angled = joint.passes.some(
    ({ kind }, index) =>
      kind === 'angle' &&
      joint.positions.some(({ n }) => standingReading(job, joint, n, index + 1) !== undefined),
  )
  const begun = (job.readings[joint.id]?.length ?? 0) > 0
  if (!begun) return 'Nothing is recorded on this joint yet. You can leave it as it is.'
  const first = joint.order?.[0] ?? joint.positions[0]?.n
  const torque =
    torqueOnly === 'restart_pass'
      ? `Only torque passes so far: pass ${pass} starts again at ${joint.fastener} ${first === undefined ? '' : numberWords(joint, first)}.`
      : 'No angle turned yet: slacken all of them and start the joint again.'
  if (!angled) return torque
  const over =
    overshootDeg === undefined ? '' : ` The same holds for more than ${format.number(overshootDeg)}° too far.`
  return afterAngle === 'new_fasteners'
    ? `An angle has been turned: fit new ${joint.fastener}s and start the joint again.${over}`
    : `An angle has been turned: slacken all of them and start the joint again.${over}`
}

/** What a stop means, before it is pressed. */
export function stopWords(
  job: PlannedJob,
  step: AdoptedStep,
  joint: AdoptedJoint | undefined,
  pass: number,
): string[] {
  const begun = step.joints.some(({ id }) => (job.readings[id]?.length ?? 0) > 0)
  return [
    'You leave the step, and others may claim it. Everything recorded stays.',
    ...(step.joints.length > 0 ? ['Whoever goes on has to enter the number on the scale again.'] : []),
    ...(joint && begun && nothingLeft(job, joint) === false ? [interruptionWords(job, joint, pass)] : []),
  ]
}

/** The marker a stop leaves now, one a round that is begun and not final. */
export const markerWords = (job: PlannedJob, step: AdoptedStep): string[] =>
  stoppedAt(job, step).map((mark) => {
    const joint = indexPlan(job.plan).jointById.get(mark.jointId)
    return `Interrupted: ${joint?.title ?? mark.jointId}, pass ${mark.pass}, before ${joint ? `${joint.fastener} ${numberWords(joint, mark.position)}` : mark.position}. Next: ${asksInWords(mark)}.`
  })

const nothingLeft = (job: PlannedJob, joint: AdoptedJoint): boolean =>
  joint.positions.every(({ n }) => positionState(job, joint, n).nextPass === undefined)

/** `new, one-use`, `reused within 4 tightenings`: what is known of the fastener as such. */
export function fastenerWords(joint: AdoptedJoint): string {
  if (joint.use.kind === 'one_use') return `new ${joint.fastener}s, one-use`
  if (joint.use.kind === 'cycles') return `at most ${counted(joint.use.limit, 'tightening')}, trial fits too`
  return `${joint.fastener}s may be used again`
}
