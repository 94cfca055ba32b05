/** One run: a morning on the floor drawn from a seed, with what goes wrong on it, put right in the end and looked at. */
import { createHash } from 'node:crypto'
import type { JobCommand } from '../../shared/job/commands'
import { lookedAt } from '../../shared/job/looked-at'
import type { PlannedJob } from '../../shared/job/types'
import { type SignatureSetView, signatureSets } from '../../shared/plan/read'
import type { AdoptedStep } from '../../shared/plan/types'
import { hashText } from '../../web/live/hash'
import { ask, isFailure } from '../../web/live/http'
import { isRefused } from '../../web/live/outbox'
import {
  BY_GRANT,
  isShopType,
  JOB_COMMANDS,
  KINDS,
  type Kind,
  PHOTO,
  type Scene,
  SEALED,
  SHOP_COMMANDS,
} from './commands'
import { FAULTS, type FaultKind } from './faults'
import {
  changePerson,
  closePageOf,
  type Device,
  type Entry,
  type Floor,
  HANDS,
  isSettled,
  openFloor,
  openPageOn,
  type Page,
  PIN,
  reloadPage,
  WRONG_PIN,
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
  pairs: string[]
  entries: number
  faults: number
}

export const pairOf = (fault: string, kind: string): string => `${fault} × ${kind}`
export const allPairs = (): string[] => FAULTS.flatMap(({ name }) => KINDS.map((kind) => pairOf(name, kind)))

/** Each run tries a few pairs on purpose, and the next run others, so that in the end all have their turn. */
const WANTED = 6
/** A prime: what is tried in one run has little in common. */
const STRIDE = 1009
function wantedOf(seed: number): { fault: FaultKind; kind: Kind }[] {
  const count = FAULTS.length * KINDS.length
  return Array.from({ length: WANTED }, (_, index) => {
    const place = ((seed * WANTED + index) * STRIDE) % count
    return {
      fault: FAULTS[Math.floor(place / KINDS.length)] as FaultKind,
      kind: KINDS[place % KINDS.length] as Kind,
    }
  })
}

