/**
 * Time, chance and turns of a simulated shop floor, in one process.
 *
 * Everything that runs belongs to a realm: one page of one device, or one life of the server. A realm has a clock of its
 * own beside the one time that only goes forward. Tasks run one by one, each with all that follows from it before the
 * next begins, so the same seed gives the same run. What `globalThis` offers of time and chance is taken from here.
 */

export interface Realm {
  name: string
  /** What its clock shows beyond the world's time, ms. */
  ahead(): number
  /** Of a dead one nothing runs any more but what its browser does by itself. */
  dead: boolean
  isServer: boolean
}

interface Task {
  at: number
  place: number
  realm: Realm
  call: () => unknown
}

const real = {
  setImmediate: globalThis.setImmediate,
  Date: globalThis.Date,
  random: Math.random,
}

/** The morning it begins, UTC. */
export const MORNING = real.Date.UTC(2030, 0, 7, 8)

export const NOBODY: Realm = { name: 'nobody', ahead: () => 0, dead: false, isServer: false }

let realm: Realm = NOBODY
let now = 0
let places = 0
let chance = 1
let idleChance = 1
let outstanding = 0
let soon: Task[] = []
let later: Task[] = []
const faults: string[] = []

/** Whose turn it is. */
export const realmNow = (): Realm => realm
/** ms since the morning; never goes back. */
export const worldNow = (): number => now
/** As the clock of whoever asks shows it. */
export const clockNow = (): number => MORNING + now + realm.ahead()
/** What broke where nobody was to catch it. */
export const broken = (): readonly string[] => faults

/** Mulberry32: small, fast, and good enough to choose by. */
function draw(state: number): [next: number, drawn: number] {
  const next = (state + 0x6d2b79f5) | 0
  let t = Math.imul(next ^ (next >>> 15), 1 | next)
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
  return [next, ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296]
}
export function random(): number {
  const [next, drawn] = draw(chance)
  chance = next
  return drawn
}
/** For what is made by chance and chooses nothing: ids, and whatever packages ask for. */
export function idly(): number {
  const [next, drawn] = draw(idleChance)
  idleChance = next
  return drawn
}
export const below = (count: number): number => Math.floor(random() * count)
export const between = (low: number, high: number): number => low + below(high - low + 1)
export function oneOf<T>(list: readonly T[]): T {
  if (list.length === 0) throw new Error('Nothing to choose from.')
  return list[below(list.length)] as T
}

/** Forgets all that was to happen, and begins a morning of another seed. */
export function beginWorld(seed: number): void {
  chance = seed | 0
  idleChance = ~seed
  // Neighbouring seeds begin alike.
  for (let turn = 0; turn < 8; turn++) random()
  now = 0
  places = 0
  soon = []
  later = []
  faults.length = 0
  realm = NOBODY
}

/** Somebody does something there: it, and all that follows from it at once, is of that realm. */
export async function act<T>(whose: Realm, call: () => T): Promise<T> {
  realm = whose
  try {
    return call()
  } finally {
    await drain()
    realm = NOBODY
  }
}

/** Runs in a realm after so many ms of the world's time, in a turn of its own. */
export function after(ms: number, whose: Realm, call: () => unknown): Task {
  const task: Task = { at: now + Math.max(0, Math.round(ms)), place: ++places, realm: whose, call }
  let at = later.length
  while (at > 0 && isBefore(task, later[at - 1] as Task)) at -= 1
  later.splice(at, 0, task)
  return task
}
const isBefore = (a: Task, b: Task) => a.at < b.at || (a.at === b.at && a.place < b.place)

/** What the process itself works on meanwhile (files, buffers): nothing else happens until it is done. */
export function atOnce<T>(work: Promise<T>): Promise<T> {
  outstanding += 1
  const done = () => {
    outstanding -= 1
  }
  work.then(done, done)
  return work
}

const STUCK_AFTER = 200_000

