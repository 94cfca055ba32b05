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
import { v7 as uuid } from 'uuid'
import type { JobCommand } from '../../shared/job/types'
import type { Answer, Fault } from '../../shared/protocol'
import { ClockProvider } from '../ui/clock'
import { type Board, makeBoard } from './board'
import { type Clock, makeClock } from './clock'
import { type Demo, makeDemo } from './demo'
import { type Link, makeLink } from './link'
import { type Kept, makeOutbox, type Outbox } from './outbox'
import { makePhotos, type Photos } from './photos'
import { makeSession, type Session } from './session'
import { makeShopReplica, type ShopReplica } from './shop'

export interface Live {
  clock: Clock
  link: Link
  outbox: Outbox
  photos: Photos
  session: Session
  shop: ShopReplica
  board: Board
  demo: Demo
  /** Entries on this device that the server has not answered. */
  waiting(): number
  /** Sends without showing anything ahead of the answer: for opening a job and adopting a plan. */
  sendAndWait(jobId: string, command: JobCommand): Promise<Answer | Fault>
}

export const headOf = (clock: Clock, session: Session) => {
  const signInId = session.signInId()
  return {
    commandId: uuid(),
    doneAt: clock.now(),
    clockOffsetMs: clock.offsetMs(),
    ...(signInId ? { signInId } : {}),
  }
}

/** Signed in after all, yet turned away: the next try waits a little. */
const TURNED_AWAY_MS = 3000

function makeLive(): Live {
  const clock = makeClock()
  const link = makeLink(clock)
  const outbox = makeOutbox({ send: link.send })
  const demo = makeDemo(clock, link)
  const session = makeSession(
    clock,
    (signedIn) => {
      if (signedIn) link.renew()
      else link.close()
    },
    demo.take,
  )
  const shop = makeShopReplica(link, () => void session.readPeople())
  const [waiting, setWaiting] = createSignal(0)
  outbox.onChange((kept) => setWaiting(kept.length))
  link.onUp(outbox.wake)
  link.onTurnedAway(async () => {
    await session.refresh()
    if (session.signInId()) setTimeout(link.open, TURNED_AWAY_MS)
  })
  const sendAndWait: Live['sendAndWait'] = (jobId, command) => {
    const kept: Kept = { stream: `job:${jobId}`, command: { ...headOf(clock, session), ...command } }
    return outbox.add(kept)
  }
  return {
    clock,
    link,
    outbox,
    photos: makePhotos({ session, link, outbox, sendAndWait }),
    session,
    shop,
    board: makeBoard(link),
    demo,
    waiting,
    sendAndWait,
  }
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
