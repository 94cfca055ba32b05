/** The rows beside the log that a turn changes: how each job looks on the board, and its readings. */
import type { JobSummary } from '../../shared/job/summary'
import type { Job, Reading } from '../../shared/job/types'
import { plainJson, type ReadingRow, RowDamaged, type SummaryRow } from '../store'

const encoded = new WeakMap<JobSummary, string>()

/** A summary as JSON text, encoded once: for its row, for every board that watches, for whoever asks for the board. */
export function jsonOf(summary: JobSummary): string {
  const json = encoded.get(summary) ?? plainJson(summary)
  encoded.set(summary, json)
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
})

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
