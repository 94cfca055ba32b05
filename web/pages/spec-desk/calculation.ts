/**
 * The whole sheet from what is asked: every answer once, and the sentences at the fields they belong to. Pure.
 *
 * Only the crib comes from the shop, and only its wrenches; all else follows from what was typed.
 */
import {
  BASIS,
  type BasisId,
  type Doubt,
  judgeTorque,
  loadAfter,
  strength,
  type Thread,
  type Tightening,
  type TorqueJudgement,
  thread,
} from '../../../shared/fastener'
import { isRefusal } from '../../../shared/log'
import type { Wrench } from '../../../shared/shop/types'
import type { Spec, TorqueSpec } from '../../../shared/spec'
import { exact } from '../../../shared/words'
import { format } from '../../format'
import { numberIn } from './entries'
import { type Fit, fitOf, type Strip, stripOf } from './hole'
import type { InputField, Inputs } from './inputs'
import { type Ordered, orderOf } from './order'
import { answerOf, type Candidates, type FieldErrors, open, type Part, refusedPart, there } from './part'
import { type Converted, convertedOf, type Printed, printedOf } from './printed'
import { againstHole, type Recommended, recommendedOf } from './recommend'
import { besideBand, type TorqueBeside, tensionOf } from './tension'
import { type OnWrench, onWrench, type Target, targetOf } from './wrench'

export interface Crib {
  wrenches: readonly Wrench[]
  now: number
  /** The shop's width for its most critical joints, per cent either side. */
  tolerancePct: number
}

export interface Calculation {
  inputs: Inputs
  thread: Part<Thread>
  tension: Part<Tightening>
  printed: Printed
  /** The printed torque over the friction band. */
  printedBeside?: TorqueBeside
  strip: Part<Strip>
  fit: Part<Fit>
  recommended: Part<Recommended>
  target?: Target
  wrench: Part<OnWrench>
  order: Part<Ordered>
  converted: Converted
  /** What the printed torque would do to this fastener. */
  printedJudged?: TorqueJudgement
  /** It is to be looked at again before it is set. */
  printedDoubtful: boolean
  /** By field, what is wrong with it and what to do. */
  errors: FieldErrors
  candidates: Candidates
}

export function calculate(inputs: Inputs, crib: Crib): Calculation {
  const read = inputs.thread.trim() === '' ? undefined : thread(inputs.thread)
  const threadPart: Part<Thread> =
    read === undefined ? open('Type the thread first.') : isRefusal(read) ? refusedPart(read) : there(read)
  const size = answerOf(threadPart)
  const needsThread = <T>(make: (thread: Thread) => Part<T>): Part<T> =>
    threadPart.state === 'there' ? make(threadPart.value) : threadPart
  const tension = needsThread((size) => tensionOf(inputs, size))
  const fit = needsThread((size) => fitOf(inputs, size))
  const strip = needsThread((size) => stripOf(inputs, size, fit))
  const percent = numberIn(inputs.tolerance, '%')
  const percentError =
    percent.error ??
    (percent.value !== undefined && !(percent.value > 0 && percent.value <= 50)
      ? `A band of ±${exact(percent.value, format)} % cannot be worked to. Enter a number above 0, at most 50.`
      : undefined)
  const tolerancePct = percentError ? crib.tolerancePct : (percent.value ?? crib.tolerancePct)
  const printed = printedOf(inputs)
  const toSet = printed.state === 'read' ? printed.toSet : undefined
  const printedJudged =
    printed.state === 'read' && toSet && size
      ? judgedPrinted(inputs, printed.spec, toSet.pass, strip, tolerancePct)
      : undefined
  const impossible = printedJudged?.verdict === 'impossible' ? printedJudged : undefined
  const tight = answerOf(tension)
  const printedTarget = toSet && targetOf(toSet.spec, undefined, tolerancePct)
  const printedBeside =
    printedTarget && tight && printed.state === 'read' && !printed.seats
      ? besideBand(tight, printedTarget.torqueNm)
      : undefined
  const recommended =
    besidePrinted(printed, printedJudged, printedBeside) ??
    withinLimit(recommendedOf(tension, strip, fit, tolerancePct), toSet?.spec)
  // What is printed and cannot be read, contradicts itself or cannot be is not replaced by something computed.
  const target = impossible
    ? undefined
    : (printedTarget ??
      (printed.state === 'none'
        ? targetOf(undefined, answerOf(recommended)?.torqueNm, tolerancePct)
        : undefined))
  const against = againstHole(fit)
  const wrench: Part<OnWrench> = impossible
    ? open('No wrench is named for a torque that the fastener cannot bear.')
    : against
      ? open(`No wrench is named: ${against}`)
      : toSet && !printedTarget
        ? open('What is printed is a limit, not a torque to set.')
        : onWrench(inputs, target, crib.wrenches, crib.now)
  const order = orderOf(inputs)
  const converted = convertedOf(inputs.convert)
  const gradeError = inputs.grade.trim() && !size ? gradeAlone(inputs.grade) : undefined
  return {
    inputs,
    thread: threadPart,
    tension,
    printed,
    ...(printedBeside && !impossible ? { printedBeside } : {}),
    ...(printedJudged ? { printedJudged } : {}),
    printedDoubtful: printedJudged !== undefined && isDoubtful(printedJudged),
    strip,
    fit,
    recommended,
    ...(target ? { target } : {}),
    wrench,
    order,
    converted,
    errors: {
      ...(gradeError ? { grade: gradeError } : {}),
      ...errorsOf(order, wrench, strip, fit, tension, threadPart),
      ...(percentError ? { tolerance: percentError } : {}),
      ...(printed.state === 'refused' ? { printed: printed.why } : {}),
      ...(converted.state === 'refused' ? { convert: converted.why } : {}),
    },
    candidates: Object.fromEntries(
      [tension, strip, fit].flatMap((part) =>
        part.state === 'refused' && part.field && part.could ? [[part.field, part.could]] : [],
      ),
    ),
  }
}

