/**
 * What waits on this device to go to the server, tried one after another in the order it came.
 *
 * The one engine of retries, for commands and for photos' bytes, each in a queue of its own, so that no picture holds
 * up a reading. What fails waits longer each time, at most `longestWaitMs`; `wake` goes on at once. One that fails
 * again and again while the others might not steps aside: they go first, and it is tried between. Where entries lie
 * through a reload is behind `Shelf`: what lay there before comes first. An entry that the device could not keep is
 * tried all the same, and `unheld` says so.
 */

export interface Shelf<E> {
  /** Whether what lies here is there after a reload. */
  lasting: boolean
  /** What nobody else sends, in the order the entries were first put. Called again, what has been left behind since. */
  load(): Promise<E[]>
  /** Replaces an entry of the same key at its place. Rejects where the device has no room, or will not. */
  put(entry: E): Promise<void>
  drop(key: string): Promise<void>
  /** Also what other pages send. */
  all(): Promise<E[]>
  /** All that lay here is gone while the page stands. */
  onLost?(listener: () => void): void
  /** Somebody else has left something behind. */
  onLeft?(listener: () => void): void
}

export function memoryShelf<E>(keyOf: (entry: E) => string): Shelf<E> {
  const entries = new Map<string, E>()
  return {
    lasting: false,
    load: async () => [...entries.values()],
    all: async () => [...entries.values()],
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
  /** With what other pages of this device send. Rejects where the shelf cannot be read. */
  everywhere(): Promise<E[]>
  /** Whether the shelf has answered that it lies there, and would after a reload. */
  isHeld(key: string): boolean
  /** One for each entry that only this page holds. */
  unheld(): readonly Unheld[]
  /** Whether it failed so often that the others go first. */
  isAside(key: string): boolean
  /** At the end; merged where one of its key is here already. */
  add(entry: E): void
  /** Changes an entry at its place; nothing when it is gone. */
  replace(entry: E): void
  remove(key: string): void
  /** The link is up, or somebody put something right: go on now, each in its turn, and take over what others left. */
  wake(): void
  onChange(listener: () => void): () => void
}

interface Options<E> {
  keyOf(entry: E): string
  /** Whether it is to be tried: not what was refused, or went already. */
  isDue(entry: E): boolean
  /**
   * `done` when it is due no more; `later` when nothing would get through just now; `stuck` when it may be this one
   * alone. A rejection is `later`.
   */
  attempt(entry: E): Promise<'later' | 'stuck' | 'done'>
  merge(earlier: E, later: E): E
  /** What lay on the shelf, before anything of it is tried. */
  onLoad?(entries: readonly E[]): void
  shelf: Shelf<E> | Promise<Shelf<E>>
  firstWaitMs: number
  longestWaitMs: number
  /** Steps aside when it was stuck as often. */
  stuckAtMost?: number
  wait?: ((ms: number) => Promise<void>) | undefined
}

export function makeRetryQueue<E>(options: Options<E>): RetryQueue<E> {
  const { keyOf, isDue, attempt, merge, stuckAtMost = 3, wait = pause } = options
  const shelf = Promise.resolve(options.shelf)
  const byKey = new Map<string, E>()
  const held = new Set<string>()
  const unheld = new Map<string, Unheld>()
  /** Done with, and perhaps still on the shelf. */
  const leaving = new Set<string>()
  /** How often each was stuck since the last wake. */
  const stuck = new Map<string, number>()
  const listeners = new Set<() => void>()
  let entries: readonly E[] = []
  let running = false
  let woken = false
  let hurry: (() => void) | undefined
  /** One after the other, so that an entry put and taken away at once is away; the first is to read what lay there. */
  let shelfWork: Promise<unknown> = shelf

  const emit = () => {
    for (const listener of listeners) listener()
  }
  const changed = () => {
    entries = [...byKey.values()]
    emit()
  }

  function onShelf(work: (shelf: Shelf<E>) => Promise<void>): Promise<void> {
    const done = shelfWork.then(async () => work(await shelf))
    shelfWork = done.catch(() => undefined)
    return done
  }

  /** Puts what lay on the shelf before all else that is here. */
  function takeOver(left: readonly E[], lasting: boolean): void {
    if (left.length === 0) return
    const here = [...byKey]
    byKey.clear()
    for (const entry of left) {
      byKey.set(keyOf(entry), entry)
      if (lasting) held.add(keyOf(entry))
    }
    for (const [key, entry] of here) {
      const earlier = byKey.get(key)
      byKey.set(key, earlier ? merge(earlier, entry) : entry)
    }
    options.onLoad?.(left)
    changed()
    start()
  }
  // A shelf that cannot be read holds nothing to send; what is added now still goes out.
  const loaded = onShelf(async (it) => takeOver(await it.load(), it.lasting)).catch(() => undefined)
  /** What went meanwhile may still lie in what is being read: only what was never here is new. */
  const lookAgain = () =>
    onShelf(async (it) => {
      const known = new Set([...byKey.keys(), ...leaving])
      const left = (await it.load()).filter((entry) => !known.has(keyOf(entry)))
      takeOver(left, it.lasting)
    }).catch(() => undefined)
  shelf
    .then((it) => {
      it.onLost?.(() => {
        held.clear()
        for (const entry of entries) void hold(entry)
        emit()
      })
      it.onLeft?.(() => void lookAgain())
    })
    .catch(() => undefined)

  async function hold(entry: E): Promise<void> {
    const why = await onShelf((it) => it.put(entry)).then(
      async (): Promise<Unheld | undefined> => ((await shelf).lasting ? undefined : 'no_store'),
      (error: unknown): Unheld => (nameOf(error) === 'QuotaExceededError' ? 'full' : 'failed'),
    )
    const key = keyOf(entry)
    if (!byKey.has(key)) return
    if (why) unheld.set(key, why)
    else unheld.delete(key)
    if (why) held.delete(key)
    else held.add(key)
    emit()
  }

  function set(entry: E): void {
    byKey.set(keyOf(entry), entry)
    void hold(entry)
    changed()
  }

  const isAside = (key: string) => (stuck.get(key) ?? 0) >= stuckAtMost
  const next = () => {
    const due = entries.filter(isDue)
    return due.find((entry) => !isAside(keyOf(entry))) ?? leastTried(due)
  }
  /** Those aside take turns. */
  const leastTried = (due: readonly E[]) =>
    due.reduce<E | undefined>((least, entry) => {
      const times = (of: E) => stuck.get(keyOf(of)) ?? 0
      return least === undefined || times(entry) < times(least) ? entry : least
    }, undefined)

  async function run(): Promise<void> {
    await loaded
    let waitMs = options.firstWaitMs
    for (let entry = next(); entry !== undefined; entry = next()) {
      woken = false
      const outcome = await attempt(entry).catch(() => 'later' as const)
      if (outcome === 'stuck') {
        const key = keyOf(entry)
        stuck.set(key, (stuck.get(key) ?? 0) + 1)
        if (isAside(key)) emit()
      }
      if (outcome !== 'done' && !woken) {
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
    everywhere: async () => [...(await (await shelf).all()), ...entries],
    isHeld: (key) => held.has(key),
    unheld: () => [...unheld.values()],
    isAside,
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
      held.delete(key)
      unheld.delete(key)
      stuck.delete(key)
      // What cannot be taken off is tried again after a reload, and the server has it already.
      leaving.add(key)
      onShelf((it) => it.drop(key)).then(
        () => leaving.delete(key),
        () => undefined,
      )
      changed()
    },
    wake() {
      woken = true
      stuck.clear()
      hurry?.()
      start()
      void lookAgain()
    },
    onChange(listener) {
      listeners.add(listener)
      return () => void listeners.delete(listener)
    },
  }
}

const nameOf = (error: unknown): unknown => (error as { name?: unknown } | undefined)?.name

const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms))
