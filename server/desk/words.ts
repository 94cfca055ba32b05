/** What sentences need from this shop: its people's names, and times and numbers as it writes them. */
import type { Instant } from '../../shared/log'
import type { Shop } from '../../shared/shop/types'
import type { Words } from '../../shared/words'
import { format } from '../format'

export function wordsOf(shop: Shop, now: Instant): Words {
  return {
    ...format,
    person: (id) => shop.people[id]?.name ?? id,
    moment: (at) => format.moment(at, now),
  }
}
