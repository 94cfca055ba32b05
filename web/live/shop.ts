/** The shop's own stream on this device: people, wrenches, tolerances, and the headers of the plan library. */
import { batch, createSignal } from 'solid-js'
import type { StreamEvent } from '../../shared/log'
import { evolveShop, newShop } from '../../shared/shop/evolve'
import type { Shop, ShopEvent } from '../../shared/shop/types'
import { earlyState } from './asked-early'
import type { Link, Watcher } from './link'
import type { Outbox } from './outbox'
import type { Seen } from './seen'

export type ShopReplica = ReturnType<typeof makeShopReplica>

export function makeShopReplica(
  link: Pick<Link, 'watch' | 'resync' | 'on'>,
  outbox: Pick<Outbox, 'onAnswer'>,
  onPeople: () => void,
  seen: Seen,
) {
  const [shop, setShop] = createSignal<Shop>(newShop())
  const [known, setKnown] = createSignal(false)
  /** A newer build's event came: only the state helps. */
  let behind = false

  const watcher: Watcher = {
    room: 'shop',
    have: () => (known() && !behind ? shop().version : undefined),
    watched(answer) {
      if ('state' in answer) {
        behind = false
        setShop(answer.state as Shop)
      } else if ('events' in answer) take(answer.events as StreamEvent<ShopEvent>[])
      setKnown(true)
      seen.keep('shop', shop)
    },
  }
  void earlyState('/api/shop')
    .then(async (state) => state ?? (await seen.load('shop'))?.state)
    .then((state) => {
      if (!state || known()) return
      batch(() => {
        setShop(state as Shop)
        setKnown(true)
      })
    })

  function take(events: readonly StreamEvent<ShopEvent>[]): void {
    // The first word is the whole shop, which is asked for when the link is up.
    if (!known()) return
    let now = shop()
    for (const { version, event } of events) {
      if (version <= now.version) continue
      if (version > now.version + 1) {
        link.resync(watcher)
        break
      }
      const next = evolveShop(now, event) as Shop | undefined
      if (!next) {
        behind = true
        link.resync(watcher)
        break
      }
      now = next
      if (['PersonAdded', 'PersonChanged', 'PersonLeft'].includes(event.type)) onPeople()
    }
    setShop(now)
    seen.keep('shop', shop)
  }

  link.on('events', (message) => {
    if (message.room === 'shop') take(message.events as StreamEvent<ShopEvent>[])
  })
  // Whoever sent it is not told by broadcast, and the form may be gone by now.
  outbox.onAnswer(({ stream }, answer) => {
    if (stream === 'shop' && answer.ok) take(answer.events as StreamEvent<ShopEvent>[])
  })

  return { shop, known, watch: () => link.watch(watcher) }
}
