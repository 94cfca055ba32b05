/**
 * The commands of this device that the server has not settled: the one home of what is pending.
 *
 * They are sent one after another in the order they were made, each under the sign-in it was made under; a resend
 * keeps its command id, so it can never count twice. A server that is silent or cannot save just now is asked again
 * later. A refusal, or a fault in the message itself, is never retried: the entry stays here with its sentence until
 * somebody has read it, unless whoever sent it is there to tell it. Replicas derive their pending part from here.
 */
import type { Instant } from '../../shared/log'
import type { Answer, Fault, SentJobCommand, SentShopCommand } from '../../shared/protocol'
import { makeRetryQueue, memoryShelf, type Shelf, type Unheld } from './retry-queue'

export type Stream = `job:${string}` | 'shop'

/** All that is needed to send it and, on this device, to decide it; no PIN and no cookie. */
interface Queued<S extends Stream, Command> {
  stream: S
  /** The time at the bench is stamped as it is entered. */
  command: Command & { doneAt: Instant }
  /** Whose it is as far as this device knows; the server goes by the sign-in, or the grant, that the command names. */
  by: string
  /** With a grant: the version the second signer looked at. */
  sawVersion?: number
  refused?: Why
}

/** Why the server would not have it. */
interface Why {
  code: string
  sentence: string
}

export type QueuedJobCommand = Queued<`job:${string}`, SentJobCommand>
export type QueuedShopCommand = Queued<'shop', SentShopCommand>
export type QueuedCommand = QueuedJobCommand | QueuedShopCommand

type In<S extends Stream> = S extends 'shop' ? QueuedShopCommand : QueuedJobCommand
type RefusedCommand<S extends Stream> = In<S> & { refused: Why }
export type RefusedJobCommand = RefusedCommand<`job:${string}`>

export const waitingIn = <S extends Stream>(entries: readonly QueuedCommand[], stream: S): In<S>[] =>
  entries.filter((entry): entry is In<S> => entry.stream === stream && !isRefused(entry))

export const isRefused = <E extends QueuedCommand>(entry: E): entry is E & { refused: Why } =>
  entry.refused !== undefined

export const refusedIn = <S extends Stream>(
  entries: readonly QueuedCommand[],
  stream: S,
): RefusedCommand<S>[] =>
  entries.filter((entry): entry is RefusedCommand<S> => entry.stream === stream && isRefused(entry))

export type AnswerListener = (entry: QueuedCommand, answer: Answer | Fault) => void

export interface Outbox {
  /**
   * Resolves with the final answer, however long that takes. A sender that shows a refusal itself says so with
   * `explains`, asked when the answer comes; for any other the refusal is kept.
   */
  add(entry: QueuedCommand, explains?: () => boolean): Promise<Answer | Fault>
  /** The link is up, or somebody signed in: go on now. */
  wake(): void
  /** Waiting and refused ones, in their order. */
  entries(): readonly QueuedCommand[]
  /** With what other pages of this device send. Rejects where that cannot be read. */
  everywhere(): Promise<QueuedCommand[]>
  /** Whether this device keeps it: it would be here after a reload. */
  isKept(commandId: string): boolean
  /** Why, for each that only this page holds. */
  unkept(): readonly Unheld[]
  /** Whether it was tried so often in vain that the others go first. */
  isAside(commandId: string): boolean
  /** Somebody has read why it was refused. */
  dismiss(commandId: string): void
  /** Called before the entry leaves. */
  onAnswer(listener: AnswerListener): () => void
  onChange(listener: (entries: readonly QueuedCommand[]) => void): () => void
  /** Also when one is kept now, or stepped aside. */
  onAnyChange(listener: () => void): () => void
}

interface Options {
  /** Rejects when there is no link. */
  send(entry: QueuedCommand): Promise<Answer | Fault>
  /** Whether a command that got no answer had a way to the server. */
  linked?(): boolean
  /** What is to be told of an entry that was taken, yet did not come to what was asked. */
  unmet?(entry: QueuedCommand, answer: Answer): Why | undefined
  shelf?: Shelf<QueuedCommand> | Promise<Shelf<QueuedCommand>>
  wait?(ms: number): Promise<void>
}

interface Sender {
  resolve(answer: Answer | Fault): void
  explains: (() => boolean) | undefined
}

/** Faults that pass by themselves; every other is about this very message. What cannot be saved may be so for itself alone. */
const PASSING: ReadonlyMap<string, 'later' | 'stuck'> = new Map([
  ['not_saved', 'stuck'],
  ['too_many', 'later'],
  ['signed_out', 'later'],
  ['pin_waits', 'stuck'],
])

export const commandIdOf = ({ command }: QueuedCommand): string => command.commandId

export function makeOutbox({
  send,
  linked = () => true,
  unmet = () => undefined,
  shelf = memoryShelf(commandIdOf),
  wait,
}: Options): Outbox {
  const senders = new Map<string, Sender>()
  const answerListeners = new Set<AnswerListener>()
  const queue = makeRetryQueue<QueuedCommand>({
    keyOf: commandIdOf,
    isDue: ({ refused }) => !refused,
    async attempt(entry) {
      const answer = await send(entry).catch(() => undefined)
      if (!answer) return linked() ? 'stuck' : 'later'
      const passing = answer.ok ? undefined : PASSING.get(answer.code)
      if (passing) return passing
      deliver(entry, answer)
      return 'done'
    },
    merge: (earlier) => earlier,
    shelf,
    firstWaitMs: 500,
    longestWaitMs: 20_000,
    wait,
  })

  function deliver(entry: QueuedCommand, answer: Answer | Fault): void {
    const commandId = commandIdOf(entry)
    const sender = senders.get(commandId)
    senders.delete(commandId)
    // The listeners come first: what the answer changes shows in the same moment as the entry leaves.
    for (const listener of answerListeners) listener(entry, answer)
    const why = answer.ok ? unmet(entry, answer) : { code: answer.code, sentence: answer.sentence }
    if (!why || sender?.explains?.()) queue.remove(commandId)
    else queue.replace({ ...entry, refused: why })
    sender?.resolve(answer)
  }

  return {
    add(entry, explains) {
      const answer = new Promise<Answer | Fault>((resolve) =>
        senders.set(commandIdOf(entry), { resolve, explains }),
      )
      queue.add(entry)
      return answer
    },
    wake: queue.wake,
    entries: queue.entries,
    everywhere: queue.everywhere,
    isKept: queue.isHeld,
    unkept: queue.unheld,
    isAside: queue.isAside,
    dismiss(commandId) {
      if (queue.get(commandId)?.refused) queue.remove(commandId)
    },
    onAnswer(listener) {
      answerListeners.add(listener)
      return () => void answerListeners.delete(listener)
    },
    onChange(listener) {
      let before = queue.entries()
      return queue.onChange(() => {
        if (queue.entries() === before) return
        before = queue.entries()
        listener(before)
      })
    },
    onAnyChange: queue.onChange,
  }
}
