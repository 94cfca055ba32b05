/** The rows beside the log that a turn changes: how each job looks on the board, and its readings. */
import type { JobSummary } from '../../shared/job/summary'
import type { Job, Reading } from '../../shared/job/types'
import type { ReadingRow, SummaryRow } from '../store'

export const summaryRow = (summary: JobSummary): SummaryRow => ({
  jobId: summary.id,
  number: summary.number,
  version: summary.version,
  summary,
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
