/**
 * What this device saw last of the shop, so that its pages open where the server does not answer: the shop, the board, and
 * the engines looked at last. It is put under what the server says as soon as that comes, and never over it.
 *
 * What is folded is only as good as the code that folded it: another build starts with nothing. So does a browser that does
 * not know any more which life of the log it saw.
 */
import type { DeviceStore } from './device-store'

interface Sight {
  state: unknown
  /** Of a job: its plan lies beside it. */
  planApart?: boolean
  at: number
  build: string
  /** Of the log it was; none where that was not known yet. */
  epoch?: string | undefined
}

export interface Seen {
  /** What was kept of a room, and when; nothing where it was not seen, or not by this build. */
  load(room: string): Promise<{ state: unknown; at: number } | undefined>
  /** Soon, and only the newest. */
  keep(room: string, state: () => unknown): void
  /** All of it: the log is another. */
  forget(): Promise<void>
}

const MOST_JOBS = 12
const SOON_MS = 5000

/** The first script's name is a hash over all it brings along. */
const BUILD = globalThis.document?.querySelector<HTMLScriptElement>('script[type=module]')?.src ?? ''

const planOf = (room: string) => `plan of ${room}`

function apart(whole: unknown): { state: unknown; plan?: unknown } {
  if (typeof whole !== 'object' || whole === null || !('plan' in whole)) return { state: whole }
  const { plan, ...state } = whole
  return { state, plan }
}

export function makeSeen(
  shopKnown: Promise<string>,
  /** The epoch of this page, and the one this browser was told of last. */
  epochs: { here(): string | undefined; last(shopKey: string): string | undefined },
  now: () => number = Date.now,
): Seen {
  const store: Promise<DeviceStore<Sight> | undefined> = shopKnown
    .then(async (key) =>
      (await import('./device-store')).openDeviceStore<Sight>(`paintmark-seen-${key}`, 'rooms'),
    )
    .catch(() => undefined)
  const soon = new Map<string, () => unknown>()
  const written = new Set<string>()

  /** The greatest part of a job, and written once: it keeps the plan it adopted. */
  const plans = new Map<string, unknown>()

  async function write(room: string): Promise<void> {
    const whole = soon.get(room)?.()
    if (!soon.delete(room)) return
    const kept = await store
    const { state, plan } = apart(whole)
    if (plan !== plans.get(room)) await kept?.put(planOf(room), { state: plan, at: now(), build: BUILD })
    plans.set(room, plan)
    await kept?.put(room, {
      state,
      planApart: plan !== undefined,
      at: now(),
      build: BUILD,
      epoch: epochs.here(),
    })
    if (kept && !written.has(room)) await dropOldest(kept)
    written.add(room)
  }

  /** Reads all that is kept: with the first word of a room, not with each. */
  async function dropOldest(kept: DeviceStore<Sight>): Promise<void> {
    const jobs = (await kept.entries()).filter(([room]) => room.startsWith('job:'))
    const oldest = jobs.sort(([, a], [, b]) => b.at - a.at).slice(MOST_JOBS)
    for (const [room] of oldest) {
      await kept.drop(room)
      await kept.drop(planOf(room))
      plans.delete(room)
    }
  }

  return {
    async forget() {
      soon.clear()
      plans.clear()
      const kept = await store
      // What cannot be dropped names the log it was of.
      for (const [room] of (await kept?.entries().catch(() => [])) ?? [])
        await kept?.drop(room).catch(() => undefined)
    },
    async load(room) {
      const kept = await store
      const sightOf = async (key: string) => {
        const sight = await kept?.get(key).catch(() => undefined)
        return sight?.build === BUILD ? sight : undefined
      }
      const sight = await sightOf(room)
      if (sight?.epoch === undefined || sight.epoch !== epochs.last(await shopKnown)) return undefined
      if (!sight.planApart) return sight
      const plan = await sightOf(planOf(room))
      return plan && { ...sight, state: { ...(sight.state as object), plan: plan.state } }
    },
    keep(room, state) {
      const due = soon.has(room)
      soon.set(room, state)
      // A device without room for it opens no page without the server; nothing entered hangs on it.
      if (!due) setTimeout(() => void write(room).catch(() => undefined), SOON_MS)
    },
  }
}
