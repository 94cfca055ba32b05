/**
 * What people entered and the server has not answered yet.
 *
 * Kept until acknowledged, sent one after another in the order they were made, each under the sign-in it was made
 * under; a resend keeps its command id, so it can never count twice. A server that cannot save just now is asked
 * again later; a refusal or a fault in the message itself is handed back with its sentence and never retried.
 * Where the entries lie is behind `Shelf`: memory here, a store that outlives a reload in a later issue.
 */
import type { Answer, Fault, SentJobCommand, SentShopCommand } from '../../shared/protocol'

export type Kept =
  | { stream: `job:${string}`; command: SentJobCommand }
  | { stream: 'shop'; command: SentShopCommand }

export interface Shelf {
  all(): Promise<Kept[]>
  put(kept: Kept): Promise<void>
  drop(commandId: string): Promise<void>
}

export function memoryShelf(): Shelf {
  const kept = new Map<string, Kept>()
  return {
    all: async () => [...kept.values()],
    put: async (one) => void kept.set(one.command.commandId, one),
    drop: async (id) => void kept.delete(id),
  }
}

export type Settled = (kept: Kept, answer: Answer | Fault) => void

export interface Outbox {
  /** Resolves with the final answer, however long that takes. */
  add(kept: Kept): Promise<Answer | Fault>
  /** The link is up, or somebody signed in: go on now. */
  wake(): void
  waiting(): readonly Kept[]
  onSettled(listener: Settled): () => void
  onChange(listener: (waiting: readonly Kept[]) => void): () => void
}

interface Options {
  /** Rejects when there is no link. */
  send(kept: Kept): Promise<Answer | Fault>
  shelf?: Shelf
  wait?(ms: number): Promise<void>
}

const FIRST_WAIT_MS = 500
const LONGEST_WAIT_MS = 20_000

/** Faults that pass by themselves; every other is about this very message. */
const TRY_AGAIN = new Set(['not_saved', 'too_many'])

export function makeOutbox({ send, shelf = memoryShelf(), wait = pause }: Options): Outbox {
  let queue: Kept[] = []
  let running = false
  let again = false
  const answered = new Map<string, (answer: Answer | Fault) => void>()
  const settled = new Set<Settled>()
  const changed = new Set<(waiting: readonly Kept[]) => void>()

  const tell = () => {
    for (const listener of changed) listener(queue)
  }

  const loaded = shelf.all().then((kept) => {
    const here = new Set(queue.map((one) => one.command.commandId))
    queue = [...kept.filter((one) => !here.has(one.command.commandId)), ...queue]
    if (kept.length > 0) tell()
  })

  async function settle(kept: Kept, answer: Answer | Fault): Promise<void> {
    queue = queue.filter((one) => one !== kept)
    const id = kept.command.commandId
    // The listeners come first: what the answer changes shows in the same moment as the entry leaves.
    for (const listener of settled) listener(kept, answer)
    answered.get(id)?.(answer)
    answered.delete(id)
    tell()
    await shelf.drop(id)
  }

  async function run(): Promise<void> {
    await loaded
    let waitMs = FIRST_WAIT_MS
    for (let kept = queue[0]; kept; kept = queue[0]) {
      again = false
      const answer = await send(kept).catch(() => undefined)
      if (!answer) {
        // No link: `wake` starts the run again, at once if the link came back meanwhile.
        if (again) continue
        return
      }
      if (!answer.ok && answer.code === 'signed_out' && !again) return
      if (!answer.ok && TRY_AGAIN.has(answer.code)) {
        await wait(waitMs)
        waitMs = Math.min(waitMs * 2, LONGEST_WAIT_MS)
        continue
      }
      if (!answer.ok && answer.code === 'signed_out') continue
      waitMs = FIRST_WAIT_MS
      await settle(kept, answer)
    }
  }

  function wake(): void {
    again = true
    if (running) return
    running = true
    void run().finally(() => {
      running = false
    })
  }

  return {
    add(kept) {
      queue = [...queue, kept]
      tell()
      const answer = new Promise<Answer | Fault>((resolve) => answered.set(kept.command.commandId, resolve))
      void shelf.put(kept)
      wake()
      return answer
    },
    wake,
    waiting: () => queue,
    onSettled(listener) {
      settled.add(listener)
      return () => void settled.delete(listener)
    },
    onChange(listener) {
      changed.add(listener)
      return () => void changed.delete(listener)
    },
  }
}

const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms))
