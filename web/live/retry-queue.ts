/**
 * What waits on this device to go to the server, tried one after another in the order it came.
 *
 * The one engine of retries, for commands and for photos' bytes, each in a queue of its own, so that no picture holds
 * up a reading. What fails waits longer each time, at most `longestWaitMs`; `wake` goes on at once. Where entries
 * lie through a reload is behind `Shelf`: what lay there before comes first. An entry that the device could not
 * keep is tried all the same, and `unheld` says so.
 */

export interface Shelf<E> {
  /** Whether what lies here is there after a reload. */
  lasting: boolean
  /** In the order the entries were first put. */
  load(): Promise<E[]>
  /** Replaces an entry of the same key at its place. Rejects where the device has no room, or will not. */
  put(entry: E): Promise<void>
  drop(key: string): Promise<void>
}

export function memoryShelf<E>(keyOf: (entry: E) => string): Shelf<E> {
  const entries = new Map<string, E>()
  return {
    lasting: false,
    load: async () => [...entries.values()],
    put: async (entry) => void entries.set(keyOf(entry), entry),
    drop: async (key) => void entries.delete(key),
  }
}

/** Why an entry would not outlive a reload. */
export type Unheld = 'no_store' | 'full' | 'failed'

export interface RetryQueue<E> {
  /** The same array until an entry comes, changes or goes. */
  entries(): readonly E[]
  get(key: string): E | undefined
  /** One for each entry that only this page holds. */
  unheld(): readonly Unheld[]
  /** At the end; merged where one of its key is here already. */
  add(entry: E): void
  /** Changes an entry at its place; nothing when it is gone. */
  replace(entry: E): void
  remove(key: string): void
  /** The link is up, or somebody put something right: go on now. */
  wake(): void
  onChange(listener: () => void): () => void
}

interface Options<E> {
  keyOf(entry: E): string
  /** Whether it is to be tried: not what was refused, or went already. */
  isDue(entry: E): boolean
  /** `later` when it is to be tried again; `done` when it is due no more. A rejection is `later`. */
  attempt(entry: E): Promise<'later' | 'done'>
  merge(earlier: E, later: E): E
  /** What lay on the shelf, before anything of it is tried. */
  onLoad?(entries: readonly E[]): void
  shelf: Shelf<E> | Promise<Shelf<E>>
  firstWaitMs: number
  longestWaitMs: number
  wait?: ((ms: number) => Promise<void>) | undefined
}

export function makeRetryQueue<E>(options: Options<E>): RetryQueue<E> {
  const { keyOf, isDue, attempt, merge, wait = pause } = options
  const shelf = Promise.resolve(options.shelf)
  const byKey = new Map<string, E>()
  const unheld = new Map<string, Unheld>()
  const listeners = new Set<() => void>()
  let entries: readonly E[] = []
  let running = false
  let woken = false
  let hurry: (() => void) | undefined
  /** One after the other, so that an entry put and taken away at once is away. */
  let shelfWork: Promise<unknown> = shelf

  const emit = () => {
    for (const listener of listeners) listener()
  }
  const changed = () => {
    entries = [...byKey.values()]
    emit()
  }

  const onShelf = (work: (shelf: Shelf<E>) => Promise<void>): Promise<void> => {
    const done = shelfWork.then(async () => work(await shelf))
    shelfWork = done.catch(() => undefined)
    return done
  }

  const loaded = shelf
    .then((it) => it.load())
    .then((before) => {
      if (before.length === 0) return
      const added = [...byKey]
      byKey.clear()
      for (const entry of before) byKey.set(keyOf(entry), entry)
      for (const [key, entry] of added) {
        const earlier = byKey.get(key)
        byKey.set(key, earlier ? merge(earlier, entry) : entry)
      }
      options.onLoad?.(before)
      changed()
      start()
    })
    // A shelf that cannot be read holds nothing to send; what is added now still goes out.
    .catch(() => undefined)

  async function hold(entry: E): Promise<void> {
    const why = await onShelf((it) => it.put(entry)).then(
      async (): Promise<Unheld | undefined> => ((await shelf).lasting ? undefined : 'no_store'),
      (error: unknown): Unheld => (nameOf(error) === 'QuotaExceededError' ? 'full' : 'failed'),
    )
    const key = keyOf(entry)
    if (!byKey.has(key) || unheld.get(key) === why) return
    if (why) unheld.set(key, why)
    else unheld.delete(key)
    emit()
  }

  function set(entry: E): void {
    byKey.set(keyOf(entry), entry)
    void hold(entry)
    changed()
  }

  const next = () => entries.find(isDue)

  async function run(): Promise<void> {
    await loaded
    let waitMs = options.firstWaitMs
    for (let entry = next(); entry !== undefined; entry = next()) {
      woken = false
      const outcome = await attempt(entry).catch(() => 'later' as const)
      if (outcome === 'later' && !woken) {
        await Promise.race([wait(waitMs), new Promise<void>((resolve) => (hurry = resolve))])
        hurry = undefined
        waitMs = Math.min(waitMs * 2, options.longestWaitMs)
      }
      if (outcome === 'done' || woken) waitMs = options.firstWaitMs
    }
  }

  function start(): void {
    if (running) return
    running = true
    void run().finally(() => {
      running = false
      if (next() !== undefined) start()
    })
  }

  return {
    entries: () => entries,
    get: (key) => byKey.get(key),
    unheld: () => [...unheld.values()],
    add(entry) {
      const earlier = byKey.get(keyOf(entry))
      set(earlier ? merge(earlier, entry) : entry)
      start()
    },
    replace(entry) {
      if (byKey.has(keyOf(entry))) set(entry)
    },
    remove(key) {
      if (!byKey.delete(key)) return
      unheld.delete(key)
      // What cannot be taken off is tried again after a reload, and the server has it already.
      onShelf((it) => it.drop(key)).catch(() => undefined)
      changed()
    },
    wake() {
      woken = true
      hurry?.()
      start()
    },
    onChange(listener) {
      listeners.add(listener)
      return () => void listeners.delete(listener)
    },
  }
}

const nameOf = (error: unknown): unknown => (error as { name?: unknown } | undefined)?.name

const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms))
