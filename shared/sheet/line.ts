/**
 * A line of a sheet once its cells are parted: its torque read by `readSpec`, judged by `judgeTorque`, and what both leave
 * to be looked at in sentences.
 *
 * The same for a line as pasted and for one its author corrected. An impossible torque stops the line; it stays read, so that
 * its figures can be told.
 */
import { type Doubt, doubtWords, judgeTorque, type TorqueJudgement } from '../fastener'
import { readLubrication } from '../fastener/friction'
import { type FastenerRefusal, fastenerSentence } from '../fastener/refusals'
import { thread } from '../fastener/thread'
import { isRefusal } from '../log'
import {
  noteSentenceFor,
  printSpec,
  readSpec,
  remarkSentenceFor,
  type Spec,
  type SpecContext,
  type SpecPass,
  type SpecReading,
  type SpecRefusal,
  specSentenceFor,
} from '../spec'
import type { Figures } from '../words'
import { breachOf, other } from './style'
import type { ItemLine, SheetContext } from './types'
import { fastenerOf } from './vocabulary'

/** A line before its torque is read. */
export type Row = Omit<ItemLine, 'spec' | 'refusal' | 'doubt' | 'readings' | 'stop' | 'told'>

/** The ways to read a text that was not read: exactly one is an offer. */
export const readingsOf = (refusal: SpecRefusal): readonly SpecReading[] =>
  (refusal.data as { readings?: readonly SpecReading[] }).readings ?? []

/** The words beside the one reading its author took, which were not read. */
export const besideOf = (refusal: SpecRefusal, taken: string): string | undefined =>
  readingsOf(refusal).some(({ text }) => text.trim() === taken)
    ? (refusal.data as { note?: string }).note || undefined
    : undefined

/** Without a style: a torque its author typed, whose decimal sign is not the sheet's. */
export function judgedLine(row: Row, { style, gradesGiven }: SheetContext, figures: Figures): ItemLine {
  const { context = {} } = row
  const read = readSpec(row.printed, context)
  const breach = breachOf(row.printed, style, figures)
  const judged = isRefusal(read) ? undefined : judgeLine(row, read)
  const { stop, doubts, told } = judged
    ? wordsOf(judged, gradesGiven, figures)
    : { stop: undefined, doubts: [], told: [] }
  const doubt = [
    ...(stop ? [stop] : []),
    ...(isRefusal(read) ? [specSentenceFor(read, figures) ?? read.refused] : []),
    ...(!isRefusal(read) && read.contradiction ? [contradictionWords(read.contradiction)] : []),
    ...(breach && !isRefusal(read) ? [breach.sentence] : []),
    ...doubts,
    ...threadDoubt(row.thread, figures),
    ...(row.odd ?? []),
  ]
  const readings = breach?.open ? bothReadings(row.printed, context) : []
  const beside = [
    ...told,
    ...(isRefusal(read) ? [] : remarkOf(read, figures)),
    ...(row.beside ? [noteSentenceFor(row.beside)] : []),
    ...lubricationTold(row.lubrication),
  ]
  return {
    ...row,
    ...(isRefusal(read) ? { refusal: read } : { spec: read }),
    ...(stop ? { stop } : {}),
    ...(readings.length > 0 ? { readings } : {}),
    ...(beside.length > 0 ? { told: beside } : {}),
    ...(doubt.length > 0 ? { doubt } : {}),
  }
}

export const contradictionWords = ({ first, second }: NonNullable<Spec['contradiction']>): string =>
  `${first.text} and ${second.text} are not the same torque. Look at the page.`

const remarkOf = ({ remark, passes }: Spec, figures: Figures): string[] => [
  ...(remark ? [remarkSentenceFor(remark, figures)] : []),
  ...(passes.some(isOnlyALimit) ? ['Only a limit is printed: the plan asks what to tighten to.'] : []),
]

const isOnlyALimit = (pass: SpecPass): boolean =>
  pass.kind === 'torque' &&
  pass.nominalNm === undefined &&
  (pass.minNm === undefined || pass.maxNm === undefined)

/** A number that may have thousands or decimals, printed both ways. */
function bothReadings(printed: string, context: SpecContext): string[] {
  const { sign } = context
  if (!sign || sign === 'unsure') return []
  const read = [sign, other(sign)].map((tried) => readSpec(printed, { ...context, sign: tried }))
  return [...new Set(read.flatMap((one) => (isRefusal(one) || one.contradiction ? [] : [printSpec(one)])))]
}

