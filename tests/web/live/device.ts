/** A device as its pages see it: a real outbox and real feeds, over a link to servers of one job each. */
import type { Answer, Fault } from '../../../shared/protocol'
import { openFeed } from '../../../web/live/job-feed'
import type { Watcher } from '../../../web/live/link'
import { commandIdOf, makeOutbox, type QueuedCommand } from '../../../web/live/outbox'
import { contextOf } from '../../../web/live/replica'
import { memoryShelf, type Shelf } from '../../../web/live/retry-queue'
import { testShop } from '../../shop/shop'
import type { openServer } from './one-job'

type Server = ReturnType<typeof openServer>

export const newShelf = () => memoryShelf<QueuedCommand>(commandIdOf)

/** Lets everything that can happen by itself happen. */
export const quiet = () => new Promise((resolve) => setTimeout(resolve, 2))

/** The shop’s stream here refuses whatever comes. */
const SHOP_REFUSAL: Answer = { ok: false, code: 'shop_role_needed', data: {}, sentence: 'Not yours.' }

/** `lost` is a link that tells what is asked, and on which commands arrive and their answers do not. */
export type LinkNow = 'up' | 'down' | 'lost'

export function openDevice(
  servers: Readonly<Record<string, Server>>,
  shelf: Shelf<QueuedCommand> = newShelf(),
  first: LinkNow = 'up',
) {
  const watchers = new Set<Watcher>()
  const sent: string[] = []
  let state = first

  function tell(watcher: Watcher): void {
    if (state === 'down') return
    const server = servers[watcher.room.slice('job:'.length)]
    if (!server) return
    const have = watcher.have()
    const now = 0
    watcher.watched(
      have === undefined
        ? { ok: true, room: watcher.room, state: server.job(), now }
        : { ok: true, room: watcher.room, from: have, events: server.after(have), now },
    )
  }

  async function send(entry: QueuedCommand): Promise<Answer | Fault> {
    if (state === 'down') throw new Error('no link')
    sent.push(commandIdOf(entry))
    const answer = answerOf(entry)
    if (state === 'lost') throw new Error('no answer')
    return answer
  }
  function answerOf(entry: QueuedCommand): Answer {
    if (entry.stream === 'shop') return SHOP_REFUSAL
    const server = servers[entry.stream.slice('job:'.length)]
    return server?.submit(entry.command, contextOf(entry, testShop)) ?? SHOP_REFUSAL
  }

  const outbox = makeOutbox({ send, shelf, wait: () => new Promise(() => undefined) })
  const link = {
    watch(watcher: Watcher) {
      watchers.add(watcher)
      tell(watcher)
      return () => void watchers.delete(watcher)
    },
    lostAt: () => undefined,
    resync: (watcher: Watcher) => void tell(watcher),
    on: () => () => undefined,
  }
  return {
    outbox,
    sent,
    open: (jobId: string) =>
      openFeed({ link, outbox, shop: { shop: () => testShop, watch: () => () => undefined } }, jobId),
    /** A link that is back tells what came after and wakes the outbox, as a reconnect does. */
    async link(next: LinkNow): Promise<void> {
      state = next
      if (next !== 'down') for (const watcher of watchers) tell(watcher)
      if (next !== 'down') outbox.wake()
      await quiet()
    },
  }
}
