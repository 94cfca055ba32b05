/**
 * The record as it is read: lines gathered under their joint, a search over every word that is shown, and each
 * line in words. Pure; who is who comes in as `Words`.
 */
import {
  filterRecord,
  type RecordFilter,
  type RecordLine,
  type RecordPass,
  readingsOf as readingsOfRecord,
} from '../../../shared/audit/record'
import { conditionWords, flagWords } from '../../../shared/job/kinds'
import type { Reading, Waiver, WrenchThen } from '../../../shared/job/types'
import { indexPlan } from '../../../shared/plan/read'
import type { AdoptedJoint, AdoptedPlan, AdoptedStep } from '../../../shared/plan/types'
import { counted, listed, type Words } from '../../../shared/words'
import { format } from '../../format'
import type { AuditLine, Verdict } from './verdict'

export interface Query extends Omit<RecordFilter, 'verdict'> {
  verdict?: Verdict
  /** Every word must be found somewhere in the line. */
  text?: string
}

export const EMPTY_QUERY: Query = {}
export const isEmpty = (query: Query): boolean => Object.values(query).every((value) => !value)

export function searchRecord(lines: readonly AuditLine[], query: Query, words: Words): AuditLine[] {
  const wanted = (query.text ?? '').toLowerCase().split(/\s+/).filter(Boolean)
  const { verdict, ...narrow } = query
  if (isEmpty(query)) return [...lines]
  const some = lines.filter(
    (line) =>
      (verdict === undefined || line.verdict === verdict) &&
      // The shared filter reads everything but the verdict, which this page words finer.
      filterRecord([line as RecordLine], narrow).length > 0,
  )
  if (wanted.length === 0) return some
  return some.filter((line) => {
    const text = searchText(line, words)
    return wanted.every((word) => text.includes(word))
  })
}

const readingsOf = (line: AuditLine): Reading[] => readingsOfRecord(line as RecordLine)

/** Where one reading came all the other lines of its joint say what they said. */
const ownTexts = new WeakMap<AuditLine, string>()

function searchText(line: AuditLine, words: Words): string {
  const own = ownTexts.get(line) ?? ownText(line)
  ownTexts.set(line, own)
  const people = [line.first, line.second, ...readingsOf(line), ...line.waivers]
  return [own, ...people.flatMap((signature) => (signature ? [words.person(signature.by)] : []))]
    .join(' ')
    .toLowerCase()
}

/** All but who is who. */
function ownText(line: AuditLine): string {
  return [
    line.stepId,
    line.stepTitle,
    line.joint,
    line.jointTitle,
    line.setTitle,
    `${line.position}`,
    line.label ?? '',
    verdictWords(line),
    ...readingsOf(line).flatMap((reading) => [
      reading.wrenchId ?? '',
      reachedWords(reading),
      ...reading.flags.map(flagWords),
      reading.struck?.reason ?? '',
    ]),
    ...line.waivers.map(({ reason }) => reason),
    line.fastener ? conditionWords(line.fastener) : '',
  ].join(' ')
}

export interface JointGroup {
  step: AdoptedStep
  joint: AdoptedJoint
  lines: AuditLine[]
}

/** Every word of a joint in the record. */
export const groupText = ({ step, joint, lines }: JointGroup, words: Words): string =>
  [
    step.id,
    step.title,
    joint.title,
    joint.thread,
    joint.grade,
    ...lines.map((line) => searchText(line, words)),
  ].join(' ')

/** Lines under their joint, in the order they come. */
export function groupsOf(lines: readonly AuditLine[], plan: AdoptedPlan): JointGroup[] {
  const { stepById, jointById } = indexPlan(plan)
  const groups = new Map<string, JointGroup>()
  for (const line of lines) {
    const step = stepById.get(line.stepId)
    const joint = jointById.get(line.joint)
    if (!step || !joint) continue
    const group = groups.get(line.joint)
    if (group) group.lines.push(line)
    else groups.set(line.joint, { step, joint, lines: [line] })
  }
  return [...groups.values()]
}

/** `105 N·m clicked`, `77.4 lbf·ft (104.9 N·m) clicked`, `+60° turned`. */
export function reachedWords(reading: Reading): string {
  const { how, value, unit, torqueNm } = reading
  if (how === 'slackened') return 'slackened'
  if (how === 'turned') return value === undefined ? 'turned' : `+${format.number(value)}° turned`
  const shown = value === undefined || unit === undefined ? '' : `${format.number(value)} ${unit} `
  const beside = limitsNm(reading)
  const nm =
    torqueNm !== undefined && (unit !== 'N·m' || value !== torqueNm)
      ? `(${format.torque(torqueNm, 'N·m', beside)} N·m) `
      : ''
  return `${shown}${nm}${how}`
}

const limitsNm = ({ band }: Reading): number[] => (band?.kind === 'torque' ? [band.minNm, band.maxNm] : [])

export const showNm = (torqueNm: number): string => format.torque(torqueNm, 'N·m')

/** The number a band judges. */
export const judged = (reading: Reading): number | undefined =>
  reading.band?.kind === 'angle' ? reading.angleDeg : reading.torqueNm

const VOID: Record<NonNullable<Reading['superseded']>['because'], string> = {
  slackened: 'slackened',
  retaken: 'read again',
  restarted: 'pass started again',
  refitted: 'fastener changed',
}

/** `accepted by Marit, 24 Nov 13:40: the thread holds; own work`. */
export function waiverWords({ by, doneAt, reason, ownWork }: Waiver, words: Words): string {
  return `accepted by ${words.person(by)}, ${words.moment(doneAt)}: ${reason}${ownWork ? ' (own work)' : ''}`
}

/**
 * The waivers said on a row: of its reading, or, on the first row, of the fastener. That of a second signature is
 * said once, in the heading of its joint.
 */