/** All that follows from what ran. */
export async function drain(): Promise<void> {
  for (let turns = 0; ; turns++) {
    await new Promise((resolve) => real.setImmediate(resolve))
    if (outstanding === 0) return
    if (turns > STUCK_AFTER)
      throw new Error('The process waits for something that only simulated time brings.')
  }
}

/** One task; false when there is none up to that time. */
async function turn(until: number): Promise<boolean> {
  const task =
    soon.shift() ?? ((later[0]?.at ?? Number.POSITIVE_INFINITY) <= until ? later.shift() : undefined)
  if (!task) return false
  now = Math.max(now, task.at)
  // A browser finishes or undoes what a page that is gone had begun in its store.
  const runs = !task.realm.dead || (!task.realm.isServer && task.at < 0)
  if (!runs) return true
  realm = task.realm
  try {
    task.call()
  } catch (error) {
    fault(error)
  }
  await drain()
  realm = NOBODY
  return true
}

/** Lets `ms` pass, with all that happens in them; or fewer turns of it. */
export async function pass(ms: number, turns = Number.POSITIVE_INFINITY): Promise<void> {
  const until = now + ms
  await drain()
  for (let count = 0; count < turns; count++) if (!(await turn(until))) break
  if (turns === Number.POSITIVE_INFINITY) now = until
}

/** Until it is done, however long that takes within `ms`. */
export async function passUntil(done: () => boolean, ms: number): Promise<boolean> {
  const until = now + ms
  await drain()
  while (!done()) if (!(await turn(until))) break
  return done()
}

function fault(error: unknown): void {
  if (realm.dead) return
  faults.push(`${realm.name}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`)
}

/** Takes the place of the process's own time and chance, for good. */
export function takeOverGlobals(): void {
  const asTimer = (task: Task) => ({
    task,
    ref: () => task,
    unref: () => task,
    hasRef: () => true,
  })
  const cancel = (timer: unknown) => {
    const task = (timer as { task?: Task } | undefined)?.task
    if (!task) return
    soon = soon.filter((other) => other !== task)
    later = later.filter((other) => other !== task)
  }
  const globals = globalThis as Record<string, unknown>
  globals.setTimeout = (call: (...args: unknown[]) => unknown, ms = 0, ...args: unknown[]) =>
    asTimer(after(ms, realm, () => call(...args)))
  globals.clearTimeout = cancel
  globals.setImmediate = (call: (...args: unknown[]) => unknown, ...args: unknown[]) => {
    const task: Task = { at: -1, place: ++places, realm, call: () => call(...args) }
    soon.push(task)
    return asTimer(task)
  }
  globals.clearImmediate = cancel
  globals.setInterval = () => {
    throw new Error('Nothing here repeats for ever.')
  }
  globals.Date = class extends real.Date {
    constructor(...args: unknown[]) {
      super(...((args.length === 0 ? [clockNow()] : args) as [number]))
    }
    static override now = clockNow
  }
  Math.random = idly
  performance.now = () => now
  AbortSignal.timeout = (ms: number) => {
    const stop = new AbortController()
    after(ms, realm, () => stop.abort(new DOMException('It took too long.', 'TimeoutError')))
    return stop.signal
  }
  const { arrayBuffer } = Blob.prototype
  Blob.prototype.arrayBuffer = function (this: Blob) {
    return atOnce(arrayBuffer.call(this))
  }
  const { subtle } = crypto
  for (const name of ['digest', 'encrypt', 'importKey'] as const) {
    const works = subtle[name] as (...args: unknown[]) => Promise<unknown>
    Object.defineProperty(subtle, name, { value: (...args: unknown[]) => atOnce(works.apply(subtle, args)) })
  }
  // A store that is taken away undoes what is under way in it, and a browser notes so in its console.
  process.on('unhandledRejection', (error) => {
    if (!(error instanceof Error && error.name === 'AbortError')) fault(error)
  })
}
