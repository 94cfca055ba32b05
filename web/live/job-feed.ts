/**
 * One job's replica for the pages: watched, shown ahead of the server's answers, kept for whoever comes back.
 *
 * The fold shares what did not change, so signals and memos that compare by identity redraw one bolt for one reading.
 * A Solid store is not used on purpose: `reconcile` would write into objects the confirmed state still holds.
 * A replica outlives its page a little, so that going from the engine to its bench asks for nothing twice. It may be
 * dropped at any time: what is pending or refused stands in the outbox, and the next replica is made from there.
 */
import { batch, createEffect, createRoot, createSignal, on, onCleanup, untrack } from 'solid-js'
import type { JobCommand } from '../../shared/job/commands'
import type { Job } from '../../shared/job/types'
import type { Answer, Fault, Here, JobPage } from '../../shared/protocol'
import { earlyState } from './asked-early'
import type { Link, Watcher } from './link'
import { useLive } from './live'
import { type Outbox, type RefusedJobCommand, refusedIn, waitingIn } from './outbox'
import {
  acknowledge,
  hasGap,
  haveOf,
  type JobStreamEvent,
  newReplica,
  type Replica,
  receiveEvents,
  receiveState,
  withQueue,
  withShop,
} from './replica'
import type { Seen } from './seen'
import type { Grant } from './session'
import type { ShopReplica } from './shop'

export interface JobFeed {
  replica(): Replica
  /** Whether this device has looked for what it kept of the job. */
  looked(): boolean
  /** What is shown is of then, and not of now. */
  asOf(): number | undefined
  /** The server's word when there is no such job, or nobody is signed in. */
  problem(): string | undefined
  /** Who else has this job open. */
  here(): readonly Here[]
  /** Entries of this device that the server refused, whenever they were made, until dismissed. */
  refused(): readonly RefusedJobCommand[]
  dismiss(commandId: string): void
  send(command: JobCommand, grant?: Grant): Promise<Answer | Fault>
  /** What came after a version, up to what is shown; nothing where this device was not told all of it, or not yet. */
  since(version: number): readonly JobStreamEvent[] | undefined
}

/** What a feed is made of. */
export interface FeedParts {
  link: Pick<Link, 'watch' | 'resync' | 'on' | 'lostAt'>
  outbox: Pick<Outbox, 'entries' | 'onAnswer' | 'onChange'>
  shop: Pick<ShopReplica, 'shop' | 'watch'>
  seen?: Seen
}

const LINGER_MS = 60_000
/** The events between usually follow within a moment; asking at once would fetch them twice. */
const GAP_MS = 150

/** Of what came over the link. */
const MOST_RECENT = 200

const open = new Map<string, ReturnType<typeof openFeed>>()

