/**
 * One fastener in one pass. A fact: whatever it says it is recorded, and what is odd about it is flagged.
 *
 * Refused is only what names nothing (no such joint, position, pass) or brings no number where one was shown.
 */
import { lookUp } from '../../look-up'
import { inBand, toMicroDeg } from '../../plan/adopt'
import { impossibleAt } from '../../plan/fasteners'
import { indexPlan } from '../../plan/read'
import type { AdoptedJoint, AdoptedStep, Band } from '../../plan/types'
import { toMicroNm, toNm } from '../../units'
import { unitSlip, unitsInUse, wrenchDoubts, wrenchThen } from '../../wrench'
import type { CommandOf } from '../commands'
import { type Context, done, entryId, jointData, no, noPosition, type Outcome } from '../context'
import type { Flag } from '../kinds'
import { scaleInForce } from '../scale-in-force'
import type { PlannedJob, Reading, WrenchThen } from '../types'
import {
  answeringStep,
  askedNm,
  bandFor,
  curesUntil,
  hiddenBy,
  interruptionOf,
  nextInRound,
  readingById,
  standingAt,
  standingReading,
  stepState,
  takesReading,
} from '../verdicts'
import { lapses } from './lapse'
import { leads } from './roles'

/** What the wrench had to say, before it is judged. */
type Shown = Pick<Reading, 'value' | 'unit' | 'torqueNm' | 'angleDeg' | 'scaleId' | 'slip'> & {
  doubts: Flag[]
}

/** [RD1–RD27] */
export function takeReading(job: PlannedJob, command: CommandOf<'TakeReading'>, context: Context): Outcome {
  const { jointId, position, pass, how } = command
  const { jointById, stepOfJoint } = indexPlan(job.plan)
  const joint = jointById.get(jointId)
  const step = stepOfJoint.get(jointId)
  if (!joint || !step) return no('joint_not_found', { jointId })
  if (!joint.positions.some(({ n }) => n === position)) return noPosition(joint, position)
  if (!joint.passes[pass - 1])
    return no('pass_not_found', { jointId, title: joint.title, pass, passes: joint.passes.length })
  if ((how === 'indicated' || how === 'turned') && command.value === undefined)
    return no('value_missing', { ...jointData(joint), position, how })

  const id = entryId(context.commandId, (taken) => readingById(job, taken) !== undefined)
  return [
    { type: 'ReadingTaken', ...done(context), id, ...readingFacts(job, command, context, step, joint) },
    ...lapses(job, [{ joint: jointId, positions: [position] }], 'reading', context),
  ]
}

/** What is recorded of a reading beside who, when and its name: the wrench as it is, the band in force, the flags. */
export function readingFacts(
  job: PlannedJob,
  command: CommandOf<'TakeReading'>,
  context: Context,
  step: AdoptedStep,
  joint: AdoptedJoint,
): Omit<Reading, 'id' | 'by' | 'doneAt' | 'struck' | 'superseded'> {
  const { jointId, position, pass, how, wrenchId } = command
  const band = bandFor(job, joint, pass)
  const card = wrenchId === undefined ? undefined : lookUp(context.shop.wrenches, wrenchId)
  const wrench = card && wrenchThen(card)
  const { doubts, ...shown } = show(job, command, context, band, wrench)
  const answering = answeringStep(job, jointId, position) ?? step
  const flags = [
    ...(stepState(job, answering.id).claim?.by === context.by ? [] : (['not_claimed'] as const)),
    ...(hiddenBy(job, jointId, [position]).length > 0 ? (['out_of_reach'] as const) : []),
    ...placeFlags(job, step, joint, command, context),
    ...historyFlags(job, joint, command),
    ...bandFlags(job, joint, command, shown, band),
    ...(shown.torqueNm !== undefined && impossibleAt(joint, pass, shown.torqueNm, band)
      ? (['torque_impossible'] as const)
      : []),
    ...doubts,
  ]
  return {
    jointId,
    position,
    pass,
    how,
    ...(wrenchId === undefined ? {} : { wrenchId }),
    ...(wrench ? { wrench } : {}),
    ...shown,
    band,
    flags: [...new Set<Flag>(flags)],
  }
}

/** [ST1–ST4] The first number stays in the trail. */
export function strikeReading(
  job: PlannedJob,
  command: CommandOf<'StrikeReading'>,
  context: Context,
): Outcome {
  const { readingId, reason } = command
  const reading = readingById(job, readingId)
  if (!reading) return no('reading_not_found', { readingId })
  if (reading.struck) return []
  if (!mayStrike(context, reading.by)) return no('not_yours_to_strike', { by: reading.by })
  return [
    { type: 'ReadingStruck', ...done(context), jointId: reading.jointId, readingId, reason },
    ...lapses(job, [{ joint: reading.jointId, positions: [reading.position] }], 'strike', context),
  ]
}

/** Whoever entered it, or a supervisor. */
export const mayStrike = (context: Context, enteredBy: string): boolean =>
  enteredBy === context.by || leads(context)

