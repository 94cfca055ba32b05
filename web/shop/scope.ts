/** What the parts of the shop page need of the shop: it as it stands, what the rules would say, and a way to send. */
import { isRefusal } from '../../shared/log'
import { decideShop } from '../../shared/shop/decide'
import { shopSentenceFor } from '../../shared/shop/refusals'
import type { ShopCommand } from '../../shared/shop/types'
import { format } from '../format'
import { useLive, useShop, useStillThere } from '../live/live'
import { refusedIn } from '../live/outbox'

export type ShopScope = ReturnType<typeof useShopScope>

export function useShopScope() {
  const live = useLive()
  const { shop, known } = useShop()
  return {
    shop,
    known,
    now: live.clock.now,
    me: () => live.session.person()?.id ?? '',
    mayEdit: () => live.session.leads(),
    /** What was refused when nobody was there to read it. */
    refused: () => refusedIn(live.entries(), 'shop'),
    dismiss: live.outbox.dismiss,
    noSignal: () => live.link.state() !== 'live',
    /** What the rules would refuse it with, or nothing. Not for plans: this device has only their headers. */
    may(command: Exclude<ShopCommand, { type: 'AddPlan' }>): { code: string; sentence: string } | undefined {
      const by = live.session.person()?.id ?? ''
      const outcome = decideShop(shop(), command, { by, doneAt: live.clock.now(), figures: format })
      return isRefusal(outcome)
        ? { code: outcome.refused, sentence: shopSentenceFor(outcome) ?? outcome.refused }
        : undefined
    },
  }
}

/**
 * For a form, which shows a refusal itself while it is there; once it is gone, the shop page tells. Waits for the
 * server's word: nothing when it is written, else the sentence that says why not.
 */
export function useShopSend(): (command: ShopCommand) => Promise<string | undefined> {
  const { sendToShop, session } = useLive()
  const explains = useStillThere()
  return async (command) => {
    const answer = await sendToShop(command, { explains })
    if (!answer.ok) return answer.sentence
    // One's own name and paint stand in the top bar, which the sign-in gave.
    if (command.type === 'ChangePerson' && command.person.id === session.person()?.id) await session.refresh()
    return undefined
  }
}
