/**
 * One job's replica for a page: watched, shown ahead of the server's answers, kept for whoever comes back.
 *
 * The fold shares what did not change, so signals and memos that compare by identity redraw one bolt for one reading.
 * A Solid store is not used on purpose: `reconcile` would write into objects the confirmed state still holds.
 * A replica outlives its page while something is pending or refused, and a little longer, so that going from the
 * engine to its bench asks for nothing twice.
 */
import { batch, createEffect, createRoot, createSignal, on, onCleanup } from 'solid-js'
import type { Context } from '../../shared/job/context'
import type { Job, JobCommand } from '../../shared/job/types'
import type { Answer, Fault, Here, Place, SentJobCommand } from '../../shared/protocol'
import type { Watcher } from './link'
import { headOf, type Live, useLive } from './live'
import {
  addPending,
  dismiss,
  hasGap,
  type JobStreamEvent,
  newReplica,
  type Replica,
  receiveEvents,
  receiveState,
  settle,
  withShop,
} from './replica'
import { authorOf, type Grant } from './session'

export interface JobFeed {
  replica(): Replica
  /** The server's word when there is no such job, or nobody is signed in. */
  problem(): string | undefined
  /** Who else has this job open. */
  here(): readonly Here[]
  dismiss(commandId: string): void
  send(command: JobCommand, grant?: Grant): Promise<Answer | Fault>
}

const LINGER_MS = 60_000
/** The events between usually follow within a moment; asking at once would fetch them twice. */
const GAP_MS = 150

const kept = new Map<string, ReturnType<typeof keep>>()

function keep(live: Live, jobId: string) {
  const [replica, setReplica] = createSignal<Replica>(newReplica(jobId))
  const [problem, setProblem] = createSignal<string>()
  const [here, setHere] = createSignal<readonly Here[]>([])
  const room = `job:${jobId}` as const
  let users = 0
  let asking: ReturnType<typeof setTimeout> | undefined

  const watcher: Watcher = {
    room,
    have: () => (replica().known ? replica().confirmed.version : undefined),
    watched(answer) {
      setProblem(undefined)
      if ('state' in answer) change((now) => receiveState(now, answer.state as Job))
      else if ('events' in answer) change((now) => receiveEvents(now, answer.events as JobStreamEvent[]))
    },
    refused: ({ sentence }) => setProblem(sentence),
  }

  function change(how: (now: Replica) => Replica): void {
    batch(() => setReplica(how))
    if (!hasGap(replica()) || asking) return
    asking = setTimeout(() => {
      asking = undefined
      if (hasGap(replica())) live.link.again(watcher)
    }, GAP_MS)
  }

  const stops = [
    createRoot((stop) => {
      createEffect(on(live.shop.shop, (shop) => change((now) => withShop(now, shop))))
      return stop
    }),
    live.link.watch(watcher),
    live.shop.watch(),
    live.link.hear('events', (message) => {
      if (message.room === room) change((now) => receiveEvents(now, message.events as JobStreamEvent[]))
    }),
    live.link.hear('presence', (message) => {
      if (message.jobId === jobId) setHere(message.here)
    }),
    live.outbox.onSettled((one, answer) => {
      if (one.stream === room) change((now) => settle(now, one.command.commandId, answer))
    }),
  ]

  function leave(): void {
    users -= 1
    setTimeout(() => {
      const { pending, refused } = replica()
      if (users > 0 || pending.length > 0 || refused.length > 0 || kept.get(jobId) !== self) return
      for (const stop of stops) stop()
      kept.delete(jobId)
    }, LINGER_MS)
  }

  const self = {
    replica,
    problem,
    here,
    change,
    enter() {
      users += 1
      return leave
    },
  }
  return self
}

export function useJobFeed(jobId: string, place: Place): JobFeed {
  const live = useLive()
  const { session, clock, link, outbox, shop } = live
  const one = kept.get(jobId) ?? keep(live, jobId)
  kept.set(jobId, one)
  const leave = one.enter()
  link.present(jobId, place)
  onCleanup(() => {
    link.present()
    leave()
  })
  return {
    replica: one.replica,
    problem: one.problem,
    here: one.here,
    dismiss: (commandId) => one.change((now) => dismiss(now, commandId)),
    send(command, grant) {
      const head = headOf(clock, session)
      const { commandId, doneAt, clockOffsetMs } = head
      const author = authorOf(session.person()?.id, grant)
      const context: Context = { shop: shop.shop(), ...author, commandId, doneAt, clockOffsetMs }
      one.change((now) => addPending(now, command, context))
      const sent: SentJobCommand = { ...head, ...(grant ? { grantId: grant.id } : {}), ...command }
      return outbox.add({ stream: `job:${jobId}`, command: sent })
    },
  }
}
