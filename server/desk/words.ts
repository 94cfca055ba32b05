/** What sentences need from this shop: its people's names, and times as its own clock on the wall shows them. */
import type { Instant } from '../../shared/log'
import type { Shop } from '../../shared/shop/types'
import type { Words } from '../../shared/words'

const DAY = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short' })
const YEAR = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', year: 'numeric' })
const TIME = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' })

export function wordsOf(shop: Shop, now: Instant): Words {
  return {
    person: (id) => shop.people[id]?.name ?? id,
    moment(at) {
      const time = TIME.format(at)
      if (DAY.format(at) === DAY.format(now) && YEAR.format(at) === YEAR.format(now)) return time
      const sameYear = YEAR.format(at).slice(-4) === YEAR.format(now).slice(-4)
      return `${(sameYear ? DAY : YEAR).format(at)} ${time}`
    },
  }
}
