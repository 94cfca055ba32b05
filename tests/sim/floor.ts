/**
 * The shop floor of one run: the server, the devices with their pages as they are, and a ledger of all that was entered on
 * them, kept by nobody of theirs.
 */
import { createRoot } from 'solid-js'
import type { Answer, Fault } from '../../shared/protocol'
import { openFeed } from '../../web/live/job-feed'
import { type Live, makeLive } from '../../web/live/live'
import { commandIdOf, type QueuedCommand } from '../../web/live/outbox'
import { people, person } from '../shop/people'
import { floorPlan } from '../shop/plans/floor-engine'
import { testPlan } from '../shop/plans/test-engine'
import { crib } from '../shop/wrenches'
import { type Browser, type BrowserPage, closePage, openBrowser, openPage } from './browser'
import { type Backup, enter, type House, openHouse } from './house'
import { beginNetwork } from './network'
import { lines } from './sockets'
import { act, after, beginWorld, between, NOBODY, pass, passUntil, worldNow } from './world'

/** One entry, as whoever made it would tell it. */
export interface Entry {
  id: string
  type: string
  stream: string
  device: Device
  page: string
  /** Counts up over all that is entered anywhere. */
  place: number
  signInId: string | undefined
  by: string
  /** Who looked, where their PIN travels sealed; and whether it was right. */
  look?: { personId: string; right: boolean }
  /** Somebody else had signed in on the device by then, or nobody, and this page had not seen it. */
  stale: boolean
  /** How often the device's store had been lost when this was said to be kept there; absent where it never was. */
  keptAfterLosses?: number
  /** It was told on a page that others go first. */
  aside: boolean
  /** Of the log as it is; a restore takes back those it takes out. */
  answers: (Answer | Fault)[]
  /** When it was acknowledged on an open page, and how often the device's store had been lost by then. */
  acknowledged?: { at: number; losses: number; page: BrowserPage }
  /** It was taken once, and a restore took it out of the log. */
  again: boolean
  /** A restore put its sign-in back to what it was before: not there yet, or left by another way. */
  signInPutBack: boolean
  /** Its number in the device's own count. */
  number: number | undefined
  dismissed: boolean
  /** Why nobody was promised that it would come through. */
  mayBeLost?: string
}

export interface PhotoTaken {
  sha256: string
  photoId: string
  jobId: string
  device: Device
  mayBeLost?: string
}

export interface Device extends Browser {
  /** Who works at it. */
  person: string
  open: Page[]
  /** The one that was looked at last. */
  looked?: Page
}

export interface Page extends BrowserPage {
  device: Device
  live: Live
  feeds: Map<string, ReturnType<typeof openFeed>>
}

export interface Floor {
  house: House
  devices: Device[]
  jobs: string[]
  /** What was in the log before anybody came. */
  openedAtSeq: number
  entries: Map<string, Entry>
  photos: PhotoTaken[]
  /** Somebody is entering something just now. */
  entering: boolean
  /** Photos that an entry has told of. */
  announced: Set<string>
  /** What was seen to be wrong while it ran. */
  wrong: string[]
  /** What was done, in words, to be read when a run fails. */
  story: string[]
  tell(line: string): void
  /** A fault came to what was entered under this id or hash. */
  hit(what: string, key: string): void
  onHit(listener: (what: string, key: string) => void): void
}

export const PIN = '4711'
export const WRONG_PIN = '1147'
export const HANDS = ['fay', ...Object.keys(people)]
const FAY = person('fay', { roles: ['supervisor', 'owner'] })

export async function openFloor(seed: number): Promise<Floor> {
  beginWorld(seed)
  lines.clients.clear()
  const deviceCount = between(2, 3)
  const listeners: ((what: string, key: string) => void)[] = []
  const hit = (what: string, key: string) => {
    floor.tell(`  ${what}: ${key}`)
    for (const listener of listeners) listener(what, key)
  }
  beginNetwork(hit)
  const house = await openHouse(hit)
  const floor: Floor = {
    house,
    devices: [],
    jobs: ['j1', 'j2'],
    openedAtSeq: 0,
    entries: new Map(),
    photos: [],
    entering: false,
    announced: new Set(),
    wrong: [],
    story: [],
    tell: (line) => void floor.story.push(line),
    hit,
    onHit: (listener) => void listeners.push(listener),
  }
  floorNow = floor
  pages = 0
  await house.open()
  const byFay = (stream: 'shop' | `job:${string}`, command: Parameters<typeof enter>[3]) =>
    enter(house, 'fay', stream, command)
  await byFay('shop', { type: 'OpenShop', name: 'Sim', founder: FAY, invented: true })
  for (const one of Object.values(people)) await byFay('shop', { type: 'AddPerson', person: one })
  for (const one of Object.values(crib)) await byFay('shop', { type: 'AddWrench', wrench: one })
  for (const plan of [floorPlan, testPlan]) await byFay('shop', { type: 'AddPlan', plan })
  for (const [index, plan] of [floorPlan, testPlan].entries()) {
    const stream = `job:j${index + 1}` as const
    const engine = { model: 'Test engine', serial: `${index}` }
    await byFay(stream, {
      type: 'OpenJob',
      number: `E-${index}`,
      engine,
      owner: 'An owner',
      agreed: 'Rebuild',
    })
    await byFay(stream, { type: 'AdoptPlan', planId: plan.id, edition: plan.edition })
  }
  floor.openedAtSeq = (await house.store().readAll(0, 1000)).length
  for (const id of HANDS) await house.rooms().people.setPin(id, PIN)
  for (let n = 1; n <= deviceCount; n++) {
    const device = Object.assign(openBrowser(`device ${n}`, hit), { person: '', open: [] }) as Device
    floor.devices.push(device)
    await openPageOn(floor, device)
    await changePerson(floor, device, HANDS[n % HANDS.length] as string)
  }
  await house.backUp()
  return floor
}

