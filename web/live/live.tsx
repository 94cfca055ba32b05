/** Everything live on this device, made once and handed down: clock, link, outbox, photos, session, shop, board. */
import {
  batch,
  createContext,
  createSignal,
  onCleanup,
  onMount,
  type ParentProps,
  useContext,
} from 'solid-js'
import type { JobCommand } from '../../shared/job/commands'
import { unsignedLook, unsignedWords } from '../../shared/job/looks'
import type { Answer, Fault } from '../../shared/protocol'
import { ClockProvider } from '../ui/clock'
import { type Board, makeBoard } from './board'
import { type Clock, makeClock } from './clock'
import { type Demo, makeDemo } from './demo'
import { makeEntryCount } from './entry-count'
import { lastEpoch, makeEpochs } from './epochs'
import { keepPages } from './kept-pages'
import { makeLatePhotos } from './late-photos'
import { type Link, makeLink } from './link'
import { type LostEntries, makeLostEntries } from './lost-entries'
import { commandIdOf, isRefused, makeOutbox, type Outbox, type QueuedCommand } from './outbox'
import type { Photos } from './photos'
import type { Unheld } from './retry-queue'
import { makeSealedSeconds, type SealedSeconds } from './sealed-seconds'
import { makeSeen, type Seen } from './seen'
import { makeSender, type Sender } from './sender'
import { isOwnShop, makeSession, type Session } from './session'
import { makeShopReplica, type ShopReplica } from './shop'
import { askToStay } from './staying'
import { askBeforeLeaving } from './unheld'

export interface Live extends Sender {
  clock: Clock
  link: Link
  outbox: Outbox
  photos: Photos
  session: Session
  shop: ShopReplica
  board: Board
  seen: Seen
  /** Whether this page could be opened again without the server. */
  opensAlone(): boolean
  demo: Demo
  /** Commands of this device that the server has not answered, or has refused. */
  entries(): readonly QueuedCommand[]
  /** Of one of them: whether it outlives this page. */
  isKept(commandId: string): boolean
  /** Of one of them: whether it was tried so often in vain that the others go first. */
  isAside(commandId: string): boolean
  /** Why, for each that only this page holds. */
  unkept(): readonly Unheld[]
  /** Whether the browser has agreed not to clear what it keeps by itself. */
  stays(): boolean
  /** Second signatures by PIN while there is no signal. */
  sealedSeconds: SealedSeconds
  /** What was entered here and never reached the shop. */
  lostEntries: Pick<LostEntries, 'lost' | 'putAside'>
}

/** Signed in after all, yet turned away: the next try waits a little. */
const TURNED_AWAY_MS = 3000

