/**
 * What changed on the board since somebody last looked at it. Kept per person on this device: for each engine the
 * version and the reason it had then.
 *
 * An engine counts as looked at when it was opened from the board, or when all are said to be seen; not by the
 * page merely having been open.
 */
import type { JobSummary } from '../../../shared/job/summary'
import { counted } from '../../../shared/words'

export interface Seen {
  version: number
  reason: string
  signed: number
}

export interface Looked {
  /** When all were last said to be seen, or first shown. */
  at: number
  jobs: Record<string, Seen>
}

export interface Change {
  jobId: string
  number: string
  now: string
  /** The reason it had; absent for an engine that is new here, or whose reason is the same. */
  before?: string
  /** What else: `3 more steps signed`. */
  also?: string
  /** When the line came to say this. */
  changedAt: number
}

type SentenceOf = (summary: JobSummary) => string

const seenOf = (summary: JobSummary, sentenceOf: SentenceOf): Seen => ({
  version: summary.version,
  reason: sentenceOf(summary),
  signed: summary.signed,
})

export function lookAtAll(summaries: readonly JobSummary[], sentenceOf: SentenceOf, at: number): Looked {
  return {
    at,
    jobs: Object.fromEntries(summaries.map((summary) => [summary.id, seenOf(summary, sentenceOf)])),
  }
}

export const lookAt = (looked: Looked, summary: JobSummary, sentenceOf: SentenceOf): Looked => ({
  ...looked,
  jobs: { ...looked.jobs, [summary.id]: seenOf(summary, sentenceOf) },
})

/**
 * A change that altered neither the reason nor a signature is not worth a line; nor does one that leaves the line in its
 * words, `before`, make it newer.
 */
export function changeOf(
  looked: Looked,
  summary: JobSummary,
  sentenceOf: SentenceOf,
  before?: Change,
): Change | undefined {
  const change = lineOf(looked, summary, sentenceOf)
  const same = before && change && LINE.every((part) => before[part] === change[part])
  return same ? before : change
}

const LINE = ['jobId', 'number', 'now', 'before', 'also'] as const

function lineOf(looked: Looked, summary: JobSummary, sentenceOf: SentenceOf): Change | undefined {
  const { id, number, version, signed } = summary
  const seen = Object.hasOwn(looked.jobs, id) ? looked.jobs[id] : undefined
  if (seen && seen.version >= version) return undefined
  const now = sentenceOf(summary)
  const changedAt = summary.changedAt ?? 0
  if (!seen) return { jobId: id, number, now, also: 'new on the board', changedAt }
  const also = signedWords(signed - seen.signed)
  const otherwise = seen.reason !== now
  if (!otherwise && !also) return undefined
  return {
    jobId: id,
    number,
    now,
    ...(otherwise ? { before: seen.reason } : {}),
    ...(also ? { also } : {}),
    changedAt,
  }
}

export const newestFirst = (changes: readonly Change[]): Change[] =>
  changes.toSorted((a, b) => b.changedAt - a.changedAt)

function signedWords(more: number): string | undefined {
  if (more === 0) return undefined
  return more > 0 ? `${counted(more, 'step')} more signed` : `${counted(-more, 'step')} lost a signature`
}

/** Where a person's look is kept on this device. */
export const keyOf = (person: string): string => `paintmark.looked.${person}`

export function readLooked(store: Pick<Storage, 'getItem'>, person: string): Looked | undefined {
  try {
    const stored: unknown = JSON.parse(store.getItem(keyOf(person)) ?? 'null')
    if (typeof stored !== 'object' || stored === null) return undefined
    const { at, jobs } = stored as Looked
    return typeof at === 'number' && typeof jobs === 'object' && jobs !== null ? { at, jobs } : undefined
  } catch {
    return undefined
  }
}

export function keepLooked(store: Pick<Storage, 'setItem'>, person: string, looked: Looked): void {
  try {
    store.setItem(keyOf(person), JSON.stringify(looked))
  } catch {
    // A full or forbidden store: the list works until the page is closed.
  }
}
