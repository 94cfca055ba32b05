/**
 * The whole sheet from what is asked: every answer once, and the sentences at the fields they belong to. Pure.
 *
 * Only the crib comes from the shop, and only its wrenches; all else follows from what was typed.
 */
import { BASIS, type BasisId, strength, type Thread, type Tightening, thread } from '../../../shared/fastener'
import { isRefusal } from '../../../shared/log'
import type { Wrench } from '../../../shared/shop/types'
import type { Asked, AskedField } from './asked'
import { numberIn } from './entries'
import { type Fit, fitOf, type Strip, stripOf } from './hole'
import { type Ordered, orderOf } from './order'
import { answerOf, open, type Part, refusedPart, there, type Wrong } from './part'
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

export interface Desk {
  asked: Asked
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
  wrong: Wrong
}

export function deskOf(asked: Asked, crib: Crib): Desk {
  const read = asked.thread.trim() === '' ? undefined : thread(asked.thread)
  const threadPart: Part<Thread> =
    read === undefined ? open('Type the thread first.') : isRefusal(read) ? refusedPart(read) : there(read)
  const found = answerOf(threadPart)
  const needsThread = <T>(make: (thread: Thread) => Part<T>): Part<T> =>
    threadPart.state === 'there' ? make(threadPart.value) : threadPart
  const tension = needsThread((one) => tensionOf(asked, one))
  const fit = needsThread((one) => fitOf(asked, one))
  const strip = needsThread((one) => stripOf(asked, one, fit))
  const percent = numberIn(asked.tolerance, '%')
  const percentWrong =
    percent.wrong ??
    (percent.value !== undefined && !(percent.value > 0 && percent.value <= 50)
      ? `A band of ±${percent.value} % is none to work to. Enter a number above 0, at most 50.`
      : undefined)
  const tolerancePct = percentWrong ? crib.tolerancePct : (percent.value ?? crib.tolerancePct)
  const recommended = recommendedOf(tension, strip, fit, tolerancePct)
  const printed = printedOf(asked)
  const toSet = printed.state === 'read' ? printed.toSet : undefined
  // What is printed and cannot be read, or contradicts itself, is not replaced by something computed.
  const target =
    printed.state === 'none' || toSet
      ? targetOf(toSet?.spec, answerOf(recommended)?.torqueNm, tolerancePct)
      : undefined
  const tight = answerOf(tension)
  const wrench = onWrench(asked, target, crib.wrenches, crib.now)
  const order = orderOf(asked)
  const converted = convertedOf(asked.convert)
  const gradeWrong = asked.grade.trim() && !found ? gradeAlone(asked.grade) : undefined
  return {
    asked,
    thread: threadPart,
    grade: { words: found ? gradeOf(asked, found) : asked.grade.trim(), taken: asked.grade.trim() === '' },
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
    wrong: {
      ...(gradeWrong ? { grade: gradeWrong } : {}),
      ...wrongOf(order, wrench, strip, fit, tension, threadPart),
      ...(percentWrong ? { tolerance: percentWrong } : {}),
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
function wrongOf(...parts: Part<unknown>[]): Wrong {
  const wrong: Partial<Record<AskedField, string>> = {}
  for (const part of parts) if (part.state === 'refused' && part.field) wrong[part.field] = part.why
  return wrong
}

/** All that the answers of a sheet rest on, once each, in the order of the table: the numbers on paper. */
export function basisOf({ tension, strip, fit, thread: one, order }: Desk): BasisId[] {
  const ids = new Set<BasisId>([
    ...(answerOf(one)?.basis ?? []),
    ...(answerOf(tension)?.basis ?? []),
    ...(answerOf(strip)?.strip.basis ?? []),
    ...(answerOf(fit)?.fit.basis ?? []),
    ...(order.state === 'there' ? [orderBasis(order.value)] : []),
  ])
  return (Object.keys(BASIS) as BasisId[]).filter((id) => ids.has(id))
}

export const orderBasis = ({ proposed }: Ordered): BasisId =>
  proposed.pattern === 'circle' ? 'order_circle' : 'order_rows'
