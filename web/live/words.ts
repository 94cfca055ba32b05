/** Names and moments as this place says them: `13:40` today, `24 Nov 13:40` on another day. */
import type { Instant } from '../../shared/log'
import type { Words } from '../../shared/words'

const time = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' })
const day = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short' })

export function makeWords(nameOf: (id: string) => string, now: () => Instant): Words {
  return {
    person: nameOf,
    moment(at) {
      const then = new Date(at)
      const today = new Date(now()).toDateString() === then.toDateString()
      return today ? time.format(then) : `${day.format(then)} ${time.format(then)}`
    },
  }
}
