/**
 * A shop's log that was restored from a backup has another life (an epoch): what this page shows may be of entries that are
 * gone, and what this device was told is taken may be gone too. So it is all sent again, and the page is loaded anew.
 */
import type { LogEpoch } from '../../shared/protocol'
import { recall, remember } from '../ui/device'
import type { AcknowledgedEntries } from './acknowledged'
import { commandIdOf, type Outbox, type QueuedCommand } from './outbox'

/** Which one this browser was told of last; nothing where it keeps nothing, or was cleared. */
const nameOf = (shopKey: string) => `paintmark-epoch-${shopKey}`
export const lastEpoch = (shopKey: string): string | undefined => recall(nameOf(shopKey))

interface Parts {
  shopKnown: Promise<string>
  shopKey(): string | undefined
  /** Asks the server: at this address another shop may stand now, whose log has epochs of its own. */
  isStillOurs(): Promise<boolean>
  /** Nothing where this browser keeps nothing. */
  acknowledged: Promise<AcknowledgedEntries | undefined>
  outbox: Pick<Outbox, 'add' | 'entries' | 'isKept' | 'onAnswer' | 'onAnyChange'>
  /** What was seen of the log as it was. */
  forgetSeen(): Promise<void>
  reload(): void
}

/** `told` is to be called with each word of the server on its epoch. */
export function makeEpochs({
  shopKnown,
  shopKey,
  isStillOurs,
  acknowledged,
  outbox,
  forgetSeen,
  reload,
}: Parts) {
  /** The one this page is of: what it shows first was seen of the one this browser knew then. */
  let here: string | undefined
  void shopKnown.then((key) => {
    here ??= lastEpoch(key)
  })

  outbox.onAnswer((entry, answer) => {
    const epoch = here
    void acknowledged.then(
      (kept) => {
        if (answer.ok && answer.seq !== undefined && epoch !== undefined)
          return kept?.keep(entry, epoch, answer.seq)
        // Refused for good: whoever made it is told.
        return answer.ok ? undefined : kept?.drop(commandIdOf(entry))
      },
      () => undefined,
    )
  })

  /** Resolves when what has not gone yet lies on this device's own disk, or cannot. */
  async function sendAgain(entries: readonly QueuedCommand[]): Promise<void> {
    for (const entry of entries) void outbox.add(entry)
    await new Promise<void>((resolve) => {
      const isDone = () => outbox.entries().every((entry) => outbox.isKept(commandIdOf(entry)))
      const stop = outbox.onAnyChange(() => isDone() && end())
      const giveUp = setTimeout(() => end(), KEPT_WITHIN_MS)
      function end() {
        clearTimeout(giveUp)
        stop()
        resolve()
      }
      if (isDone()) end()
    })
  }

  async function told(epoch: LogEpoch): Promise<void> {
    const key = shopKey()
    if (key === undefined) return
    const before = lastEpoch(key)
    // A browser that was cleared does not know any more; the page may, and what it kept names the log that took it.
    const isAnother = [before ?? here, here].some((last) => last !== undefined && last !== epoch.id)
    const taken = (await (await acknowledged)?.all(epoch.id)) ?? []
    if ((isAnother || taken.length > 0) && !(await isStillOurs())) return
    here = epoch.id
    if (taken.length > 0) await sendAgain(taken)
    if (isAnother) await forgetSeen()
    remember(nameOf(key), epoch.id)
    if (isAnother) reload()
    else await (await acknowledged)?.covered(epoch)
  }

  return { told, here: () => here }
}

const KEPT_WITHIN_MS = 10_000
