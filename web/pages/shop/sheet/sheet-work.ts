/**
 * A torque sheet while its author goes through it: what the sheet says, with their corrections laid over it.
 *
 * A correction belongs to a line as long as that line's text stays the same; the text itself is never changed, and no
 * line leaves the list. What is read anew is read by `readSpec`, like all the rest.
 */
import type { JointClass } from '../../../../shared/plan/kinds'
import {
  besideOf,
  type ItemLine,
  judgedLine,
  type Row,
  readingsOf,
  type Sheet,
  type SheetChoices,
  type SheetContext,
  type SheetLine,
} from '../../../../shared/sheet'
import type { TorqueUnit } from '../../../../shared/units'
import { format } from '../../../format'

export interface Correction {
  /** The line's text as it was when this was said. */
  of: string
  /** The torque as the author reads it on the page. */
  printed?: string
  thread?: string
  grade?: string
  count?: number
  class?: JointClass
  /** What the line is, where it was taken for something else. `out`: no fastener; it stays in the list. */
  as?: 'joint' | 'heading' | 'out'
  /** The author looked at what is doubted and lets it stand. */
  seen?: true
  /** The author leaves it without a torque: the plan asks for it. */
  open?: true
}
/** Corrects one line. A field that is `undefined` goes back to what was read. */
export type CorrectLine = (
  line: SheetLine,
  correction: { [K in keyof Correction]?: Correction[K] | undefined },
) => void

export type Corrections = Readonly<Record<number, Correction>>

/** All that is kept of a sheet in work. */
export interface SheetWork {
  text: string
  choices: SheetChoices
  corrections: Corrections
}
export const EMPTY_WORK: SheetWork = { text: '', choices: {}, corrections: {} }

/** `stopped`: an impossible torque, no plan is made with it; `open`: left without a torque by its author. */
export type LineState = 'header' | 'section' | 'read' | 'look' | 'unread' | 'stopped' | 'open' | 'out'

export interface WorkLine {
  /** As the sheet was read. */
  original: SheetLine
  /** With what the author said. */
  line: SheetLine
  correction?: Correction
  state: LineState
  /** The heading it stands under. */
  section: string
  /** What to look at, each in a sentence. */
  doubt: string[]
  /** Ways to read it, each clear, to be chosen from. One alone is offered: a tap takes it. */
  offers: string[]
}

/** The unit of bare numbers of the sheet, as its heading or its author says it. */
export const unitOf = (sheet: Sheet, choices: SheetChoices): TorqueUnit | undefined =>
  sheet.columns.find(({ role }) => role === 'torque')?.unit ?? choices.unit

/** Made once for a line and its correction, so that a list of thousands is not drawn again for one of them. */
const made = new WeakMap<SheetLine, WorkLine>()

export function workLines(
  sheet: Sheet,
  { choices, corrections }: Pick<SheetWork, 'choices' | 'corrections'>,
): WorkLine[] {
  const context = { unit: unitOf(sheet, choices), sheet: sheet.context }
  let section = ''
  return sheet.lines.map((original) => {
    const stored = corrections[original.line]
    const correction = stored?.of === original.text ? stored : undefined
    const before = made.get(original)
    const known =
      before && before.correction === correction && before.section === section
        ? before
        : workLine(original, correction, section, context)
    made.set(original, known)
    if (known.line.kind === 'section' && known.state !== 'out') section = known.line.title
    return known
  })
}

interface CorrectionContext {
  unit: TorqueUnit | undefined
  sheet: SheetContext
}

function workLine(
  original: SheetLine,
  correction: Correction | undefined,
  section: string,
  context: CorrectionContext,
): WorkLine {
  const line = correction ? corrected(original, correction, context) : original
  return {
    original,
    line,
    ...(correction ? { correction } : {}),
    state: stateOf(line, correction),
    section: (line.kind === 'item' && [section, line.group].filter(Boolean).join(': ')) || section,
    doubt: line.doubt ?? [],
    offers: offersOf(line),
  }
}

function stateOf(line: SheetLine, correction: Correction | undefined): LineState {
  if (correction?.as === 'out') return 'out'
  if (line.kind === 'header') return 'header'
  if (line.kind === 'item') {
    if (correction?.open) return 'open'
    if (line.stop) return 'stopped'
    if (line.refusal) return 'unread'
  }
  if (line.doubt && !correction?.seen) return 'look'
  return line.kind === 'section' ? 'section' : 'read'
}