const GRAVITY: readonly TorqueJudgement['verdict'][] = [
  'not_judged',
  'plausible',
  'implausible',
  'impossible',
]

/** The one judge, with what the sheet knows of fastener and hole: the gravest of all passes, of two alike the one to set. */
function judgedPrinted(
  inputs: Inputs,
  { passes }: Spec,
  toSet: number,
  strip: Part<Strip>,
  tolerancePct: number,
): TorqueJudgement | undefined {
  const held = answerOf(strip)
  const known = {
    thread: inputs.thread,
    grade: inputs.grade,
    lubrication: inputs.lubrication,
    ...(held && held.lengthFrom !== 'rule'
      ? {
          holeMaterial: held.strip.material.id,
          engagementMm: held.strip.engagementMm,
          ...(held.insert ? { insert: held.insert } : {}),
        }
      : {}),
  }
  const judged = passes.flatMap((pass, i) => {
    if (pass.kind !== 'torque') return []
    const target = targetOf(pass, undefined, tolerancePct)
    const { kind: _, ...printed } = pass
    const width = target?.limits === 'percent' && pass.nominalNm !== undefined
    const judgement = judgeTorque({
      ...known,
      ...printed,
      ...(width ? { minNm: target.minNm, maxNm: target.maxNm, limitsFrom: 'shop' } : {}),
      ...loadAfter(passes, i),
    })
    return [{ judgement, set: i + 1 === toSet }]
  })
  const rank = (one: (typeof judged)[number]) =>
    2 * GRAVITY.indexOf(one.judgement.verdict) + (one.set ? 1 : 0)
  return judged.sort((a, b) => rank(b) - rank(a))[0]?.judgement
}

/** Told beside the torque, and no reason to look at the page again. */
const ASSUMED: readonly Doubt[] = ['grade_assumed', 'pitch_assumed', 'thread_unknown']
const isDoubtful = ({ verdict, doubts }: TorqueJudgement): boolean =>
  verdict === 'impossible' || (verdict === 'implausible' && doubts.some((doubt) => !ASSUMED.includes(doubt)))

/** Where something is printed, one voice: it is set, or it is looked at again; nothing computed speaks against it. */
function besidePrinted(
  printed: Printed,
  judged: TorqueJudgement | undefined,
  beside: TorqueBeside | undefined,
): Part<Recommended> | undefined {
  if (printed.state === 'refused')
    return open('No torque is recommended in the place of a printed one that cannot be read.')
  if (printed.state === 'read' && printed.spec.contradiction)
    return open('No torque is recommended in the place of a printed one that contradicts itself.')
  if (judged && isDoubtful(judged))
    return open('The printed torque is doubtful: look at it first. Nothing is recommended in its place.')
  return beside?.pastYield ? open('The printed torque holds. Nothing is recommended beside it.') : undefined
}

/** A printed limit stands above what is computed. */
function withinLimit(recommended: Part<Recommended>, spec: TorqueSpec | undefined): Part<Recommended> {
  const torqueNm = answerOf(recommended)?.torqueNm
  return spec &&
    spec.nominalNm === undefined &&
    spec.minNm === undefined &&
    (torqueNm ?? 0) > (spec.maxNm ?? Infinity)
    ? open('No torque is recommended: what is computed is above the printed limit.')
    : recommended
}

/** A class that cannot be is said even while the thread is still missing. */
function gradeAlone(grade: string): string | undefined {
  const read = strength(grade)
  const part = isRefusal(read) ? refusedPart(read) : undefined
  return part?.state === 'refused' ? part.why : undefined
}

/** The later part wins its field: the thread's own refusal stands before what follows from it. */
function errorsOf(...parts: Part<unknown>[]): FieldErrors {
  const errors: Partial<Record<InputField, string>> = {}
  for (const part of parts) if (part.state === 'refused' && part.field) errors[part.field] = part.why
  return errors
}

/** All that the answers of a sheet rest on, once each, in the order of the table: the numbers on paper. */
export function basisOf({ tension, strip, fit, thread, order }: Calculation): BasisId[] {
  const ids = new Set<BasisId>([
    ...(answerOf(thread)?.basis ?? []),
    ...(answerOf(tension)?.basis ?? []),
    ...(answerOf(strip)?.strip.basis ?? []),
    ...(answerOf(fit)?.fit.basis ?? []),
    ...(order.state === 'there' ? [orderBasis(order.value)] : []),
  ])
  return (Object.keys(BASIS) as BasisId[]).filter((id) => ids.has(id))
}

export const orderBasis = ({ proposed }: Ordered): BasisId =>
  proposed.pattern === 'circle' ? 'order_circle' : 'order_rows'
