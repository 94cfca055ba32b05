/** The demonstration's shop with a full yard, served for pages to look at; what happens in it is told from here. */
import { lastTuesday, OPENS_AT, shopClock } from '../../../seed/clock'
import { seedDemo } from '../../../seed/demo'
import { makeLog } from '../../../server/log'
import { openShop } from '../../../server/open-shop'
import { repoFolder } from '../../../server/repo-folder'
import { serve } from '../../../server/serve'
import type { TakeReading } from '../../../shared/job/commands'
import type { Job } from '../../../shared/job/types'
import { LONG } from '../../crowd/extremes'
import { fullYard } from '../../crowd/yard'
import { everyReading } from '../load/build'
import type { YardOpened } from './calls'
import { COOKIE } from './ours'

/** Holds a step of the demonstration's first engine, half way round a joint. */
const DOER = 'bram'
const AT_BENCH = { job: 'e-101', step: 'F5' }
const RELEASED = 'e-108'
/** Entries that wait for the desk together. */
const IN_FLIGHT = 100

export interface OpenYard {
  opened: YardOpened
  /** As many readings, in turn on these engines; fewer where the time is over. Gives how many. */
  tell(jobs: readonly string[], count: number, atMostMs: number): Promise<number>
  close(): Promise<void>
}

export async function openYard(dataFolder: string, engines: number): Promise<OpenYard> {
  const log = makeLog('warn')
  const clock = shopClock(lastTuesday(Date.now()))
  const behindMs = Date.now() - clock.at(0, OPENS_AT)
  const shop = await openShop({ dataFolder, now: () => Date.now() - behindMs, log })
  const repo = repoFolder()
  await seedDemo({ ...shop, clock, repo, yard: fullYard(repo, engines) })
  const settings = {
    port: 0,
    host: '127.0.0.1',
    dataFolder,
    behindProxy: false,
    tls: false,
    logLevel: 'warn',
  } as const
  const serving = await serve(shop, settings, { cookieName: COOKIE, log })
  const [looker, teller] = [shop.people.addDevice(), shop.people.addDevice()]
  for (const { deviceId } of [looker, teller]) shop.people.signIn(deviceId, DOER)
  const wrench = Object.values((await shop.desk.shop()).wrenches).find(({ kind }) => kind === 'indicating')
  if (!wrench) throw new Error('The demonstration has no indicating wrench.')
  const places = new Map<string, TakeReading[]>()
  let told = 0

  /** What nobody has signed yet of an engine, or the joint that is in hand on the bench. */
  async function placesOf(jobId: string): Promise<TakeReading[]> {
    const known = places.get(jobId)
    if (known) return known
    const job = (await shop.desk.job(jobId)) as Job
    const steps = (job.plan?.steps ?? []).filter(({ id }) =>
      jobId === AT_BENCH.job ? id === AT_BENCH.step : Object.keys(job.steps[id]?.sets ?? {}).length === 0,
    )
    const found = everyReading({ ...job.plan, steps } as never).map((reading) => ({
      ...reading,
      wrenchId: wrench?.id,
    }))
    places.set(jobId, found)
    return found
  }

  async function tellOne(jobs: readonly string[]) {
    const turn = told++
    const jobId = jobs[turn % jobs.length] as string
    const of = await placesOf(jobId)
    const reading = of[Math.floor(turn / jobs.length) % of.length]
    const body = { commandId: shop.newId(), doneAt: shop.now(), ...reading }
    const answer = await shop.intake({ stream: `job:${jobId}`, body, deviceId: teller.deviceId })
    if (!answer.ok) throw new Error(`Telling ${jobId}: ${answer.sentence}`)
  }

  const working: string[] = []
  for (const { id } of shop.desk.summaries())
    if (id.startsWith('full-') && (await placesOf(id)).length > 0) working.push(id)
  const release = (await shop.desk.job(RELEASED))?.releases.at(-1)
  if (!release) throw new Error(`${RELEASED} was not released.`)
  return {
    opened: {
      origin: serving.address,
      cookie: `${COOKIE}=${looker.cookie}`,
      engines: shop.desk.summaries().length,
      working,
      atBench: AT_BENCH,
      released: { job: RELEASED, number: release.number },
      long: LONG.jobId,
    },
    async tell(jobs, count, atMostMs) {
      const until = performance.now() + atMostMs
      let done = 0
      while (done < count && performance.now() < until) {
        const some = Math.min(IN_FLIGHT, count - done)
        await Promise.all(Array.from({ length: some }, () => tellOne(jobs)))
        done += some
      }
      return done
    },
    async close() {
      await serving.close()
      await shop.close()
    },
  }
}
