/** The shop as shipped, opened in the server process and filled with jobs through the front door. */
import { makeLog } from '../../../server/log'
import { type OpenShop, openShop } from '../../../server/open-shop'
import { type Serving, serve } from '../../../server/serve'
import type { Plan } from '../../../shared/plan/types'
import { demoPlan } from '../../shop/plans/demo'
import { percentile } from '../harness/stats'
import { everyReading, type Sent, wholeBuild } from '../load/build'
import { DOER, SECOND, shopCommands } from '../load/shop'
import type { JobSpec, Worked } from './calls'

export const COOKIE = 'paintmark'
/** Fewer than the folds the desk keeps, so that making jobs does not read them again and again. */
const AT_ONCE = 40

/** Each board of a figure is a device of its own. */
const DEVICES = 200

const WORDS = new Set(['ClaimStep', 'SignStep', 'SecondSignStep'])
const isWord = (body: object) => 'type' in body && WORDS.has(String(body.type))

export interface Ours {
  shop: OpenShop
  serving: Serving
  dataFolder: string
  cookie: string
  devices: string[]
  plan: Plan
  add(jobs: readonly JobSpec[]): Promise<string[]>
  /** A reading on each of these jobs in turn, one at a time; the first `untimed` count for nothing. */
  workInTurn(jobs: readonly string[], untimed: number, timed: number): Promise<Worked>
  close(): Promise<void>
}

/** On a fresh data folder, or on one it filled before. */
export async function openOurs(dataFolder: string): Promise<Ours> {
  const log = makeLog('warn')
  const shop = await openShop({ dataFolder, now: Date.now, log })
  const settings = {
    port: 0,
    host: '127.0.0.1',
    dataFolder,
    behindProxy: false,
    tls: false,
    logLevel: 'warn',
  } as const
  const serving = await serve(shop, settings, { cookieName: COOKIE, log })
  const plan = demoPlan('orrath-q31')
  const doer = device(DOER)
  const second = device(SECOND)
  let made = 0

  function device(personId: string) {
    const { deviceId, cookie } = shop.people.addDevice()
    shop.people.signIn(deviceId, personId)
    return { deviceId, cookie: `${COOKIE}=${cookie}` }
  }

  async function send(stream: 'shop' | `job:${string}`, body: object, deviceId = doer.deviceId) {
    const given = await shop.intake({ stream, body: { commandId: shop.newId(), ...body }, deviceId })
    // A word may be refused here as in any shop: the demo plan has a joint without a published value.
    if (!given.ok && !isWord(body)) throw new Error(`Filling the shop: ${given.sentence}`)
  }

  async function makeJob(
    index: number,
    { commands, bytes = Number.POSITIVE_INFINITY, retakes = 0 }: JobSpec,
  ): Promise<string> {
    const id = `bench-${String(index).padStart(5, '0')}`
    const stream = `job:${id}` as const
    const engine = { model: 'Bench engine 3-cylinder', serial: `BE ${10_000 + index}`, drives: 'work boat' }
    const number = `B${String(index).padStart(5, '0')}`
    await send(stream, {
      type: 'OpenJob',
      number,
      engine,
      owner: 'Bench owner',
      agreed: 'Rebuild as agreed.',
    })
    await send(stream, { type: 'AdoptPlan', planId: plan.id, edition: plan.edition })
    const build = wholeBuild(plan).slice(0, commands)
    const readings = everyReading(plan)
    const again = Array.from(
      { length: retakes },
      (_, n): Sent => ({ by: 'doer', command: readings[n % readings.length] as Sent['command'] }),
    )
    // Times as they fall at a bench, not a millisecond apart: they travel, and equal ones would pack too well.
    let doneAt = Date.now() - 30 * 86_400_000
    let chance = 12_345 + index
    const handIn = ({ by, command }: Sent) => {
      chance = (chance * 48_271) % 2_147_483_647
      doneAt += 8_000 + (chance % 60_000)
      const head = { doneAt, clockOffsetMs: 37 }
      return send(stream, { ...head, ...command }, by === 'doer' ? doer.deviceId : second.deviceId)
    }
    for (const sent of build) {
      if (bytes < Number.POSITIVE_INFINITY && JSON.stringify(await shop.desk.job(id)).length >= bytes) break
      await handIn(sent)
    }
    for (const sent of again) await handIn(sent)
    return id
  }

  // The first command of a shop is let in without a person; see first-run.
  if (!(await shop.desk.shop()).opened)
    for (const command of shopCommands(plan, Date.now())) await send('shop', command)

  return {
    shop,
    serving,
    dataFolder,
    cookie: doer.cookie,
    devices: Array.from({ length: DEVICES }, () => device(DOER).cookie),
    plan,
    async add(jobs) {
      const ids: string[] = []
      for (let at = 0; at < jobs.length; at += AT_ONCE) {
        const some = jobs.slice(at, at + AT_ONCE).map((spec) => {
          made += 1
          return makeJob(made, spec)
        })
        ids.push(...(await Promise.all(some)))
      }
      return ids
    },
    async workInTurn(jobs, untimed, timed) {
      const readings = everyReading(plan)
      const times: number[] = []
      let before = process.cpuUsage()
      for (let turn = 0; turn < untimed + timed; turn++) {
        if (turn === untimed) before = process.cpuUsage()
        const begun = performance.now()
        await send(`job:${jobs[turn % jobs.length]}`, readings[turn % readings.length] as object)
        if (turn >= untimed) times.push(performance.now() - begun)
      }
      const { user, system } = process.cpuUsage(before)
      return { p50: percentile(times, 0.5), cpuMs: (user + system) / 1000 / timed }
    },
    async close() {
      await serving.close()
      await shop.close()
    },
  }
}