let pages = 0
let floorNow: Floor | undefined

/** The page goes at once, in the middle of what it does. */
export const killPage = (page: BrowserPage): void => {
  if (floorNow) closePageOf(floorNow, page as Page)
}

/** By its own code. */
export const reloadPage = (page: BrowserPage): void =>
  void after(between(1, 50), NOBODY, () => {
    if (!floorNow || page.dead) return
    closePageOf(floorNow, page as Page)
    void openPageOn(floorNow, page.device as Device)
  })

/** Opens the app in a new tab. */
export async function openPageOn(floor: Floor, device: Device): Promise<Page> {
  const page = openPage(device, `${device.name}, page ${++pages}`) as Page
  device.open.push(page)
  page.feeds = new Map()
  await act(page, () => {
    page.live = createRoot(() => makeLive())
    const { live } = page
    live.outbox.onAnyChange(() => look(floor, page))
    live.outbox.onAnswer((queued, answer) => {
      const entry = floor.entries.get(commandIdOf(queued))
      entry?.answers.push(answer)
      if (entry && answer.ok) entry.acknowledged = { at: worldNow(), losses: device.losses, page }
    })
    live.shop.watch()
    live.board.watch()
    for (const jobId of floor.jobs) watchJob(page, jobId)
    void live.session.refresh()
  })
  floor.tell(`${page.name} opened`)
  return page
}

export function watchJob(page: Page, jobId: string): void {
  if (!page.feeds.has(jobId)) page.feeds.set(jobId, openFeed(page.live, jobId))
}

/** Notes what is new on a page, and what it says of it. */
function look(floor: Floor, page: Page): void {
  if (page.dead) return
  const { device, live } = page
  for (const queued of live.outbox.entries()) {
    const entry = entryOf(floor, page, queued)
    if (live.outbox.isAside(entry.id)) entry.aside = true
    if (!live.outbox.isKept(entry.id)) continue
    if (lies(device, 'entries', entry.id)) entry.keptAfterLosses = device.losses
    // The browser tells the page of a loss in its own time; what is said until then is said in good faith. After a restore
    // several pages send it again, and whoever is answered first takes it off the shelf.
    else if (device.lossesTold === device.losses && !isSettled(entry))
      floor.wrong.push(`[SM2] ${entry.type} ${entry.id} is said to be kept on ${page.name}, and is not.`)
  }
}

/** Whether a completed transaction has left it in one of the device's stores. */
const lies = (device: Device, store: 'entries' | 'photos' | 'taken', key: string): boolean =>
  [...device.durable].some((name) => name.startsWith(`paintmark-${store}-`) && name.endsWith(` ${key}`))

function entryOf(floor: Floor, page: Page, queued: QueuedCommand): Entry {
  const id = commandIdOf(queued)
  const known = floor.entries.get(id)
  if (known) return known
  const { session } = page.live
  const { command } = queued
  const isEntered =
    floor.entering ||
    // The queue of photos says these, and whoever gave a PIN waited for it to be sealed.
    command.type === 'ConfirmPhoto' ||
    (command.type === 'SecondSignStep' && command.look !== undefined) ||
    (command.type === 'AddPhoto' && !floor.announced.has(command.photo.id))
  if (command.type === 'AddPhoto') floor.announced.add(command.photo.id)
  if (!isEntered)
    floor.wrong.push(`[SM3] ${command.type} ${id} waits on ${page.name}, and nobody entered it.`)
  const entry: Entry = {
    id,
    type: queued.command.type,
    stream: queued.stream,
    device: page.device,
    page: page.name,
    place: floor.entries.size,
    signInId: session.signInId(),
    by: queued.command.grantId ? queued.by : (session.person()?.id ?? ''),
    number: queued.command.entryNumber,
    stale: floor.house.signInOn(page.device.cookie) !== session.signInId(),
    aside: false,
    again: false,
    signInPutBack: false,
    answers: [],
    dismissed: false,
  }
  floor.entries.set(id, entry)
  return entry
}