export function makeLive(): Live {
  const clock = makeClock()
  const link = makeLink(clock)
  const demo = makeDemo(clock, link)
  const session = makeSession(
    clock,
    (signedIn) => {
      if (signedIn) link.renew()
      else link.close()
    },
    demo.take,
  )
  const outbox = makeOutbox({
    send: async (entry) => {
      if (!(await isOwnShop(session))) throw new Error('another shop')
      return link.send(entry, await sealedOf(entry))
    },
    linked: () => link.state() === 'live',
    unmet(_, answer) {
      const look = answer.ok ? unsignedLook(answer.events) : undefined
      return look && { code: look.flag, sentence: unsignedWords(look, session.words) }
    },
    // Not part of the first page: what is entered before it is here waits for it a moment.
    shelf: session.shopKnown.then(async (key) => (await import('./entry-shelf')).openEntryShelf(key)),
  })
  const pins = openedOnce(async () => {
    const { openSealedPins, sealPin } = await import('./sealed-pins')
    return { store: await openSealedPins(await session.shopKnown), seal: sealPin }
  })
  const sealedOf = async ({ command }: QueuedCommand) =>
    'look' in command && command.look ? (await pins()).store.of(command.commandId) : undefined
  outbox.onAnswer(({ command }) => {
    if ('look' in command && command.look) void pins().then(({ store }) => store.drop(command.commandId))
  })
  const seen = makeSeen(session.shopKnown, { here: () => epochs.here(), last: lastEpoch }, clock.now)
  const shop = makeShopReplica(link, outbox, () => void session.readPeople(), seen)
  const [entries, setEntries] = createSignal(outbox.entries())
  outbox.onChange(setEntries)
  const [changes, setChanges] = createSignal(0)
  outbox.onAnyChange(() => setChanges((count) => count + 1))
  const tracked =
    <A extends unknown[], V>(of: (...args: A) => V) =>
    (...args: A): V => {
      changes()
      return of(...args)
    }
  const epochs = makeEpochs({
    shopKnown: session.shopKnown,
    shopKey: session.shopKey,
    async isStillOurs() {
      await session.refresh()
      return isOwnShop(session)
    },
    acknowledged: session.shopKnown.then(openAcknowledged).catch(() => undefined),
    outbox,
    forgetSeen: seen.forget,
    reload: () => location.reload(),
  })
  link.on('epoch', (epoch) => void epochs.told(epoch).catch(() => undefined))
  link.onUp(outbox.wake)
  link.onTurnedAway(async () => {
    await session.refresh()
    if (session.signInId()) setTimeout(link.open, TURNED_AWAY_MS)
  })

  const count = makeEntryCount(session.shopKey)
  outbox.onAnswer(({ command }, answer) => {
    // A server one version older may have taken it without its number.
    if (!answer.ok || link.outdated() === 'older') count.refused(command.entryNumber)
  })
  const lostEntries = makeLostEntries({ count, outbox })
  link.onUp(() => void lostEntries.look())
  // Also so that what seals a PIN is here before the signal goes.
  link.onUp(() => void sweepPins().catch(() => undefined))
  async function sweepPins(): Promise<void> {
    const { store } = await pins()
    const waiting = (await outbox.everywhere()).filter((entry) => !isRefused(entry))
    await store.sweep(new Set(waiting.map(commandIdOf)))
  }
  const sender = makeSender({ clock, session, outbox, count })
  const sealedSeconds = makeSealedSeconds({ session, sender, pins })
  const photos = makeLatePhotos({ session, link, outbox, sender })
  askBeforeLeaving(() => outbox.unkept().length + photos.now().unheld.length > 0)
  return {
    clock,
    link,
    outbox,
    photos,
    session,
    shop,
    board: makeBoard(link, seen),
    seen,
    opensAlone: keepPages(),
    demo,
    entries,
    isKept: tracked(outbox.isKept),
    isAside: tracked(outbox.isAside),
    unkept: tracked(outbox.unkept),
    lostEntries,
    stays: askToStay(outbox),
    sealedSeconds,
    ...sender,
  }
}

/** Opened at the first need, and once. */
function openedOnce<V>(open: () => Promise<V>): () => Promise<V> {
  let opened: Promise<V> | undefined
  return () =>
    (opened ??= open().catch((error: unknown) => {
      opened = undefined
      throw error
    }))
}

/** With the other stores, not part of the first page. */
async function openAcknowledged(shopKey: string) {
  const [{ keepAcknowledged }, { openDeviceStore }] = await Promise.all([
    import('./acknowledged'),
    import('./device-store'),
  ])
  return keepAcknowledged(await openDeviceStore(`paintmark-taken-${shopKey}`, 'entries'))
}

const LiveContext = createContext<Live>()

export function LiveProvider(props: ParentProps) {
  const live = batch(makeLive)
  onMount(() => void live.session.refresh())
  // Somebody who changed person in another tab is seen here too, when this one is looked at again.
  const look = () => document.visibilityState === 'visible' && void live.session.refresh()
  document.addEventListener('visibilitychange', look)
  onCleanup(() => {
    document.removeEventListener('visibilitychange', look)
    live.link.close()
  })
  return (
    <LiveContext.Provider value={live}>
      <ClockProvider now={live.clock.now}>{props.children}</ClockProvider>
    </LiveContext.Provider>
  )
}

export function useLive(): Live {
  const live = useContext(LiveContext)
  if (!live) throw new Error('useLive is called outside LiveProvider')
  return live
}

/** Whether the part of the page that asked is still there. */
export function useStillThere(): () => boolean {
  let there = true
  onCleanup(() => {
    there = false
  })
  return () => there
}

/** For a form that waits for the answer and shows it; once the form is gone, a refusal is told on the job's page. */
export function useSendAndWait(): (jobId: string, command: JobCommand) => Promise<Answer | Fault> {
  const { sendToJob } = useLive()
  const explains = useStillThere()
  return (jobId, command) => sendToJob(jobId, command, { explains })
}

export const useSession = (): Session => useLive().session

/** The board, watched while the page that asked is open. */
export function useBoard(): Board {
  const { board } = useLive()
  onCleanup(board.watch())
  return board
}

/** The shop, watched while the page that asked is open. */
export function useShop(): ShopReplica {
  const { shop } = useLive()
  onCleanup(shop.watch())
  return shop
}