/** A line with its author's word over it: its torque read and judged anew, what is odd about the row stays. */
function corrected(original: SheetLine, correction: Correction, context: CorrectionContext): SheetLine {
  if (original.kind === 'header') return original
  if (correction.as === 'heading') {
    if (original.kind === 'section') return withoutDoubt(original)
    return {
      kind: 'section',
      line: original.line,
      text: original.text,
      title: original.item || original.text.trim(),
    }
  }
  if (original.kind === 'section' && correction.as !== 'joint') return original
  const item: ItemLine =
    original.kind === 'section'
      ? { kind: 'item', line: original.line, text: original.text, item: original.title, printed: '' }
      : original
  const { printed, thread, grade, count } = correction
  if ([printed, thread, grade, count].every((value) => value === undefined) && original.kind === 'item')
    return original
  const { spec, refusal, doubt, readings, stop, told, odd = [], ...row } = item
  const { unit, sheet } = context
  const oddNow =
    count === undefined ? odd : odd.filter((sentence) => !sentence.includes('not a number of fasteners'))
  const changed: Row = {
    ...row,
    ...(thread === undefined ? {} : { thread: thread.trim() }),
    ...(grade === undefined ? {} : { grade: grade.trim() }),
    ...(count === undefined ? {} : { count }),
    ...(oddNow.length > 0 ? { odd: oddNow } : {}),
  }
  const judgedWith = { ...sheet, gradesGiven: sheet.gradesGiven || !!changed.grade }
  if (printed === undefined && original.kind === 'item') return judgedLine(changed, judgedWith, format)
  // What its author types has no decimal sign of the sheet's: it is asked about, as anywhere.
  const { style: _, ...typed } = judgedWith
  const bare = row.context?.unit ?? unit
  const beside = printed && refusal ? besideOf(refusal, printed) : undefined
  return judgedLine(
    {
      ...changed,
      printed: printed ?? '',
      context: bare ? { unit: bare } : {},
      ...(beside ? { beside } : {}),
    },
    typed,
    format,
  )
}

function withoutDoubt<L extends SheetLine>(line: L): L {
  const { doubt: _, ...rest } = line
  return rest as L
}

function offersOf(line: SheetLine): string[] {
  if (line.kind !== 'item') return []
  const ways = line.refusal ? readingsOf(line.refusal).map(({ text }) => text) : (line.readings ?? [])
  const contradiction = line.spec?.contradiction
  // Only where it is the whole of it: of several passes the others would be lost.
  const sides =
    contradiction && line.spec?.passes.length === 1
      ? [contradiction.first.text, contradiction.second.text]
      : []
  return [...ways, ...sides].map((text) => text.trim())
}

/** Those to look at first: impossible, unread, doubtful; the rest in the order of the sheet. By line number. */
export function inOrder(lines: readonly WorkLine[]): { look: number[]; rest: number[] } {
  const numbers = (some: readonly WorkLine[]) => some.map(({ original }) => original.line)
  return {
    look: TO_LOOK_AT.flatMap((state) => numbers(lines.filter((line) => line.state === state))),
    rest: numbers(lines.filter((line) => !isToLookAt(line))),
  }
}

const TO_LOOK_AT: readonly LineState[] = ['stopped', 'unread', 'look']
export const isToLookAt = (line: Pick<WorkLine, 'state'> | undefined): boolean =>
  line !== undefined && TO_LOOK_AT.includes(line.state)

export interface SheetCounts {
  read: number
  look: number
  unread: number
  /** Impossible: no plan is made while there is one. */
  stopped: number
  /** Left without a torque. */
  open: number
  headings: number
  out: number
  /** Fasteners whose class nobody has said. */
  withoutClass: number
}

export function countsOf(lines: readonly WorkLine[]): SheetCounts {
  const of = (state: LineState) => lines.filter((line) => line.state === state).length
  return {
    read: of('read'),
    look: of('look'),
    unread: of('unread'),
    stopped: of('stopped'),
    open: of('open'),
    headings: of('section'),
    out: of('out'),
    withoutClass: lines.filter((line) => isJoint(line) && !line.correction?.class).length,
  }
}

/** Will it be a joint of the plan? An unread one is, and one left open: without a torque. */
export const isJoint = ({ line, state }: WorkLine): boolean => line.kind === 'item' && state !== 'out'

/** The next line to look at after this one, round to the first again. */
export function nextDoubt(
  order: readonly number[],
  byLine: (n: number) => WorkLine | undefined,
  from: number | undefined,
): number | undefined {
  const at = from === undefined ? -1 : order.indexOf(from)
  const turned = [...order.slice(at + 1), ...order.slice(0, at + 1)]
  return turned.find((n) => isToLookAt(byLine(n)))
}

/** The work with one line said anew; what is `undefined` in it is taken back. */
export function withCorrection(
  work: SheetWork,
  { line, text }: SheetLine,
  patch: { [K in keyof Correction]?: Correction[K] | undefined },
): SheetWork {
  const before = work.corrections[line]
  const merged = { ...(before?.of === text ? before : {}), ...patch, of: text }
  const entered = Object.fromEntries(Object.entries(merged).filter(([, value]) => value !== undefined))
  return { ...work, corrections: { ...work.corrections, [line]: entered as unknown as Correction } }
}

/** Every joint without a class gets this one; those that have one keep it. */
export function restAs(work: SheetWork, lines: readonly WorkLine[], jointClass: JointClass): SheetWork {
  const more = lines
    .filter((line) => isJoint(line) && !line.correction?.class)
    .map(({ original, correction }): [number, Correction] => [
      original.line,
      { ...correction, of: original.text, class: jointClass },
    ])
  return { ...work, corrections: { ...work.corrections, ...Object.fromEntries(more) } }
}
