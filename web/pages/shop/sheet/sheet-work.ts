/**
 * A torque sheet while its author goes through it: what the sheet says, with their corrections laid over it.
 *
 * A correction belongs to a line as long as that line's text stays the same; the text itself is never changed, and no
 * line leaves the list. What is read anew is read by `readSpec`, like all the rest.
 */
import { fastenerSentence } from '../../../../shared/fastener/refusals'
import { thread } from '../../../../shared/fastener/thread'
import { isRefusal } from '../../../../shared/log'
import type { JointClass } from '../../../../shared/plan/types'
import type { ItemLine, Sheet, SheetChoices, SheetLine } from '../../../../shared/sheet'
import { readSpec, type SpecReading, specSentenceFor } from '../../../../shared/spec'
import type { TorqueUnit } from '../../../../shared/units'

export interface Correction {
  /** The line's text as it was when this was said. */
  of: string
  /** The torque as the author reads it on the page. */
  printed?: string
  thread?: string
  count?: number
  class?: JointClass
  /** What the line is, where it was taken for something else. `out`: no fastener; it stays in the list. */
  as?: 'joint' | 'heading' | 'out'
  /** The author looked at what is doubted and lets it stand. */
  seen?: true
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

export type LineState = 'header' | 'section' | 'read' | 'look' | 'unread' | 'out'

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
  /** Ways to read it, each clear, to be chosen from. */
  offers: string[]
}

export type Thread = { designation: string } | { sentence: string; other: boolean }

const threads = new Map<string, Thread>()

/** A thread as the fastener's room understands it; a form it does not reckon with (`R1/8`) is no fault. */
export function threadRead(text: string): Thread {
  const known = threads.get(text)
  if (known) return known
  const read = thread(text)
  const made: Thread = isRefusal(read)
    ? { sentence: fastenerSentence(read), other: read.refused === 'thread_other_form' }
    : { designation: read.designation }
  threads.set(text, made)
  return made
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
  const unit = unitOf(sheet, choices)
  let section = ''
  return sheet.lines.map((original) => {
    const stored = corrections[original.line]
    const correction = stored?.of === original.text ? stored : undefined
    const before = made.get(original)
    const known =
      before && before.correction === correction && before.section === section
        ? before
        : workLine(original, correction, section, unit)
    made.set(original, known)
    if (known.line.kind === 'section' && known.state !== 'out') section = known.line.title
    return known
  })
}

function workLine(
  original: SheetLine,
  correction: Correction | undefined,
  section: string,
  unit: TorqueUnit | undefined,
): WorkLine {
  const line = correction ? corrected(original, correction, unit) : original
  const doubt = [...(line.doubt ?? []), ...threadDoubt(line)]
  const unread = line.kind === 'item' && line.refusal !== undefined
  const state: LineState =
    correction?.as === 'out'
      ? 'out'
      : line.kind === 'header'
        ? 'header'
        : unread
          ? 'unread'
          : doubt.length > 0 && !correction?.seen
            ? 'look'
            : line.kind === 'section'
              ? 'section'
              : 'read'
  return {
    original,
    line,
    ...(correction ? { correction } : {}),
    state,
    section,
    doubt,
    offers: offersOf(line),
  }
}

/** A line with its author's word over it. What is doubted of its torque is judged anew, the rest stays. */
function corrected(original: SheetLine, correction: Correction, unit: TorqueUnit | undefined): SheetLine {
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
  const newThread = correction.thread?.trim()
  const threaded: ItemLine = newThread === undefined ? item : put(item, 'thread', newThread || undefined)
  const counted: ItemLine =
    correction.count === undefined
      ? threaded
      : put(
          withDoubt(
            threaded,
            (threaded.doubt ?? []).filter((doubt) => !doubt.includes('not a number of fasteners')),
          ),
          'count',
          correction.count,
        )
  if (correction.printed === undefined && original.kind === 'item') return counted
  return readAnew(counted, correction.printed ?? '', unit)
}

function readAnew(line: ItemLine, printed: string, unit: TorqueUnit | undefined): ItemLine {
  const { spec, refusal, doubt = [], ...rest } = line
  // The sheet's own reader puts what is odd about the torque first.
  const others = refusal || spec?.contradiction ? doubt.slice(1) : doubt
  const read = readSpec(printed, unit ? { unit } : {})
  const odd = isRefusal(read)
    ? [specSentenceFor(read) ?? read.refused]
    : read.contradiction
      ? [
          `${read.contradiction.first.text} and ${read.contradiction.second.text} are not the same torque. Look at the page.`,
        ]
      : []
  return withDoubt({ ...rest, printed, ...(isRefusal(read) ? { refusal: read } : { spec: read }) }, [
    ...odd,
    ...others,
  ])
}

function withDoubt<L extends SheetLine>(line: L, doubt: string[]): L {
  const { doubt: _, ...rest } = line
  return (doubt.length > 0 ? { ...rest, doubt } : rest) as L
}
const withoutDoubt = <L extends SheetLine>(line: L): L => withDoubt(line, [])

function put<K extends 'thread' | 'count'>(line: ItemLine, key: K, value: ItemLine[K]): ItemLine {
  const { [key]: _, ...rest } = line
  return (value === undefined ? rest : { ...rest, [key]: value }) as ItemLine
}

function threadDoubt(line: SheetLine): string[] {
  if (line.kind !== 'item' || line.thread === undefined) return []
  const read = threadRead(line.thread)
  return 'sentence' in read && !read.other ? [read.sentence] : []
}

function offersOf(line: SheetLine): string[] {
  if (line.kind !== 'item') return []
  const readings = (line.refusal?.data as { readings?: SpecReading[] } | undefined)?.readings ?? []
  const contradiction = line.spec?.contradiction
  // Only where it is the whole of it: of several passes the others would be lost.
  const sides =
    contradiction && line.spec?.passes.length === 1
      ? [contradiction.first.text, contradiction.second.text]
      : []
  return [...readings.map(({ text }) => text), ...sides].map((text) => text.trim())
}

/** Those to look at first, unread before doubtful; the rest in the order of the sheet. By line number. */
export function inOrder(lines: readonly WorkLine[]): { look: number[]; rest: number[] } {
  const numbers = (some: readonly WorkLine[]) => some.map(({ original }) => original.line)
  const unread = lines.filter(({ state }) => state === 'unread')
  const look = lines.filter(({ state }) => state === 'look')
  const rest = lines.filter(({ state }) => state !== 'unread' && state !== 'look')
  return { look: [...numbers(unread), ...numbers(look)], rest: numbers(rest) }
}

export interface SheetCounts {
  read: number
  look: number
  unread: number
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
    headings: of('section'),
    out: of('out'),
    withoutClass: lines.filter((line) => isJoint(line) && !line.correction?.class).length,
  }
}

/** Will it be a joint of the plan? An unread one is: without a torque. */
export const isJoint = ({ line, state }: WorkLine): boolean => line.kind === 'item' && state !== 'out'

/** The next line to look at after this one, round to the first again. */
export function nextDoubt(
  order: readonly number[],
  byLine: (n: number) => WorkLine | undefined,
  from: number | undefined,
): number | undefined {
  const at = from === undefined ? -1 : order.indexOf(from)
  const turned = [...order.slice(at + 1), ...order.slice(0, at + 1)]
  return turned.find((n) => ['unread', 'look'].includes(byLine(n)?.state ?? ''))
}

/** The work with one line said anew; what is given as `undefined` is taken back. */
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
