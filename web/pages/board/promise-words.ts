/**
 * A promised date in words: the day, and how many working days are left or over.
 *
 * Working days are Monday to Friday; a shop's own holidays are not known here. There is no forecast in it.
 */
const dayWords = new Intl.DateTimeFormat('en-GB', {
  weekday: 'short',
  day: 'numeric',
  month: 'short',
  timeZone: 'UTC',
})
const DAY_MS = 86_400_000

/** The calendar day of a moment in this place, `YYYY-MM-DD`. */
export function dayOf(at: number): string {
  const date = new Date(at)
  const two = (n: number) => String(n).padStart(2, '0')
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`
}

const noon = (day: string): number => Date.parse(`${day}T12:00:00Z`)

/** Working days after `from`, up to and with `to`; negative when `to` lies before. */
export function workingDays(from: string, to: string): number {
  const back = noon(to) < noon(from)
  const [start, end] = back ? [noon(to), noon(from)] : [noon(from), noon(to)]
  let days = 0
  for (let at = start + DAY_MS; at <= end; at += DAY_MS) {
    const day = new Date(at).getUTCDay()
    if (day !== 0 && day !== 6) days += 1
  }
  return back ? -days || 0 : days
}

/** `Fri 27 Nov`. */
export const dateWords = (day: string): string => dayWords.format(noon(day)).replace(',', '')

export interface PromiseState {
  day: string
  left: string
  /** Past, and not released. */
  over: boolean
  /** Today, or the next two working days. */
  near: boolean
}

export function promiseState(promised: string, today: string): PromiseState {
  const days = workingDays(today, promised)
  const over = noon(promised) < noon(today)
  return { day: dateWords(promised), left: leftWords(promised, today, days), over, near: !over && days <= 2 }
}

function leftWords(promised: string, today: string, days: number): string {
  if (promised === today) return 'that is today'
  const count = Math.abs(days)
  if (noon(promised) > noon(today))
    return count === 0 ? 'before the next working day' : `${counted(count)} left`
  return count === 0 ? 'over since then' : `${counted(count)} over`
}

const counted = (days: number): string => (days === 1 ? '1 working day' : `${days} working days`)
