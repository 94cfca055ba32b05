/** The rows beside the log that a turn changes: how each job looks on the board, and its readings. */
import { isFinished } from '../../shared/job/reason'
import type { Cell, JobSummary } from '../../shared/job/summary'
import type { Job, Reading } from '../../shared/job/types'
import type { Instant } from '../../shared/log'
import type { FinishedJob } from '../../shared/protocol'
import { plainJson, type ReadingRow, RowDamaged, type SummaryRow } from '../store'

/** A summary never changes in place, nor do its cells, which it shares with the ones before it. */
const encoded = new WeakMap<JobSummary | Cell, string>()

/** A summary as JSON text, encoded once: for its row, for every board that watches, for whoever asks for the board. */
export const jsonOf = (summary: JobSummary): string => once(summary, encode)

function encode({ cells, ...rest }: JobSummary): string {
  const list = cells.map((cell) => once(cell, plainJson)).join(',')
  return `${plainJson(rest).slice(0, -1)},"cells":[${list}]}`
}

function once<What extends JobSummary | Cell>(what: What, encodeIt: (what: What) => string): string {
  const json = encoded.get(what) ?? encodeIt(what)
  encoded.set(what, json)
  return json
}

/** What a row holds. Throws `RowDamaged`. */
export function summaryIn({ jobId, json }: SummaryRow): JobSummary {
  try {
    const summary = JSON.parse(json) as JobSummary
    encoded.set(summary, json)
    return summary
  } catch {
    throw new RowDamaged('summary', jobId)
  }
}

export const summaryRow = (summary: JobSummary): SummaryRow => ({
  jobId: summary.id,
  number: summary.number,
  version: summary.version,
  json: jsonOf(summary),
  ...(finishedAt(summary) === undefined ? {} : { finishedAt: finishedAt(summary) }),
})

/** When anything was last entered of an engine released to its owner that no complaint came for since; else nothing. */
export const finishedAt = (summary: JobSummary): Instant | undefined =>
  isFinished(summary) ? summary.changedAt : undefined

export function finishedJob(row: SummaryRow): FinishedJob {
  const { id, number, engine, serial, owner, released } = summaryIn(row)
  return {
    id,
    number,
    engine,
    serial,
    owner,
    finishedAt: row.finishedAt ?? 0,
    ...(released ? { release: released.number } : {}),
  }
}

/** Readings that are new or stand otherwise than before; the fold keeps what did not change, by identity. */
export function changedReadings(before: Job | undefined, after: Job): ReadingRow[] {
  const rows: ReadingRow[] = []
  for (const [jointId, list] of Object.entries(after.readings)) {
    const earlier = before?.readings[jointId]
    if (earlier === list) continue
    list.forEach((reading, index) => {
      if (earlier?.[index] !== reading) rows.push(readingRow(after.id, reading))
    })
  }
  return rows
}

function readingRow(jobId: string, reading: Reading): ReadingRow {
  const { id, jointId, position, pass, how, wrenchId, torqueNm, angleDeg, flags, by, doneAt } = reading
  return {
    jobId,
    readingId: id,
    jointId,
    position,
    pass,
    how,
    ...(wrenchId === undefined ? {} : { wrenchId }),
    ...(torqueNm === undefined ? {} : { torqueNm }),
    ...(angleDeg === undefined ? {} : { angleDeg }),
    flags,
    by,
    doneAt,
    standing: !reading.struck && !reading.superseded,
  }
}
