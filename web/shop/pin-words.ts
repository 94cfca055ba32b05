/** When somebody's PIN was set and by whom, as the shop's entries tell it; never anything of the PIN. */
import { AT_THE_MACHINE, type Shop } from '../../shared/shop/types'
import type { Words } from '../../shared/words'
import { format } from '../format'

type Say = Pick<Words, 'person'>

/** `set on 12 Mar 2026 10:40 by Odile Fenn`. */
export function pinWords(shop: Shop, personId: string, words: Say): string {
  const set = shop.pins?.[personId]
  if (!set) return 'not known when it was set'
  const by =
    set.by === AT_THE_MACHINE
      ? 'at the server’s machine'
      : set.by === personId
        ? 'by themselves'
        : `by ${words.person(set.by)}`
  return `set on ${format.dateAndTime(set.at)} ${by}`
}

/** What somebody is told of a PIN that another set for them, and when that was; nothing where nobody did. */
export function pinNotice(
  shop: Shop,
  personId: string,
  words: Say,
): { at: number; sentence: string } | undefined {
  const set = shop.pins?.[personId]
  if (!set || set.by === personId) return undefined
  const { at, by } = set
  const when = format.dateAndTime(at)
  const sentence =
    by === AT_THE_MACHINE
      ? `A new PIN was set for you at the server’s machine on ${when}.`
      : `${words.person(by)} set a new PIN for you on ${when}.`
  return { at, sentence }
}
