/**
 * Where a kill (SIGKILL) may fall, and what must be so afterwards: nothing acknowledged is lost, nothing is there twice, what
 * is half done does not pass for whole, and `npm run verify` finds nothing. Each gives what was wrong, in sentences.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { isDeepStrictEqual } from 'node:util'
import { asBeforeMigrations } from '../process/older'
import { codeOf } from '../process/program'
import { addressOf, begin, browserAt, faultsOf, headsIn, killed, pause, runToEnd } from './program'
import type { Draw } from './random'
import { FOUNDER, type KilledShop } from './shop'

export const PHASES = ['work', 'first run', 'backup', 'migration', 'restore'] as const
export type Phase = (typeof PHASES)[number]

export interface Scene {
  shop: KilledShop
  dataFolder: string
  /** For what this one kill needs beside it; empty. */
  aside: string
  draw: Draw
  /** A command had no answer when its server was gone. */
  cut(): void
}

/** How long each program takes when nobody kills it, as far as was seen: a moment of it is drawn from that. */
const wholeMs = { backup: 600, restore: 700, migration: 1500 }
const moment = (draw: Draw, what: keyof typeof wholeMs) => pause(draw.share() * 1.15 * wholeMs[what])
async function timed<T>(what: keyof typeof wholeMs, work: Promise<T>): Promise<T> {
  const begun = performance.now()
  const done = await work
  wholeMs[what] = performance.now() - begun
  return done
}

const nameOf = (folder: string) => readdirSync(folder).filter((name) => !name.endsWith('.partial'))

async function work({ shop, dataFolder, draw, cut }: Scene): Promise<string[]> {
  const storm = shop.storm(draw)
  await pause(20 + draw.share() * 350)
  await shop.kill()
  await storm.end()
  if (shop.unanswered() > 0) cut()
  await shop.start()
  return [...(await shop.check(draw)), ...(await faultsOf(dataFolder))]
}

async function firstRun({ aside, draw }: Scene): Promise<string[]> {
  const folder = join(aside, 'shop')
  const body = { shopName: 'New', ...FOUNDER }
  let program = begin('main', folder)
  try {
    const code = await codeOf(program)
    const at = await addressOf(program)
    const asked = browserAt(() => at)
      .ask('/api/first-run', { ...body, code })
      .catch(() => undefined)
    await pause(draw.share() * 160)
    await killed(program)
    const answer = await asked
    program = begin('main', folder)
    const again = await addressOf(program)
    const browser = browserAt(() => again)
    const { shop } = await browser.must<{ shop: { opened: boolean } }>('/api/me')
    if (answer?.status === 201 && !shop.opened) return ['The shop was opened, and is not after the kill.']
    if (!shop.opened) await browser.must('/api/first-run', { ...body, code: await codeOf(program) })
    const people = await browser.must<{ id: string }[]>('/api/people')
    if (people.length !== 1) return [`The new shop has ${people.length} people.`]
    await browser.must('/api/sign-in', { personId: people[0]?.id, pin: FOUNDER.pin })
    return await faultsOf(folder)
  } finally {
    await killed(program)
  }
}

async function backup({ shop, dataFolder, aside, draw, cut }: Scene): Promise<string[]> {
  const storm = shop.storm(draw)
  await pause(50)
  const program = begin('backup', dataFolder, aside)
  const whole = draw.below(8) === 0
  if (whole) await timed('backup', program.ended)
  else await moment(draw, 'backup')
  const whom = draw.pick(['the program', 'the server', 'both'] as const)
  if (whom !== 'the server') await killed(program)
  if (whom !== 'the program') {
    await shop.kill()
    await storm.end()
    if (shop.unanswered() > 0) cut()
    await program.ended
    await shop.start()
  } else await storm.end()
  const wrong = [...(await shop.check(draw)), ...(await faultsOf(dataFolder))]
  // Each that is there under its own name is whole; the next one removes what is not.
  for (const name of nameOf(aside)) wrong.push(...(await faultsOf(dataFolder, join(aside, name))))
  const next = await runToEnd('backup', dataFolder, aside)
  if (next.code !== 0) wrong.push(`The next backup failed: ${next.stderr}`)
  const left = readdirSync(aside).filter((name) => name.endsWith('.partial'))
  if (left.length > 0) wrong.push(`The next backup left ${left.join()}.`)
  return wrong
}

