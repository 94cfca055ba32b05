/**
 * A shop's log that was restored from a backup has another life (an epoch): what this page shows may be of entries that are
 * gone, and what this device was told is taken may be gone too. So it is all sent again, and the page is loaded anew.
 */
import type { LogEpoch } from '../../shared/protocol'
import { recall, remember } from '../ui/device'
import type { AcknowledgedEntries } from './acknowledged'
import { commandIdOf, type Outbox } from './outbox'

interface Parts {
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

/** Gives what is to be called with each word of the server on its epoch. */
export function makeEpochs({ shopKey, isStillOurs, acknowledged, outbox, forgetSeen, reload }: Parts) {
  /** The one this page is of. */
  let here: string | undefined

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
  async function sendAgain(): Promise<void> {
    const entries = (await (await acknowledged)?.all()) ?? []
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

  return async function told(epoch: LogEpoch): Promise<void> {
    const key = shopKey()
    if (key === undefined) return
    const name = `paintmark-epoch-${key}`
    const before = recall(name)
    if (before !== undefined && before !== epoch.id && !(await isStillOurs())) return
    const wasHere = here
    here = epoch.id
    if (before !== undefined && before !== epoch.id) {
      await sendAgain()
      await forgetSeen()
      remember(name, epoch.id)
      reload()
    } else if (wasHere !== undefined && wasHere !== epoch.id) {
      // Another page of this device has seen to the rest.
      reload()
    } else {
      remember(name, epoch.id)
      await (await acknowledged)?.covered(epoch)
    }
  }
}

const KEPT_WITHIN_MS = 10_000
