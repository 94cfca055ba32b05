/**
 * Scores `readSpec` against labelled lines: what was read without a question though it says something else,
 * what was offered, asked, refused. Used by `npm run bench -- --spec FILE` and by the test beside this.
 */
import { isRefusal } from '../../shared/log'
import { readSpec, type Spec, type SpecPass, type SpecReading } from '../../shared/spec'

export interface SpecLine {
  text: string
  label: 'clear' | 'ask' | 'refuse'
  /** What a clear line says. */
  passes?: SpecPass[]
  /** What an unclear line must never be read as without a question. */
  mustNot?: SpecPass[][]
  /** Holds words that nobody need understand. */
  words?: boolean
  note?: string
  /** Why the label was changed after the lines had been read. */
  relabelled?: string
}

/** A JSON array, or one object a line; what has no text (a head note) is left out. */
export function specLinesOf(file: string): SpecLine[] {
  const all = file.trimStart().startsWith('[')
    ? (JSON.parse(file) as SpecLine[])
    : file
        .split('\n')
        .filter((line) => line.trim() !== '')
        .map((line) => JSON.parse(line) as SpecLine)
  return all.filter((line) => typeof line.text === 'string' && line.label)
}

export type Answer = 'read' | 'remark' | 'contradiction' | 'offered' | 'asked' | 'refused'

export interface Scored {
  line: SpecLine
  answer: Answer
  /** Read or offered: whether that is what a clear line says. */
  right: boolean
  /** What was answered, in short. */
  shown: string
}

export function scoreLine(line: SpecLine): Scored {
  const got = readSpec(line.text)
  if (!isRefusal(got)) {
    const answer = got.contradiction ? 'contradiction' : got.remark ? 'remark' : 'read'
    return { line, answer, right: says(got, line), shown: shortly(got) }
  }
  const { readings = [] } = got.data as { readings?: SpecReading[] }
  const only = readings.length === 1 ? readings[0] : undefined
  const answer = only ? 'offered' : readings.length > 1 || got.refused === 'unclear' ? 'asked' : 'refused'
  return {
    line,
    answer,
    right: only !== undefined && says(only.spec, line),
    shown: `${got.refused}${got.refused === 'unclear' ? `/${got.data.why}` : ''}: ${readings.map((one) => one.text).join(' | ')}`,
  }
}

/** `silentlyWrong`: read without a question, and not what the line says, or not to be read at all. */
export function scoreOf(lines: SpecLine[]) {
  const scored = lines.map(scoreLine)
  const clear = scored.filter(({ line }) => line.label === 'clear')
  const silent = ({ answer }: Scored) => answer === 'read' || answer === 'remark'
  const of = (answer: Answer) => scored.filter((one) => one.answer === answer)
  const good = clear.filter((one) => one.right && (silent(one) || one.answer === 'offered'))
  return {
    lines: scored.length,
    silentlyWrong: scored.filter((one) => silent(one) && !(one.line.label === 'clear' && one.right)),
    read: of('read'),
    remarked: of('remark'),
    offeredRight: of('offered').filter((one) => one.right),
    /** The one reading is not what a clear line says, or is what an unclear one must not be read as. */
    offeredWrong: of('offered').filter(
      (one) => !one.right && (one.line.label !== 'ask' || forbidden(one.line)),
    ),
    offeredOfSeveral: of('offered').filter(
      (one) => !one.right && one.line.label === 'ask' && !forbidden(one.line),
    ),
    asked: of('asked'),
    refused: of('refused'),
    falseContradictions: clear.filter((one) => one.answer === 'contradiction'),
    clearNotReached: clear.filter((one) => !good.includes(one)),
    clearShare: clear.length === 0 ? 1 : good.length / clear.length,
  }
}

function forbidden(line: SpecLine): boolean {
  const got = readSpec(line.text)
  const readings = isRefusal(got) ? ((got.data as { readings?: SpecReading[] }).readings ?? []) : []
  return readings.some(({ spec }) => (line.mustNot ?? []).some((passes) => alike(spec.passes, passes)))
}

const says = (spec: Spec, line: SpecLine) =>
  line.label === 'clear' && !spec.contradiction && alike(spec.passes, line.passes ?? [])

/** Alike to a part in a million: the labels carry floats of their own. */
function alike(one: readonly SpecPass[], other: readonly SpecPass[]): boolean {
  return one.length === other.length && one.every((pass, i) => alikePass(pass, other[i]))
}

function alikePass(one: SpecPass, other: SpecPass | undefined): boolean {
  if (!other || one.kind !== other.kind) return false
  const [a, b] = [numbersOf(one), numbersOf(other)]
  return [...new Set([...Object.keys(a), ...Object.keys(b)])].every(
    (key) =>
      Math.abs((a[key] ?? Number.NaN) - (b[key] ?? Number.NaN)) <= 1e-6 * Math.max(1, Math.abs(a[key] ?? 0)),
  )
}

function numbersOf(pass: SpecPass): Record<string, number> {
  return Object.fromEntries(
    Object.entries(pass).filter((entry): entry is [string, number] => typeof entry[1] === 'number'),
  )
}

function shortly(spec: Spec): string {
  return spec.passes
    .map((pass) => {
      const { kind, ...numbers } = pass
      return `${kind} ${Object.entries(numbers)
        .map(([key, value]) => `${key.replace(/Nm|Deg/, '')} ${Number(Number(value).toPrecision(6))}`)
        .join(' ')}`.trim()
    })
    .join(', then ')
}

/** The figures as a table of text; `lists`: with the lines of each failure. */
export function scoreTable(score: ReturnType<typeof scoreOf>, lists: boolean): string {
  const rows: [string, Scored[] | string, failure?: boolean][] = [
    ['lines', String(score.lines)],
    ['silently wrong', score.silentlyWrong, true],
    ['read', score.read],
    ['read with a remark', score.remarked],
    ['offered, right', score.offeredRight],
    ['offered, wrong', score.offeredWrong, true],
    ['offered on a line to be asked', score.offeredOfSeveral],
    ['asked', score.asked],
    ['refused', score.refused],
    ['false contradictions', score.falseContradictions, true],
    ['clear, read or offered right', `${(100 * score.clearShare).toFixed(1)} %`],
    ['clear, not reached', score.clearNotReached, true],
  ]
  return rows
    .map(([name, of, failure]) => {
      const figure = `${name.padEnd(32)}${typeof of === 'string' ? of : of.length}`
      if (!lists || !failure || typeof of === 'string') return figure
      return [
        figure,
        ...of.map(({ line, shown }) => `    ${line.label}  ${JSON.stringify(line.text)}  →  ${shown}`),
      ].join('\n')
    })
    .join('\n')
}
