/** Words for a hold that need no typing, and its expected day as a moment. Pure. */
import { dayFrom } from '../../../shared/format'
import type { HoldKind } from '../../../shared/job/types'
import { format } from '../../format'

export const HOLD_PRESETS: Record<HoldKind, readonly string[]> = {
  part: ['A part is missing', 'Wrong part came', 'Fasteners to order'],
  damage: ['Thread damaged', 'Part cracked', 'Surface scored'],
  tool: ['Wrench out for its check', 'Special tool in use', 'Tool missing'],
  outside_work: ['Out for machining', 'Out for cleaning', 'Out for testing'],
  approval: ['Owner to agree to extra work', 'Owner to agree to the price'],
  room: ['Stand is taken', 'Crane is taken', 'No room to lay parts out'],
  question: ['Value unclear', 'Ask the supervisor', 'Maker’s information to be found'],
}

/** Noon of a day `YYYY-MM-DD` in the shop: a day was said, not an hour. */
export const noonOf = (day: string): number | undefined =>
  dayFrom(day) ? format.calendar.at(day, '12:00') : undefined