export async function run(seed: number): Promise<Outcome> {
  const floor = await openFloor(seed)
  const { house } = floor
  const pairs = new Set<string>()
  const wanted = wantedOf(seed)
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
    return { seed, wrong, story: floor.story, pairs: [...pairs], entries: floor.entries.size, faults }
  } finally {
    floor.house.close()
  }

  async function oneMove(): Promise<void> {
    const device = oneOf(floor.devices)
    if (device.open.length === 0) await openPageOn(floor, device)
    if (below(6) === 0) await house.backUp()
    const want = below(2) === 0 ? wanted.pop() : undefined
    const fault = want?.fault ?? (below(5) < 3 ? oneOf(FAULTS) : undefined)
    const page = oneOf(device.open)
    if (device.looked !== page) await act(page, () => void page.live.session.refresh())
    device.looked = page
    const entries = fault ? 1 + below(3) : 1 + below(4)
    for (let n = 0; n < entries && !page.dead; n++)
      await enterSomething(page, n === 0 ? fault : undefined, n === 0 && want ? want.kind : oneOf(KINDS))
    if (fault?.strike) {
      if (!want) await pass(below(3) === 0 ? between(0, 3000) : 0, below(3) === 0 ? undefined : below(60))
      for (const [key, kind] of kinds) if (waitsOn(device, key)) pairs.add(pairOf(fault.name, kind))
      faults += 1
      floor.tell(`${fault.name} on ${device.name}`)
      await fault.strike(floor, device)
    }
    await pass(oneOf([0, 5, 50, 500, 5000, 60_000]))
    if (below(8) === 0) dismissOne(floor, device)
    for (const { open } of floor.devices)
      for (const other of open) if (other.live.link.outdated() && below(2) === 0) reloadPage(other)
  }

  function waitsOn(device: Device, key: string): boolean {
    const entry = floor.entries.get(key)
    if (entry) return entry.device === device && entry.answers.length === 0 && !entry.mayBeLost
    return device.open.some(({ live }) => live.photos.now().waiting.some(({ sha256 }) => sha256 === key))
  }

  async function enterSomething(page: Page, fault: FaultKind | undefined, kind: Kind): Promise<void> {
    const { device } = page
    let granted: Promise<void> | undefined
    let done = false
    await act(page, () => {
      if (!page.live.session.signInId()) return
      const scene = sceneOn(page)
      if (!scene) return
      if (kind === BY_GRANT || kind === SEALED)
        granted = enterSecond(page, kind, scene, entered).finally(() => (done = true))
      else
        entered(
          enters(() => (kind === PHOTO ? enterPhoto(page, scene, kinds) : enterCommand(page, kind, scene))),
        )
    })
    if (granted) await passUntil(() => done || page.dead, 20_000)

    function entered(key: string | undefined): void {
      if (!key) return
      kinds.set(key, kind)
      floor.tell(`${page.name}: ${kind} ${key}`)
      fault?.arm?.(floor, device, key)
    }
  }

  function enters<T>(call: () => T): T {
    floor.entering = true
    try {
      return call()
    } finally {
      floor.entering = false
    }
  }

  /** Another person looks at what the page shows, and gives a PIN: nobody is signed out by it. */
  async function enterSecond(
    page: Page,
    kind: typeof BY_GRANT | typeof SEALED,
    scene: SceneOn,
    entered: (key: string | undefined) => void,
  ): Promise<void> {
    const { live } = page
    const { jobId, job } = scene
    const command = JOB_COMMANDS.SecondSignStep(scene)
    const step = job.plan.steps.find(({ id }) => id === command.stepId) as AdoptedStep
    const set = signatureSets(step).find(({ id }) => id === command.setId) as SignatureSetView
    const content = lookedAt(job, step, set)
    const personId = oneOf(HANDS)
    const right = below(6) > 0
    const last = () => {
      const { command: sent } = live.outbox.entries().at(-1) ?? {}
      return sent?.type === 'SecondSignStep' ? sent.commandId : undefined
    }
    if (kind === SEALED) {
      if (!live.sealedSeconds.offered()) return
      const pin = right ? PIN : WRONG_PIN
      const second = { stepId: step.id, setId: set.id, personId, pin, content }
      if ((await live.sealedSeconds.give(jobId, second)) !== undefined || page.dead) return
      const entry = floor.entries.get(last() ?? '')
      if (entry) entry.look = { personId, right }
      return entered(entry?.id)
    }
    const digest = await hashText(content)
    const asked = { personId, pin: PIN, jobId, stepId: step.id, digest }
    const answer = await ask<{ grantId: string }>('/api/grants', asked)
    if (isFailure(answer) || page.dead || !live.session.signInId()) return
    enters(() => void live.sendToJob(jobId, command, { grant: { id: answer.grantId, by: personId } }))
    entered(last())
  }

  function enterCommand(
    page: Page,
    kind: Exclude<Kind, typeof PHOTO | typeof BY_GRANT | typeof SEALED>,
    scene: SceneOn,
  ): string | undefined {
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
  for (const page of devices.flatMap(({ open }) => open)) {
    const other = page.build !== network.life?.build
    if (other !== (page.live.link.outdated() !== undefined))
      wrong.push(
        `[SM13] ${page.name} is of ${other ? 'another' : 'the same'} build than the server, and says otherwise.`,
      )
    if (other) reloadPage(page)
  }
  await pass(IN_TIME_MS)
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

/** After a restore one page may be told what another was not: whoever is answered first takes it off the shelf. */
const isExcused = (entry: Entry | undefined): boolean =>
  entry?.mayBeLost !== undefined || (entry?.again === true && isSettled(entry))

/** What was refused is there again after a reload, and nothing else is. */
async function afterReload(floor: Floor): Promise<string[]> {
  const wrong: string[] = []
  for (const device of floor.devices) {
    const refused = new Set(
      device.open.flatMap(({ live: { outbox } }) =>
        outbox.entries().flatMap(({ command: { commandId } }) => (outbox.isKept(commandId) ? commandId : [])),
      ),
    )
    for (const page of [...device.open]) closePageOf(floor, page)
    const page = await openPageOn(floor, device)
    await passUntil(() => false, 10_000)
    const again = new Set(page.live.outbox.entries().map((one) => one.command.commandId))
    for (const id of refused)
      if (!again.has(id) && !isExcused(floor.entries.get(id)))
        wrong.push(
          `[SM6] ${floor.entries.get(id)?.type} ${id} was refused, and is not there after a reload of ${device.name}.`,
        )
  }
  return wrong
}