function show(
  job: PlannedJob,
  command: CommandOf<'TakeReading'>,
  context: Context,
  band: Band | null,
  wrench: WrenchThen | undefined,
): Shown {
  const { how, wrenchId, value } = command
  if (how === 'slackened') return { doubts: [] }
  if (how === 'turned') {
    const doubts = wrenchId === undefined ? [] : wrenchDoubts(wrench, undefined, context.doneAt)
    return { value, unit: 'deg', angleDeg: value, doubts }
  }
  if (how === 'clicked') {
    const scale = scaleInForce(job, command, context.by)
    const doubts = wrenchDoubts(wrench, scale?.value, context.doneAt)
    if (!scale) return { doubts: [...doubts, 'scale_not_entered'] }
    return {
      value: scale.value,
      unit: scale.unit,
      torqueNm: scale.appliesNm,
      scaleId: scale.id,
      ...(scale.slip ? { slip: scale.slip } : {}),
      doubts,
    }
  }
  const doubts = wrenchDoubts(wrench, value, context.doneAt)
  if (!wrench || value === undefined) return { value, doubts }
  // An angle gauge shows no torque, so no torque pass is reached by it.
  if (wrench.unit === 'deg') return { value, unit: 'deg', doubts: [...doubts, 'other_than_asked'] }
  const slip = command.readsSo ? undefined : unitSlip(value, wrench.unit, band, unitsInUse(context.shop))
  return { value, unit: wrench.unit, torqueNm: toNm(value, wrench.unit), ...(slip ? { slip } : {}), doubts }
}

/** Flags from where this reading falls in its round: order, skipped passes, a wait not over. */
function placeFlags(
  job: PlannedJob,
  step: AdoptedStep,
  joint: AdoptedJoint,
  { position, pass, how }: CommandOf<'TakeReading'>,
  context: Context,
): Flag[] {
  // Taking a fastener back is right at any time; it is no part of a round.
  if (how === 'slackened' && joint.passes[pass - 1]?.kind !== 'slacken') return []
  const flags: Flag[] = interruptionOf(job, joint.id, position) ? ['not_restarted'] : []
  const { positions, ordered, next } = nextInRound(job, step, joint, position, pass)
  const again = standingReading(job, joint, position, pass) !== undefined
  if (context.doneAt < curesUntil(job, joint.id, position)) flags.push('too_early')
  // Loosening goes the other way round, and from wherever it is safe: no order is held against it.
  const loosens = joint.passes[pass - 1]?.kind === 'slacken'
  let roundOpen = ordered && !again && next !== position
  for (let earlier = 1; earlier < pass; earlier++) {
    const passAsked = joint.passes[earlier - 1]
    if (passAsked?.kind === 'wait') {
      const last = Math.max(...positions.map((n) => standingReading(job, joint, n, earlier - 1)?.doneAt ?? 0))
      if (context.doneAt < last + passAsked.minutes * 60_000) flags.push('too_early')
    } else if (!standingReading(job, joint, position, earlier)) flags.push('pass_skipped')
    else if (positions.some((n) => !standingReading(job, joint, n, earlier))) roundOpen = true
  }
  if (roundOpen && !loosens) flags.push('out_of_order')
  return flags
}

/** Flags from what this fastener has had before: an angle is not turned twice, too tight is slackened first. */
function historyFlags(
  job: PlannedJob,
  joint: AdoptedJoint,
  { position, pass, how }: CommandOf<'TakeReading'>,
): Flag[] {
  if (how === 'slackened') return []
  if (how === 'turned') return standingReading(job, joint, position, pass) ? ['turned_again'] : []
  const overTight = standingAt(job, joint, position).some(
    ({ flags, band, torqueNm }) =>
      flags.includes('not_slackened') ||
      (band?.kind === 'torque' && torqueNm !== undefined && toMicroNm(torqueNm) > toMicroNm(band.maxNm)),
  )
  return overTight ? ['not_slackened'] : []
}

/** Flags from the number itself. */
function bandFlags(
  job: PlannedJob,
  joint: AdoptedJoint,
  { pass, how }: CommandOf<'TakeReading'>,
  shown: Omit<Shown, 'doubts'>,
  band: Band | null,
): Flag[] {
  const passAsked = joint.passes[pass - 1]
  if (how === 'slackened') return []
  if (
    !takesReading(joint, pass) ||
    (passAsked?.kind === 'angle') !== (how === 'turned') ||
    passAsked?.kind === 'slacken'
  )
    return ['other_than_asked']
  if (passAsked?.kind === 'torque' && askedNm(job, joint, pass) === null) return ['no_published_value']
  const reached = band?.kind === 'angle' ? shown.angleDeg : shown.torqueNm
  if (!band || reached === undefined) return []
  const flags: Flag[] = inBand(reached, band) ? [] : ['out_of_band']
  if (shown.slip) flags.push('unit_held_up')
  const allowed = joint.interruption.overshootDeg
  if (
    passAsked?.kind === 'angle' &&
    allowed !== undefined &&
    toMicroDeg(reached) > toMicroDeg(passAsked.angleDeg + allowed)
  )
    flags.push('overshot')
  return flags
}
