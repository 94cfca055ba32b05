/** Looking up engines that left the shop: what is asked, and what is found. */
import type { Calendar } from '../../../shared/format'
import type { FinishedJob } from '../../../shared/protocol'
import { format } from '../../format'
import { ask, type Failure, isFailure } from '../../live/http'

export type Question = { number: string } | { year: number }

/** No log is older than the clock its moments are counted by. */
const FIRST_YEAR = 1970

/** The year somebody entered, where the shop can have had it. */
export function yearIn(text: string, thisYear: number): number | undefined {
  const year = /^\s*\d{4}\s*$/.test(text) ? Number(text) : Number.NaN
  return year >= FIRST_YEAR && year <= thisYear ? year : undefined
}

export const yearHint = (thisYear: number): string =>
  `Enter a year from ${FIRST_YEAR} to ${thisYear}, with four digits.`

/** A number as it was typed; a year from its first midnight in the shop to the next one's. */
export function pathOf(question: Question, { startOf }: Calendar = format.calendar): string {
  if ('number' in question) return `/api/finished?number=${encodeURIComponent(question.number)}`
  const [from, until] = [question.year, question.year + 1].map((year) => startOf(`${year}-01-01`))
  return `/api/finished?from=${from}&until=${until}`
}

/** What left last stands first. */
export async function lookUp(question: Question): Promise<FinishedJob[] | Failure> {
  const answer = await ask<{ jobs: FinishedJob[] }>(pathOf(question))
  return isFailure(answer) ? answer : answer.jobs.toSorted((a, b) => b.finishedAt - a.finishedAt)
}
