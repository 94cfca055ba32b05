/**
 * What was entered on this device and never reached the shop, because the browser threw away what it kept: told by the
 * device's own count of its entries, held against the server's.
 *
 * Looked into when the link is up. What is missing once may be on its way from another page of this device; what is missing
 * a while later too is lost.
 */
import { createSignal } from 'solid-js'
import type { EntriesMissing } from '../../shared/protocol'
import type { EntryCount } from './entry-count'
import { ask, isFailure } from './http'
import type { Outbox } from './outbox'

export interface LostEntries {
  lost(): readonly EntriesMissing[]
  /** The link is up. */
  look(): Promise<void>
  /** Somebody has looked at what was done then. */
  putAside(): void
}

interface Parts {
  count: EntryCount
  outbox: Pick<Outbox, 'everywhere'>
  wait?(ms: number): Promise<void>
}

const AGAIN_MS = 10_000

export function makeLostEntries({ count, outbox, wait = pause }: Parts): LostEntries {
  const [lost, setLost] = createSignal<readonly EntriesMissing[]>([])
  let looking = false

  /** Nothing where it could not be found out. */
  async function missing(): Promise<{ missing: EntriesMissing[]; settled: number } | undefined> {
    // Before what waits is read: what is entered meanwhile is above it.
    const now = count.now()
    if (!now || now.upTo <= now.since) return undefined
    const everywhere = await outbox.everywhere().catch(() => undefined)
    if (!everywhere) return undefined
    const waiting = everywhere.flatMap(({ command }) => command.entryNumber ?? [])
    const known = [...waiting, ...count.refusals()].filter(
      (number) => number > now.since && number <= now.upTo,
    )
    const answer = await ask<{ missing: EntriesMissing[] }>('/api/entries/missing', {
      ...now,
      waiting: [...new Set(known)],
    })
    if (isFailure(answer)) return undefined
    return { missing: answer.missing, settled: Math.min(now.upTo, ...waiting.map((number) => number - 1)) }
  }

  return {
    lost,
    async look() {
      if (looking) return
      looking = true
      try {
        const first = await missing()
        if (!first) return
        if (first.missing.length === 0) return count.settle(first.settled)
        await wait(AGAIN_MS)
        const second = await missing()
        const again = (second?.missing ?? []).filter(({ first: from, last: to }) =>
          first.missing.some((gap) => gap.first <= to && from <= gap.last),
        )
        setLost(again)
      } finally {
        looking = false
      }
    },
    putAside() {
      const last = lost().at(-1)?.last
      if (last !== undefined) count.settle(last)
      setLost([])
    },
  }
}

const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms))