export function waiversOfRow({ line, reading, lead }: Row): Waiver[] {
  return line.waivers.filter(({ what }) =>
    what.kind === 'reading' ? what.readingId === reading?.id : lead && what.kind === 'fastener',
  )
}

/** Waivers of second signatures that these lines share. */
export const waiversOfSets = (lines: readonly AuditLine[]): Waiver[] => [
  ...new Set(lines.flatMap(({ waivers }) => waivers.filter(({ what }) => what.kind === 'second'))),
]

/** What stands against a reading, or why it no longer counts. */
export function remarks(reading: Reading, words: Words): string {
  if (reading.struck)
    return `crossed out by ${words.person(reading.struck.by)}, ${words.moment(reading.struck.doneAt)}: ${reading.struck.reason}`
  if (reading.superseded) {
    const { because, by, doneAt } = reading.superseded
    return `no longer counts: ${VOID[because]} by ${words.person(by)}, ${words.moment(doneAt)}`
  }
  return listed(reading.flags.map(flagWords))
}

/** `checked 24 Oct`, `last check not entered`. */
export const checkWords = (wrench: WrenchThen | undefined, date: (at: number) => string): string =>
  wrench?.lastCheckedAt === undefined ? 'last check not entered' : `checked ${date(wrench.lastCheckedAt)}`

/** Where one fastener stands, and what is missing. */
export function verdictWords(line: AuditLine): string {
  switch (line.verdict) {
    case 'open': {
      if (line.deferred) return `left out, due at ${line.deferred.dueStepId}`
      const toGo = line.passes.filter(({ state }) => state === 'open').length
      return `${counted(toGo, 'pass', 'passes')} to go`
    }
    case 'flagged':
      return 'flagged'
    case 'final':
      if (!line.first) return 'final, not signed'
      return line.look ? 'final, look noted, not signed' : 'final, needs a second signature'
    case 'accepted':
      return 'accepted with a reason'
    case 'proven':
      return 'signed off'
  }
}

export type Counted = Record<Verdict, number> & { fasteners: number; entries: number }

export function countLines(lines: readonly AuditLine[]): Counted {
  const none = { open: 0, flagged: 0, final: 0, accepted: 0, proven: 0 }
  const all: Counted = { fasteners: lines.length, entries: 0, ...none }
  for (const line of lines) {
    all[line.verdict]++
    all.entries += readingsOf(line).length
  }
  return all
}

/** `180 fasteners, 262 readings: 96 signed off, 80 open; 6 looked at again: 6 open`. A re-check counts no fastener twice. */
export function countWords(lines: readonly AuditLine[]): string {
  const fitted = lines.filter(({ recheckOf }) => recheckOf === undefined)
  const again = lines.filter(({ recheckOf }) => recheckOf !== undefined)
  const all = countLines(fitted)
  const readings = counted(countLines(lines).entries, 'reading')
  const words = withVerdicts(`${counted(all.fasteners, 'fastener')}, ${readings}`, all)
  return again.length === 0
    ? words
    : `${words}; ${withVerdicts(`${again.length} looked at again`, countLines(again))}`
}

function withVerdicts(words: string, all: Counted): string {
  const verdicts = (['proven', 'accepted', 'final', 'flagged', 'open'] as const)
    .filter((verdict) => all[verdict] > 0)
    .map((verdict) => `${all[verdict]} ${verdict === 'proven' ? 'signed off' : verdict}`)
  return verdicts.length > 0 ? `${words}: ${verdicts.join(', ')}` : words
}

/** People and wrenches that occur in the record, for the filter's lists. */
export function occurring(lines: readonly AuditLine[]): { people: string[]; wrenches: string[] } {
  const people = new Set<string>()
  const wrenches = new Set<string>()
  for (const line of lines) {
    for (const signature of [line.first, line.second, ...line.waivers])
      if (signature) people.add(signature.by)
    for (const { by, wrenchId } of readingsOf(line)) {
      people.add(by)
      if (wrenchId !== undefined) wrenches.add(wrenchId)
    }
  }
  return { people: [...people], wrenches: [...wrenches].sort() }
}

/** One row of the table: a pass of a fastener, or an earlier entry beneath it. */
export interface Row {
  line: AuditLine
  pass: RecordPass
  reading?: Reading
  /** Struck, superseded, or not what the pass asked. */
  earlier: boolean
  /** The first row of its fastener, which carries signatures and verdict. */
  lead: boolean
}

/** What stands first, earlier entries beneath it, the newest of them first. */
export function rowsOf(line: AuditLine): Row[] {
  return line.passes
    .flatMap((pass): Row[] => [
      { line, pass, ...(pass.reading ? { reading: pass.reading } : {}), earlier: false, lead: false },
      ...pass.earlier
        .toReversed()
        .map((reading): Row => ({ line, pass, reading, earlier: true, lead: false })),
    ])
    .map((row, index) => ({ ...row, lead: index === 0 }))
}

/** Whether two folds say the same of this fastener: the fold shares what did not change, so identity tells. */
export function sameLine(a: AuditLine, b: AuditLine): boolean {
  return (
    a === b ||
    (a.joint === b.joint &&
      a.position === b.position &&
      a.verdict === b.verdict &&
      a.first === b.first &&
      a.second === b.second &&
      a.look === b.look &&
      a.fastener === b.fastener &&
      a.deferred === b.deferred &&
      a.waivers.length === b.waivers.length &&
      a.passes.every((pass, index) => {
        const other = b.passes[index]
        return (
          other !== undefined &&
          pass.reading === other.reading &&
          pass.earlier.length === other.earlier.length &&
          pass.earlier.every((reading, at) => reading === other.earlier[at])
        )
      }))
  )
}
