/**
 * A line of a sheet once its cells are parted: its torque read by `readSpec`, judged by `judgeTorque`, and what both leave
 * to be looked at in sentences.
 *
 * The same for a line as pasted and for one its author corrected. An impossible torque stops the line; it stays read, so that
 * its figures can be told.
 */
import { type Doubt, doubtWords, judgeTorque, loadAfter, type TorqueJudgement } from '../fastener'
import { readLubrication } from '../fastener/friction'
import { fastenerSentence } from '../fastener/refusals'
import { isRefusal } from '../log'
import { heldIn } from '../plan/fasteners'
import type { FitJoint } from '../plan/fit'
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
import { fastenerOf } from './fasteners'
import { boltOf, fitDoubts } from './lengths'
import { breachOf, other } from './style'
import { threadRead } from './threads'
import type { ItemLine, SheetContext } from './types'

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
  const bolt = boltOf(row)
  const judged = isRefusal(read) ? undefined : judgeLine(row, bolt, read)
  const { stop, doubts, told } = judged
    ? wordsOf(judged, gradesGiven, figures)
    : { stop: undefined, doubts: [], told: [] }
  const doubt = [
    ...(stop ? [stop] : []),
    ...(isRefusal(read) ? [specSentenceFor(read, figures) ?? read.refused] : []),
    ...(!isRefusal(read) && read.contradiction ? [contradictionWords(read.contradiction)] : []),
    ...(breach && !isRefusal(read) ? [breach.sentence] : []),
    ...doubts,
    ...fitDoubts(bolt, figures),
    ...threadDoubt(row.thread, figures),
    ...(row.odd ?? []),
  ]
  const readings = breach?.open ? bothReadings(row.printed, context) : []
  const beside = [
    ...told,
    ...(isRefusal(read) ? [] : remarkOf(read, figures)),
    ...(row.beside ? [noteSentenceFor(row.beside)] : []),
    ...lubricationTold(row.lubrication),
    ...bolt.told,
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

const GRAVITY: readonly TorqueJudgement['verdict'][] = [
  'not_judged',
  'plausible',
  'implausible',
  'impossible',
]
/** Told for the sheet or beside the line; the rest is doubt. */
const ASSUMED: readonly Doubt[] = ['grade_assumed', 'pitch_assumed', 'thread_unknown']

/** The gravest of its torque passes, and of those the highest. */
function judgeLine(row: Row, bolt: FitJoint, { passes, contradiction }: Spec): TorqueJudgement | undefined {
  if (contradiction) return undefined
  const judged = passes.flatMap((pass, i): TorqueJudgement[] => {
    if (pass.kind !== 'torque') return []
    const { kind: _, ...torque } = pass
    return [
      judgeTorque({
        fastener: fastenerOf(row.item),
        ...(row.thread ? { thread: row.thread } : {}),
        ...(row.grade ? { grade: row.grade } : {}),
        ...(row.lubrication ? { lubrication: row.lubrication } : {}),
        ...heldIn(bolt),
        ...torque,
        ...loadAfter(passes, i),
      }),
    ]
  })
  const gravity = ({ verdict, doubts }: TorqueJudgement) =>
    10 * GRAVITY.indexOf(verdict) + (doubts.some((one) => !ASSUMED.includes(one)) ? 1 : 0)
  const top = ({ torque }: TorqueJudgement) => torque.maxNm ?? torque.nominalNm ?? torque.minNm ?? 0
  return judged.sort((a, b) => gravity(b) - gravity(a) || top(b) - top(a))[0]
}

/** An assumed grade is a doubt of the line where others give theirs, or where the torque is doubted with it. */
function wordsOf(
  judgement: TorqueJudgement,
  gradesGiven: boolean,
  figures: Figures,
): { stop: string | undefined; doubts: string[]; told: string[] } {
  const { doubts } = judgement
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
      : 'is not a lubrication known here'
  return [`“${text}” ${says}: the line was judged from oiled to dry.`]
}
