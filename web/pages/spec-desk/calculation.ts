/**
 * The whole sheet from what is asked: every answer once, and the sentences at the fields they belong to. Pure.
 *
 * Only the crib comes from the shop, and only its wrenches; all else follows from what was typed.
 */
import { BASIS, type BasisId, strength, type Thread, type Tightening, thread } from '../../../shared/fastener'
import { isRefusal } from '../../../shared/log'
import type { Wrench } from '../../../shared/shop/types'
import { numberIn } from './entries'
import { type Fit, fitOf, type Strip, stripOf } from './hole'
import type { InputField, Inputs } from './inputs'
import { type Ordered, orderOf } from './order'
import { answerOf, type FieldErrors, open, type Part, refusedPart, there } from './part'
import { type Converted, convertedOf, type Printed, printedOf } from './printed'
import { type Recommended, recommendedOf } from './recommend'
import { besideBand, gradeOf, type TorqueBeside, tensionOf } from './tension'
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
  /** The class that is reckoned with, and whether it was only taken. */
  grade: { words: string; taken: boolean }
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
  /** By field, what is wrong with it and what to do. */
  errors: FieldErrors
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
      ? `A band of ±${percent.value} % is none to work to. Enter a number above 0, at most 50.`
      : undefined)
  const tolerancePct = percentError ? crib.tolerancePct : (percent.value ?? crib.tolerancePct)
  const recommended = recommendedOf(tension, strip, fit, tolerancePct)
  const printed = printedOf(inputs)
  const toSet = printed.state === 'read' ? printed.toSet : undefined
  // What is printed and cannot be read, or contradicts itself, is not replaced by something computed.
  const target =
    printed.state === 'none' || toSet
      ? targetOf(toSet?.spec, answerOf(recommended)?.torqueNm, tolerancePct)
      : undefined
  const tight = answerOf(tension)
  const wrench = onWrench(inputs, target, crib.wrenches, crib.now)
  const order = orderOf(inputs)
  const converted = convertedOf(inputs.convert)
  const gradeError = inputs.grade.trim() && !size ? gradeAlone(inputs.grade) : undefined
  return {
    inputs,
    thread: threadPart,
    grade: { words: size ? gradeOf(inputs, size) : inputs.grade.trim(), taken: inputs.grade.trim() === '' },
    tension,
    printed,
    ...(toSet && tight && target && printed.state === 'read' && !printed.seats
      ? { printedBeside: besideBand(tight, target.torqueNm) }
      : {}),
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
  }
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
