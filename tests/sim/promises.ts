/**
 * What the shop promises of everything entered, whatever happens on the way. Each is a rule of `shared/RULES.md`; what is
 * found against one begins with its number.
 */

import type { Recorded } from '../../server/store'
import { canonical } from '../../server/store'
import type { Job } from '../../shared/job/types'
import { type Entry, type Floor, isSettled, pagesWith } from './floor'

/** Of a run that has come to rest, with everything mended. */
export async function broken(floor: Floor): Promise<string[]> {
  const { house, entries, wrong } = floor
  const found = [...wrong]
  const log = await house.store().readAll(0, 100_000)
  const written = new Map<string, Recorded[]>()
  for (const row of log) {
    const rows = written.get(row.commandId)
    if (rows) rows.push(row)
    else written.set(row.commandId, [row])
  }
  const answers = await house.store().answers([...entries.keys()])
  for (const entry of entries.values()) found.push(...(await fateOf(entry)))
  found.push(...once(), ...inOrder(), ...photosHere(), ...(await sameEverywhere(floor)))
  return found

  async function fateOf(entry: Entry): Promise<string[]> {
    const { id, type, device } = entry
    const name = `${type} ${id} of ${device.name}`
    const answer = answers.get(id)?.answer as { ok: boolean; from: number; version: number } | undefined
    const rows = written.get(id) ?? []
    const against: string[] = []
    const refusal = entry.answers.find(({ ok }) => !ok) as { code: string } | undefined
    const here = pagesWith(entry)
    const waits = here.some(({ live }) =>
      live.outbox.entries().some((one) => one.command.commandId === id && !one.refused),
    )
    if (waits) against.push(`[SM8] ${name} still waits, with everything mended.`)
    if (isSettled(entry) && !(answer?.ok && rows.length === answer.version - answer.from))
      against.push(`${entry.again ? '[SM12]' : '[SM5]'} ${name} was acknowledged, and is not in the log.`)
    const told = here.length > 0 || entry.dismissed || entry.type === 'ConfirmPhoto'
    if (answer?.ok !== true && !told && !entry.mayBeLost)
      against.push(
        refusal
          ? `[SM6] ${name} was refused (${refusal.code}), and nobody is told.`
          : `[${entry.again ? 'SM12' : 'SM1'}] ${name} is lost.`,
      )
    const isKnown = device.cookiesLost === 0 && !entry.signInPutBack
    if (refusal?.code === 'not_this_device' && isKnown && !entry.stale)
      against.push(`[SM11] ${name} was not taken as this device’s.`)
    for (const { event } of rows) {
      const { by, flag } = event as unknown as { by: string; flag?: string }
      const { look } = entry
      // One that cannot be opened any more says nothing of who looked: then whoever has the tablet noted it.
      const author = look?.right && flag !== 'pin_unreadable' ? look.personId : entry.by
      if (by !== author)
        against.push(`[SM4] ${name} was made by ${author}, and stands in the log as ${by}’s.`)
    }
    return against
  }

  /** Nothing in the log that nobody entered, nothing in two places. */
  function once(): string[] {
    const against: string[] = []
    for (const [id, rows] of written) {
      const [first] = rows as [Recorded]
      if (first.seq > floor.openedAtSeq && !entries.has(id))
        against.push(`[SM3] ${first.event.type} stands in the log under ${id}, which nobody entered.`)
      const apart = rows.some(
        ({ seq, stream }, index) => seq !== first.seq + index || stream !== first.stream,
      )
      if (apart) against.push(`[SM3] ${first.event.type} ${id} counts twice.`)
    }
    return against
  }

  /** Of each page, under each sign-in: the log has them as they were entered, but for those that stepped aside. */
  function inOrder(): string[] {
    const against: string[] = []
    const last = new Map<string, { place: number; name: string }>()
    for (const { commandId } of log) {
      const entry = entries.get(commandId)
      // A photo kept on the device tells of itself again, as soon as it is read there.
      if (!entry || entry.aside || entry.again || entry.mayBeLost || entry.type === 'AddPhoto') continue
      const whose = `${entry.page} ${entry.signInId}`
      const before = last.get(whose)
      if (before && before.place > entry.place)
        against.push(
          `[SM7] ${entry.type} ${entry.id} stands in the log after ${before.name}, which was entered later.`,
        )
      else last.set(whose, { place: entry.place, name: `${entry.type} ${entry.id}` })
    }
    return against
  }

  function photosHere(): string[] {
    return floor.photos.flatMap(({ sha256, device, mayBeLost }) => {
      const now = device.open.map(({ live }) => live.photos.now())
      if (now.some(({ waiting }) => waiting.some((photo) => photo.sha256 === sha256)))
        return [
          `[SM8] the photo ${sha256.slice(0, 8)} of ${device.name} still waits, with everything mended.`,
        ]
      const told = now.some(({ refused }) => refused.some((photo) => photo.sha256 === sha256))
      const here = house.rooms().photos.has(sha256)
      return here || told || mayBeLost
        ? []
        : [`[SM1] the photo ${sha256.slice(0, 8)} of ${device.name} is lost.`]
    })
  }
}

/** Every page shows what the server’s log amounts to. */
async function sameEverywhere({ house, devices }: Floor): Promise<string[]> {
  const { desk } = house.rooms()
  const against: string[] = []
  const shop = await desk.shop()
  for (const page of devices.flatMap(({ open }) => open)) {
    for (const [jobId, feed] of page.feeds) {
      const job: Job | undefined = await desk.job(jobId)
      const { confirmed, job: shown } = feed.replica()
      // Opened before the job was: it says that there is none.
      if (confirmed.version === 0 && feed.problem()) continue
      if (job && canonical(confirmed) !== canonical(job))
        against.push(
          `[SM9] ${page.name} has ${jobId} at version ${confirmed.version}, the server at ${job.version}.`,
        )
      else if (job && canonical(shown) !== canonical(job))
        against.push(`[SM9] ${page.name} shows of ${jobId} what is not so, though nothing waits.`)
    }
    if (page.live.shop.shop().version !== shop.version)
      against.push(
        `[SM9] ${page.name} has the shop at version ${page.live.shop.shop().version}, not ${shop.version}.`,
      )
  }
  return against
}
