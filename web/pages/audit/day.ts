/** A day as this place writes it: `24 Oct 2026`. */
import type { Instant } from '../../../shared/log'

const day = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', year: 'numeric' })
const dayAndTime = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  hour: '2-digit',
  minute: '2-digit',
})

export const dayOf = (at: Instant): string => day.format(new Date(at))
/** For paper, which does not know what `today` was. */
export const dayAndTimeOf = (at: Instant): string => dayAndTime.format(new Date(at))