async function restore({ shop, dataFolder, aside, draw }: Scene): Promise<string[]> {
  const into = join(aside, 'backups')
  mkdirSync(into)
  const before = await shop.check(draw)
  const made = await runToEnd('backup', dataFolder, into)
  const [name = ''] = nameOf(into)
  if (made.code !== 0) return [`No backup was made: ${made.stderr}`]
  const one = join(into, name)
  const { heads } = JSON.parse(readFileSync(join(one, 'manifest.json'), 'utf8')) as { heads: object[] }
  const folder = join(aside, 'restored')
  const wrong = [...before]
  const isWhole = () => existsSync(join(folder, 'epoch.json')) && !existsSync(join(folder, 'restore.partial'))
  for (let kills = 1 + draw.below(2); kills > 0 && !isWhole(); kills--) {
    const program = begin('restore', folder, one)
    await moment(draw, 'restore')
    await killed(program)
    if (existsSync(join(folder, 'restore.partial'))) {
      const { code, stderr } = await runToEnd('main', folder)
      if (code !== 1 || !/was cut short/.test(stderr))
        wrong.push(`A server started on half a restore: ${code} ${stderr}`)
    }
  }
  if (!isWhole()) {
    const done = await timed('restore', runToEnd('restore', folder, one))
    if (done.code !== 0) return [...wrong, `Restored again it failed: ${done.stderr}`]
  }
  if (!isDeepStrictEqual(headsIn(folder), heads)) wrong.push('The restored heads are not the backup’s.')
  const program = begin('main', folder)
  try {
    const at = await addressOf(program)
    const browser = browserAt(() => at)
    await browser.must('/api/sign-in', { personId: shop.anaId, pin: FOUNDER.pin })
    for (const [stream, { version, hash }] of shop.seenHashes()) {
      const path = `/api/jobs/${stream.slice('job:'.length)}/chain`
      const { rows } = await browser.must<{ rows: { hash: string }[] }>(path)
      if (rows[version - 1]?.hash !== hash) wrong.push(`${stream} ${version} is not in the restored shop.`)
    }
    wrong.push(...(await faultsOf(folder)))
  } finally {
    await killed(program)
  }
  return wrong
}

/** At least so many migrations are behind the first build whose shops are still about. */
const MOST_BACK = 2

async function migration({ shop, dataFolder, aside, draw }: Scene): Promise<string[]> {
  const wrong = await shop.check(draw)
  const folder = join(aside, 'old')
  asBeforeMigrations(dataFolder, folder, 1 + draw.below(MOST_BACK))
  const then = headsIn(folder)
  for (let kills = 1 + draw.below(2); kills > 0; kills--) {
    const program = begin('main', folder)
    await moment(draw, 'migration')
    await killed(program)
  }
  const program = begin('main', folder)
  try {
    const at = await timed('migration', addressOf(program))
    const browser = browserAt(() => at)
    await browser.must('/api/sign-in', { personId: shop.anaId, pin: FOUNDER.pin })
    for (const stream of shop.seenHashes().keys())
      await browser.must(`/api/jobs/${stream.slice('job:'.length)}`)
    // One each time the tables were still the old ones.
    const backups = nameOf(join(folder, 'before-migration')).map((name) =>
      join(folder, 'before-migration', name),
    )
    if (backups.length === 0) wrong.push('No backup was made before the migration.')
    for (const one of backups) {
      if (!isDeepStrictEqual(headsIn(one), then)) wrong.push(`${one} has other heads than the old shop.`)
      wrong.push(...(await faultsOf(folder, one)))
    }
  } finally {
    await killed(program)
  }
  if (!isDeepStrictEqual(headsIn(folder), then)) wrong.push('The heads are not those of the old shop.')
  return [...wrong, ...(await faultsOf(folder))]
}

const ONE: Record<Phase, (scene: Scene) => Promise<string[]>> = {
  work,
  'first run': firstRun,
  backup,
  migration,
  restore,
}

/** What was wrong after one kill. */
export const killIn = (phase: Phase, scene: Scene): Promise<string[]> => ONE[phase](scene)
