/** One run: a morning on the floor drawn from a seed, with what goes wrong on it, put right in the end and looked at. */
import { createHash } from 'node:crypto'
import type { JobCommand } from '../../shared/job/commands'
import type { PlannedJob } from '../../shared/job/types'
import { isRefused } from '../../web/live/outbox'
import { isShopType, JOB_COMMANDS, KINDS, type Kind, PHOTO, type Scene, SHOP_COMMANDS } from './commands'
import { FAULTS, type FaultKind } from './faults'
import {
  changePerson,
  closePageOf,
  type Device,
  type Floor,
  openFloor,
  openPageOn,
  type Page,
  watchJob,
} from './floor'
import { network } from './network'
import { broken } from './promises'
import { act, below, between, broken as brokenTasks, clockNow, oneOf, pass, passUntil } from './world'

export interface Outcome {
  seed: number
  wrong: string[]
  story: string[]
  /** `fault × command`, each that came to pass. */
  pairs: Set<string>
  entries: number
  faults: number
}

export const pairOf = (fault: string, kind: string): string => `${fault} × ${kind}`
export const allPairs = (): string[] => FAULTS.flatMap(({ name }) => KINDS.map((kind) => pairOf(name, kind)))

export async function run(seed: number): Promise<Outcome> {
  const floor = await openFloor(seed)
  const pairs = new Set<string>()
  /** What is entered, by command id or hash. */
  const kinds = new Map<string, Kind>()
  let faults = 0
  let count = 0
  floor.onHit((what, key) => {
    const kind = kinds.get(key)
    faults += 1
    if (kind) pairs.add(pairOf(what, kind))
  })
  try {
    const moves = between(10, 30)
    for (let move = 0; move < moves; move++) await oneMove()
    const stuck = await putRight(floor)
    const wrong = [...stuck, ...(await broken(floor)), ...brokenTasks()]
    wrong.push(...(await afterReload(floor)))
    return { seed, wrong, story: floor.story, pairs, entries: floor.entries.size, faults }
  } finally {
    floor.house.close()
  }

  async function oneMove(): Promise<void> {
    const device = oneOf(floor.devices)
    if (device.open.length === 0) await openPageOn(floor, device)
    const fault = below(5) < 3 ? oneOf(FAULTS) : undefined
    const page = oneOf(device.open)
    if (device.looked !== page) await act(page, () => void page.live.session.refresh())
    device.looked = page
    const entries = fault ? 1 + below(3) : 1 + below(4)
    for (let n = 0; n < entries && !page.dead; n++) await enterSomething(page, n === 0 ? fault : undefined)
    if (fault?.strike) {
      await pass(below(3) === 0 ? between(0, 3000) : 0, below(3) === 0 ? undefined : below(60))
      for (const [key, kind] of kinds) if (waitsOn(device, key)) pairs.add(pairOf(fault.name, kind))
      faults += 1
      floor.tell(`${fault.name} on ${device.name}`)
      await fault.strike(floor, device)
    }
    await pass(oneOf([0, 5, 50, 500, 5000, 60_000]))
    if (below(8) === 0) dismissOne(floor, device)
  }

  function waitsOn(device: Device, key: string): boolean {
    const entry = floor.entries.get(key)
    if (entry) return entry.device === device && entry.answers.length === 0 && !entry.mayBeLost
    return device.open.some(({ live }) => live.photos.now().waiting.some(({ sha256 }) => sha256 === key))
  }

  async function enterSomething(page: Page, fault: FaultKind | undefined): Promise<void> {
    const kind = oneOf(KINDS)
    const { device } = page
    await act(page, () => {
      if (!page.live.session.signInId()) return
      const scene = sceneOn(page)
      if (!scene) return
      const key = kind === PHOTO ? enterPhoto(page, scene, kinds) : enterCommand(page, kind, scene)
      if (!key) return
      kinds.set(key, kind)
      floor.tell(`${page.name}: ${kind} ${key}`)
      fault?.arm?.(floor, device, key)
    })
  }

  function enterCommand(page: Page, kind: Exclude<Kind, typeof PHOTO>, scene: SceneOn): string | undefined {
    const { live } = page
    if (isShopType(kind)) void live.sendToShop(SHOP_COMMANDS[kind](scene))
    else {
      const command: JobCommand = JOB_COMMANDS[kind](scene)
      const opens = kind === 'OpenJob' && below(2) === 0
      if (opens) floor.jobs.push(`new-${scene.count}`)
      const jobId = kind === 'OpenJob' ? `new-${scene.count}` : scene.jobId
      void live.sendToJob(jobId, command)
      if (opens) watchJob(page, jobId)
    }
    return live.outbox.entries().at(-1)?.command.commandId
  }

  function enterPhoto(page: Page, scene: SceneOn, known: Map<string, Kind>): string {
    const bytes = Buffer.concat([
      Buffer.from([0xff, 0xd8, 0xff, 0xdb, 0, 4, 0, 0]),
      Buffer.from(`${seed} ${scene.count}`),
    ])
    const sha256 = createHash('sha256').update(bytes).digest('hex')
    known.set(sha256, PHOTO)
    const photo = {
      id: `photo-${scene.count}`,
      sha256,
      bytes: bytes.length,
      mime: 'image/jpeg',
      widthPx: 8,
      heightPx: 8,
    } as const
    floor.photos.push({ sha256, photoId: photo.id, jobId: scene.jobId, device: page.device })
    page.live.photos.add(
      scene.jobId,
      { photo, bytes: new Blob([bytes], { type: 'image/jpeg' }) },
      {},
      (command) => {
        void page.live.sendToJob(scene.jobId, command)
      },
    )
    return sha256
  }

  interface SceneOn extends Scene {
    jobId: string
  }
  function sceneOn(page: Page): SceneOn | undefined {
    const planned = [...page.feeds].filter(([, feed]) => feed.replica().job.plan)
    if (planned.length === 0) return undefined
    const [jobId, feed] = oneOf(planned)
    return {
      jobId,
      job: feed.replica().job as PlannedJob,
      shop: page.live.shop.shop(),
      by: page.live.session.person()?.id ?? '',
      count: ++count,
      now: clockNow(),
    }
  }
}