interface Judged {
  judgement: TorqueJudgement
  doubts: Doubt[]
}

const GRAVITY: readonly TorqueJudgement['verdict'][] = [
  'not_judged',
  'plausible',
  'implausible',
  'impossible',
]
/** Told for the sheet or beside the line; the rest is doubt. */
const ASSUMED: readonly Doubt[] = ['grade_assumed', 'pitch_assumed', 'thread_unknown']

/** The gravest of its torque passes, and of those the highest. A pass before another may be light: it only seats the joint. */
function judgeLine(row: Row, { passes, contradiction }: Spec): Judged | undefined {
  if (contradiction) return undefined
  const last = passes.findLastIndex(({ kind }) => kind !== 'slacken')
  const judged = passes.flatMap((pass, i): Judged[] => {
    if (pass.kind !== 'torque') return []
    const { kind: _, ...torque } = pass
    const judgement = judgeTorque({
      fastener: fastenerOf(row.item),
      ...(row.thread ? { thread: row.thread } : {}),
      ...(row.grade ? { grade: row.grade } : {}),
      ...(row.lubrication ? { lubrication: row.lubrication } : {}),
      ...torque,
    })
    return [{ judgement, doubts: judgement.doubts.filter((one) => one !== 'hardly_clamps' || i === last) }]
  })
  const gravity = ({ judgement, doubts }: Judged) =>
    10 * GRAVITY.indexOf(judgement.verdict) + (doubts.some((one) => !ASSUMED.includes(one)) ? 1 : 0)
  const top = ({ judgement: { torque } }: Judged) => torque.maxNm ?? torque.nominalNm ?? torque.minNm ?? 0
  return judged.sort((a, b) => gravity(b) - gravity(a) || top(b) - top(a))[0]
}

/** An assumed grade is a doubt of the line where others give theirs, or where the torque is doubted with it. */
function wordsOf(
  { judgement, doubts }: Judged,
  gradesGiven: boolean,
  figures: Figures,
): { stop: string | undefined; doubts: string[]; told: string[] } {
  const say = (doubt: Doubt) => doubtWords(doubt, judgement, figures)
  const grave = doubts.filter((doubt) => !ASSUMED.includes(doubt))
  const stops = judgement.verdict === 'impossible'
  const [first, ...rest] = grave
  const gradeDoubt = doubts.includes('grade_assumed') && (gradesGiven || grave.length > 0)
  return {
    stop: stops && first ? say(first) : undefined,
    // What breaks a bolt pulls it past its yield as well: that need not be told.
    doubts: [
      ...(stops ? rest.filter((doubt) => doubt !== 'past_yield') : grave),
      ...(gradeDoubt ? (['grade_assumed'] as const) : []),
    ].map(say),
    told: doubts.filter((doubt) => doubt === 'pitch_assumed').map(say),
  }
}

export type ThreadRead =
  | { designation: string; lengthMm?: number }
  | { refusal: FastenerRefusal; other: boolean }
const threads = new Map<string, ThreadRead>()
const MOST_THREADS = 500

/** A thread as the fastener's room understands it; a form it does not compute with (`R1/8`) is no fault. */
export function threadRead(text: string): ThreadRead {
  const known = threads.get(text)
  if (known) return known
  const read = thread(text)
  const made: ThreadRead = isRefusal(read)
    ? { refusal: read, other: read.refused === 'thread_other_form' }
    : {
        designation: read.designation,
        ...(read.lengthMm === undefined ? {} : { lengthMm: read.lengthMm }),
      }
  if (threads.size >= MOST_THREADS) threads.clear()
  threads.set(text, made)
  return made
}

function threadDoubt(text: string | undefined, figures: Figures): string[] {
  const read = text === undefined ? undefined : threadRead(text)
  return read && 'refusal' in read && !read.other ? [fastenerSentence(read.refusal, figures)] : []
}

function lubricationTold(text: string | undefined): string[] {
  const read = text === undefined ? undefined : readLubrication(text)
  if (!read || !isRefusal(read)) return []
  const says =
    read.refused === 'lubrication_unclear'
      ? 'does not say exactly one lubrication'
      : 'is no lubrication known here'
  return [`“${text}” ${says}: the line was judged from oiled to dry.`]
}
