/**
 * A promised date in words: the day, and how many working days are left or over.
 *
 * Working days are Monday to Friday; a shop's own holidays are not known here. There is no forecast in it.
 */

import { type Day, workingDays } from '../../shared/format'
import { counted } from '../../shared/words'
import { format } from '../format'

interface PromiseState {
  day: string
  left: string
  /** Past, and not released. */
  over: boolean
  /** Today, or the next two working days. */
  near: boolean
}

export function promiseState(promised: Day, today: Day): PromiseState {
  const days = workingDays(today, promised)
  const over = promised < today
  return {
    day: format.weekdayAndDate(promised),
    left: leftWords(promised, today, days),
    over,
    near: !over && days <= 2,
  }
}

function leftWords(promised: Day, today: Day, days: number): string {
  if (promised === today) return 'that is today'
  const count = Math.abs(days)
  if (promised > today)
    return count === 0 ? 'before the next working day' : `${counted(count, 'working day')} left`
  return count === 0 ? 'over since then' : `${counted(count, 'working day')} over`
}