/** Somebody has read why it was refused. */
function dismissOne(floor: Floor, device: Device): void {
  for (const page of device.open)
    for (const queued of page.live.outbox.entries().filter(isRefused).slice(0, 1)) {
      const entry = floor.entries.get(queued.command.commandId)
      if (!entry) continue
      entry.dismissed = true
      void act(page, () => page.live.outbox.dismiss(entry.id))
    }
}

/** By when everything is through, once nothing is wrong any more: two waits for an answer and the longest between tries. */
const IN_TIME_MS = 5 * 60_000

/** All is well again, but for what is poisoned; then that too. */
async function putRight(floor: Floor): Promise<string[]> {
  const { house, devices } = floor
  floor.tell('everything is put right')
  network.armed.clear()
  house.armed.clear()
  for (const device of devices) {
    device.linkUp = true
    device.armed.clear()
    for (const page of device.open) page.badAir = false
  }
  await pass(20_000)
  for (const device of devices) {
    for (const page of device.open.filter(({ older }) => older)) closePageOf(floor, page)
    if (device.open.length === 0) await openPageOn(floor, device)
    await pass(3000)
    // As when it is looked at again.
    for (const page of device.open) await act(page, () => void page.live.session.refresh())
    await pass(3000)
    if (!device.open.some(({ live }) => live.session.signInId()))
      await changePerson(floor, device, device.person)
    for (const page of device.open) await act(page, () => void page.live.session.refresh())
  }
  await pass(IN_TIME_MS)
  const wrong: string[] = []
  for (const device of devices)
    for (const { name, live } of device.open) {
      for (const { command, refused } of live.outbox.entries())
        if (!refused && !house.poison.has(command.commandId))
          wrong.push(
            `${house.poison.size > 0 ? '[SM10]' : '[SM8]'} ${command.type} ${command.commandId} waits on ${name}, and nothing is wrong with it.`,
          )
      for (const { sha256 } of live.photos.now().waiting)
        if (!house.poison.has(sha256))
          wrong.push(
            `${house.poison.size > 0 ? '[SM10]' : '[SM8]'} the photo ${sha256.slice(0, 8)} waits on ${name}, and nothing is wrong with it.`,
          )
    }
  house.poison.clear()
  await pass(IN_TIME_MS)
  return wrong
}

/** What was refused is there again after a reload, and nothing else is. */
async function afterReload(floor: Floor): Promise<string[]> {
  const wrong: string[] = []
  for (const device of floor.devices) {
    const refused = new Set(
      device.open.flatMap(({ live }) => live.outbox.entries()).map((one) => one.command.commandId),
    )
    for (const page of [...device.open]) closePageOf(floor, page)
    const page = await openPageOn(floor, device)
    await passUntil(() => false, 10_000)
    const again = new Set(page.live.outbox.entries().map((one) => one.command.commandId))
    for (const id of refused)
      if (!again.has(id) && !floor.entries.get(id)?.mayBeLost)
        wrong.push(
          `[SM6] ${floor.entries.get(id)?.type} ${id} was refused, and is not there after a reload of ${device.name}.`,
        )
  }
  return wrong
}