/** Whether it waits on an open page of its device, or stands there refused. */
export const pagesWith = (entry: Entry): Page[] =>
  entry.device.open.filter(({ live }) => live.outbox.entries().some((one) => commandIdOf(one) === entry.id))

export const isSettled = ({ answers }: Entry): boolean => answers.some(({ ok }) => ok)

/** Closed, or killed. What only this page held is gone with it, and nobody said otherwise. */
export function closePageOf(floor: Floor, page: Page): void {
  if (page.dead) return
  const { device } = page
  floor.tell(`${page.name} closed`)
  for (const entry of floor.entries.values()) {
    if (entry.device !== device || isSettled(entry)) continue
    const here = pagesWith(entry)
    if (here.length !== 1 || here[0] !== page) continue
    if (entry.keptAfterLosses === undefined) entry.mayBeLost = 'it was never said to be kept'
    else if (entry.keptAfterLosses !== device.losses) entry.mayBeLost = 'the browser lost its store'
  }
  for (const photo of floor.photos) {
    if (photo.device === device && !lies(device, 'photos', photo.sha256))
      photo.mayBeLost ??= 'it was not on the device yet'
  }
  device.open = device.open.filter((other) => other !== page)
  closePage(page)
}

const holdsPhoto = ({ photos }: Live, { sha256 }: PhotoTaken) => {
  const { waiting, refused } = photos.now()
  return [...waiting, ...refused].some((photo) => photo.sha256 === sha256)
}

/** What lay on the device alone when its store was lost. */
export function forgetWhatLayOnly(floor: Floor, device: Device): void {
  for (const entry of floor.entries.values())
    if (entry.device === device && !isSettled(entry) && pagesWith(entry).length === 0)
      entry.mayBeLost ??= 'the browser lost its store'
  for (const photo of floor.photos)
    if (photo.device === device && !device.open.some(({ live }) => holdsPhoto(live, photo)))
      photo.mayBeLost ??= 'the browser lost its store'
}

/** Somebody gives a PIN at the device: false where the server was not to be had. */
export async function changePerson(floor: Floor, device: Device, personId: string): Promise<boolean> {
  const page = device.open[0]
  if (!page) return false
  let outcome: { sentence: string | undefined } | undefined
  await act(page, () => {
    void page.live.session.signIn(personId, PIN).then((sentence) => {
      outcome = { sentence }
    })
  })
  await passUntil(() => outcome !== undefined || page.dead, 30_000)
  if (outcome && outcome.sentence === undefined) device.person = personId
  floor.tell(
    `${personId} signs in on ${device.name}: ${outcome ? (outcome.sentence ?? 'done') : 'no answer'}`,
  )
  await pass(50)
  return outcome !== undefined && outcome.sentence === undefined
}

/** What is acknowledged is on the device's disk by then. */
const KEPT_WITHIN_MS = 5000

/** The shop is what it was in a backup. What was taken since is not any more, and only what its device has kept of it comes again. */
export async function restoreFrom(floor: Floor, backup: Backup): Promise<void> {
  const { house, entries, photos } = floor
  const { epoch } = house.rooms().box
  const coveredSeq = Math.max(
    ...house.backups
      .filter(({ manifest }) => manifest.epoch.id === epoch().id)
      .map((one) => one.manifest.seq),
  )
  const covered = new Set(
    (await house.store().readAll(0, 100_000)).flatMap(({ seq, commandId }) =>
      seq <= coveredSeq ? commandId : [],
    ),
  )
  const wasHere = house.rooms().photos.has
  const signIns = house.signIns()
  await house.restore(backup)
  const signInsNow = house.signIns()
  const answers = await house.store().answers([...entries.keys()])
  for (const entry of entries.values()) {
    const { signInId = '' } = entry
    entry.signInPutBack ||= signIns.get(signInId) !== signInsNow.get(signInId)
    const taken = entry.answers.find((answer) => answer.ok)
    if (!taken?.ok || answers.has(entry.id)) continue
    entry.answers = []
    entry.again = true
    if (taken.seq === undefined) entry.mayBeLost = 'it changed nothing'
    else if (covered.has(entry.id)) entry.mayBeLost = 'a later backup had it'
    else if (!lies(entry.device, 'taken', entry.id)) {
      const { at = 0, losses = 0, page } = entry.acknowledged ?? {}
      if (page?.dead === false && worldNow() - at > KEPT_WITHIN_MS && losses === entry.device.losses)
        floor.wrong.push(
          `[SM12] ${entry.type} ${entry.id} is in no backup, and ${entry.device.name} does not keep it.`,
        )
      entry.mayBeLost ??= 'it was not kept for a restore yet'
    }
  }
  const there = new Set(backup.photos)
  for (const photo of photos)
    if (wasHere(photo.sha256) && !there.has(photo.sha256) && !lies(photo.device, 'photos', photo.sha256))
      photo.mayBeLost ??= 'no device keeps what is stored'
}