/** Watches until `close` is called. */
export function openFeed({ link, outbox, shop, seen }: FeedParts, jobId: string) {
  const room = `job:${jobId}` as const
  const queued = () => waitingIn(outbox.entries(), room)
  const [replica, setReplica] = createSignal<Replica>(
    withQueue(newReplica(jobId, untrack(shop.shop)), queued()),
  )
  const [problem, setProblem] = createSignal<string>()
  /** When it stood so, until the server says how it stands now. */
  const [seenAt, setSeenAt] = createSignal<number>()
  const [looked, setLooked] = createSignal(false)
  const [here, setHere] = createSignal<readonly Here[]>([])
  let gapTimer: ReturnType<typeof setTimeout> | undefined

  const watcher: Watcher = {
    room,
    have: () => haveOf(replica()),
    watched(answer) {
      setProblem(undefined)
      setSeenAt()
      if ('state' in answer) change((now) => receiveState(now, answer.state as Job))
      else if ('events' in answer) {
        hear(answer.events as JobStreamEvent[])
        change((now) => receiveEvents(now, answer.events as JobStreamEvent[]))
      }
    },
    refused: ({ sentence }) => setProblem(sentence),
  }

  function change(how: (now: Replica) => Replica): void {
    batch(() => setReplica(how))
    if (!hasGap(replica()) || gapTimer) return
    gapTimer = setTimeout(() => {
      gapTimer = undefined
      if (hasGap(replica())) link.resync(watcher)
    }, GAP_MS)
  }

  /** The last that came, one after another. */
  let recent: JobStreamEvent[] = []
  function hear(events: readonly JobStreamEvent[]): void {
    for (const event of events) {
      const next = (recent.at(-1)?.version ?? event.version - 1) + 1
      if (event.version === next) recent.push(event)
      else if (event.version > next) recent = [event]
    }
    recent = recent.slice(-MOST_RECENT)
  }

  /** Told and not taken in yet. */
  let told: JobStreamEvent[] = []
  let toldTimer: ReturnType<typeof setTimeout> | undefined
  let freeAt = 0

  /** At once; but a page that had long to draw is given as long again for taps, and takes what comes meanwhile together. */
  function take(events: readonly JobStreamEvent[]): void {
    hear(events)
    told.push(...events)
    const waitMs = freeAt - performance.now()
    if (waitMs <= 0) takeTold()
    else toldTimer ??= setTimeout(takeTold, waitMs)
  }
  function takeTold(): void {
    clearTimeout(toldTimer)
    toldTimer = undefined
    if (told.length === 0) return
    const events = told
    told = []
    const begun = performance.now()
    change((now) => receiveEvents(now, events))
    const ended = performance.now()
    freeAt = ended + (ended - begun)
  }

  // As it was asked for with the page, or where the server is silent as it was seen last, until the link says; what waits
  // here is decided on it meanwhile.
  void earlyState(`/api/jobs/${jobId}`).then(async (state) => {
    const sight = state ? undefined : await seen?.load(room)
    const first = state ?? sight?.state
    if (first && !replica().known) {
      setSeenAt(sight?.at)
      change((now) => receiveState(now, first as Job))
    }
    setLooked(true)
  })
  const confirmed = () => replica().confirmed

  const stops = [
    createRoot((stop) => {
      createEffect(on(shop.shop, (now) => change((replica) => withShop(replica, now))))
      createEffect(
        on(confirmed, ({ version }) => version > 0 && seen?.keep(room, confirmed), { defer: true }),
      )
      return stop
    }),
    link.watch(watcher),
    shop.watch(),
    link.on('events', (message) => {
      if (message.room === room) take(message.events as JobStreamEvent[])
    }),
    link.on('presence', (message) => {
      if (message.jobId === jobId) setHere(message.here)
    }),
    outbox.onAnswer(({ stream, command }, answer) => {
      if (stream !== room || !answer.ok) return
      takeTold()
      hear(answer.events as JobStreamEvent[])
      change((now) => acknowledge(now, command.commandId, answer))
    }),
    outbox.onChange(() => change((now) => withQueue(now, queued()))),
  ]

  return {
    replica,
    looked,
    asOf: () => seenAt() ?? link.lostAt(),
    problem,
    here,
    since(version: number) {
      const after = recent.filter((event) => event.version > version)
      return after[0]?.version === version + 1 && after.at(-1)?.version === replica().job.version
        ? after
        : undefined
    },
    users: 0,
    close() {
      clearTimeout(gapTimer)
      clearTimeout(toldTimer)
      for (const stop of stops) stop()
    },
  }
}

/** A job some page has open, or had a moment ago. */
export const openJob = (jobId: string): Job | undefined => open.get(jobId)?.replica().job

export function useJobFeed(jobId: string, place: JobPage): JobFeed {
  const live = useLive()
  const feed = open.get(jobId) ?? openFeed(live, jobId)
  open.set(jobId, feed)
  feed.users += 1
  // After the page before has gone, which tells the others that nobody is here.
  createEffect(() => live.link.present(jobId, place))
  onCleanup(() => {
    live.link.present()
    feed.users -= 1
    setTimeout(() => {
      if (feed.users > 0 || open.get(jobId) !== feed) return
      feed.close()
      open.delete(jobId)
    }, LINGER_MS)
  })
  return {
    replica: feed.replica,
    looked: feed.looked,
    asOf: feed.asOf,
    problem: feed.problem,
    here: feed.here,
    since: feed.since,
    refused: () => refusedIn(live.entries(), `job:${jobId}`),
    dismiss: live.outbox.dismiss,
    send: (command, grant) => live.sendToJob(jobId, command, { grant }),
  }
}
