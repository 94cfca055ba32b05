/**
 * One job for a page: `useJob(id)` answers taps at once and tells what the server said about them.
 *
 * The fold shares what did not change, so signals and memos that compare by identity redraw one bolt for one reading.
 * A Solid store is not used on purpose: `reconcile` would write into objects the confirmed state still holds.
 * A replica outlives its page while something is pending or refused, and a little longer, so that going from the
 * engine to its bench asks for nothing twice.
 */
import { batch, createEffect, createMemo, createRoot, createSignal, on, onCleanup } from 'solid-js'
import type { Context } from '../../shared/job/context'
import { decide } from '../../shared/job/decide'
import type { RefusalCode } from '../../shared/job/refusals'
import type { Job, JobCommand } from '../../shared/job/types'
import { isRefusal, type Refusal } from '../../shared/log'
import type { Answer, Fault, Here, Place, SentJobCommand } from '../../shared/protocol'
import type { Shop } from '../../shared/shop/types'
import type { LinkState, Watcher } from './link'
import { headOf, type Live, useLive } from './live'
import {
  addPending,
  dismiss,
  hasGap,
  type JobStreamEvent,
  newReplica,
  type Pending,
  type RefusedEntry,
  type Replica,
  receiveEvents,
  receiveState,
  settle,
  withShop,
} from './replica'
import type { Grant } from './session'

export type { Grant } from './session'

export interface JobView {
  /** With everything pending on top. */
  job(): Job
  confirmed(): Job
  /** False until the server has told this job. */
  known(): boolean
  /** The server's word when there is no such job, or nobody is signed in. */
  problem(): string | undefined
  shop(): Shop
  pending(): readonly Pending[]
  refused(): readonly RefusedEntry[]
  dismiss(commandId: string): void
  send(command: JobCommand, grant?: Grant): Promise<Answer | Fault>
  /** What the rules would say to it now; nothing when they allow it. */
  may(command: JobCommand, grant?: Grant): Refusal<RefusalCode> | undefined
  link(): LinkState
  /** Who else has this job open. */
  here(): readonly Here[]
  /** Tells the others which page this is. */
  at(place: Place): void
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

export function useJob(jobId: string): JobView {
  const live = useLive()
  const { session, clock, link, outbox, shop } = live
  const one = kept.get(jobId) ?? keep(live, jobId)
  kept.set(jobId, one)
  const leave = one.enter()
  onCleanup(() => {
    link.present()
    leave()
  })

  const context = (
    head: { commandId: string; doneAt: number; clockOffsetMs?: number },
    grant?: Grant,
  ): Context => ({
    shop: shop.shop(),
    by: grant?.by ?? session.person()?.id ?? '',
    doneAt: head.doneAt,
    ...(head.clockOffsetMs === undefined ? {} : { clockOffsetMs: head.clockOffsetMs }),
    commandId: head.commandId,
    through: grant ? 'grant' : 'sign_in',
    ...(grant ? { sawVersion: grant.sawVersion } : {}),
  })

  return {
    job: createMemo(() => one.replica().job),
    confirmed: createMemo(() => one.replica().confirmed),
    known: createMemo(() => one.replica().known),
    problem: one.problem,
    shop: shop.shop,
    pending: createMemo(() => one.replica().pending),
    refused: createMemo(() => one.replica().refused),
    dismiss: (commandId) => one.change((now) => dismiss(now, commandId)),
    send(command, grant) {
      const head = headOf(clock, session)
      const sent: SentJobCommand = { ...head, ...(grant ? { grantId: grant.id } : {}), ...command }
      one.change((now) => addPending(now, command, context(head, grant)))
      return outbox.add({ stream: `job:${jobId}`, command: sent })
    },
    may(command, grant) {
      const outcome = decide(
        one.replica().job,
        command,
        context({ commandId: 'may-i', doneAt: clock.now() }, grant),
      )
      return isRefusal(outcome) ? (outcome as Refusal<RefusalCode>) : undefined
    },
    link: link.state,
    here: one.here,
    at: (place) => link.present(jobId, place),
  }
}
