/**
 * How the rulebook's cost grows: one more reading on a standing job, decided, folded and summarised, as steps of its plan and
 * readings in it are doubled. Pure functions in this process, apart from the server; every command meets the job that the
 * one before it left, so that what is kept by identity helps as much as in a shop, and no more.
 */
import { v7 } from 'uuid'
import type { JobCommand } from '../../../shared/job/commands'
import type { Context } from '../../../shared/job/context'
import { decide } from '../../../shared/job/decide'
import type { EventOf, JobEvent } from '../../../shared/job/events'
import { evolve, evolveAll, newJob } from '../../../shared/job/evolve'
import { summarise } from '../../../shared/job/summary'
import type { Job } from '../../../shared/job/types'
import { isRefusal } from '../../../shared/log'
import { adopt } from '../../../shared/plan/adopt'
import type { Plan } from '../../../shared/plan/types'
import { decideShop } from '../../../shared/shop/decide'
import { evolveShop, FIRST_TOLERANCES, newShop } from '../../../shared/shop/evolve'
import type { Shop, ShopEvent } from '../../../shared/shop/types'
import { longPlan } from '../../crowd/extremes'
import { demoPlan } from '../../shop/plans/demo'
import { DAY, MINUTE, START } from '../../shop/time'
import { figures } from '../../shop/words'
import type { Line } from '../harness/line'
import { inTurn, median } from '../harness/stats'
import { table as drawn } from '../harness/table'
import { everyReading, wholeBuild } from '../load/build'
import { DOER, SECOND, shopCommands } from '../load/shop'
import type { Figure } from './figure'

const STEPS = [50, 100, 200, 500, 1000, 2000]
const READINGS = [242, 500, 1000, 2000, 5000, 10_000]
/** One more reading so many times a run. */
const TAKEN = 40
/** As many as half of the smallest plan has. */
const PLACES = 16
const PARTS = ['decide', 'evolve', 'summarise'] as const
type Part = (typeof PARTS)[number]
type Cost = Record<Part, number>

/** A job somebody works on by the rulebook alone. */
function bench(plan: Plan) {
  const shop = shopOf(demoPlan('orrath-q31'))
  let now = START
  let job: Job = evolveAll(newJob('growth'), [
    {
      type: 'JobOpened',
      by: DOER,
      doneAt: START,
      number: 'G1',
      engine: { model: 'Growth', serial: 'G 1' },
      owner: 'Bench owner',
      agreed: 'Rebuild as agreed.',
    },
    { type: 'PlanAdopted', by: DOER, doneAt: START, plan: adopt(plan, FIRST_TOLERANCES) },
  ])
  const context = (by: string): Context => {
    now += MINUTE
    return { shop, by, doneAt: now, commandId: v7(), through: 'sign_in' }
  }
  const outcome = (command: JobCommand, by = DOER) => decide(job, command, context(by))
  return {
    job: () => job,
    /** Each run begins at the same place. */
    startFrom(standing: Job) {
      job = standing
    },
    /** A word may be refused, as in any shop; a fact never is. */
    does(command: JobCommand, by?: string) {
      const events = outcome(command, by)
      if (!isRefusal(events)) job = evolveAll(job, events)
    },
    happens(event: JobEvent) {
      job = evolve(job, event)
    },
    /** One more reading, each part on its own clock, in microseconds. */
    taken(command: JobCommand): Cost {
      const asked = context(DOER)
      const t0 = performance.now()
      const events = decide(job, command, asked)
      const t1 = performance.now()
      if (isRefusal(events)) throw new Error(`A reading was refused: ${events.refused}.`)
      const next = evolveAll(job, events)
      const t2 = performance.now()
      const summary = summarise(next, asked.doneAt)
      const t3 = performance.now()
      if (summary.version !== job.version + events.length) throw new Error('The summary is of another job.')
      job = next
      return { decide: (t1 - t0) * 1000, evolve: (t2 - t1) * 1000, summarise: (t3 - t2) * 1000 }
    },
  }
}

function shopOf(plan: Plan): Shop {
  let shop = newShop()
  for (const command of shopCommands(plan, START)) {
    const events = decideShop(shop, command, { by: DOER, doneAt: START - DAY, figures })
    if (isRefusal(events)) throw new Error(`The shop refused: ${events.refused}.`)
    shop = (events as ShopEvent[]).reduce(evolveShop, shop)
  }
  return shop
}

/** A plan of so many steps, the first half of them built and signed; readings on the same few places after it. */
function ofSteps(steps: number) {
  const plan = longPlan(steps)
  const one = bench(plan)
  const half = (from: number) => ({ ...plan, steps: plan.steps.slice(from, from + steps / 2) })
  for (const { by, command } of wholeBuild(half(0))) one.does(command, by === 'doer' ? DOER : SECOND)
  return { ...one, standing: one.job(), readings: everyReading(half(steps / 2)).slice(0, PLACES) }
}

/** The demonstration's plan, every place tightened again and again until so many readings are kept. */
function ofReadings(count: number) {
  const plan = demoPlan('orrath-q31')
  const one = bench(plan)
  const readings = everyReading(plan)
  for (const reading of readings) one.does(reading)
  const first = Object.values(one.job().readings).flat()
  // Copies of what the rules gave once, under names of their own: the fold is asked for each, the rules need not be.
  for (let n = first.length; n < count; n++) {
    const { id: _, superseded: __, struck: ___, ...facts } = first[n % first.length] as (typeof first)[number]
    const event = { type: 'ReadingTaken', ...facts, id: `copy-${n}`, doneAt: facts.doneAt + n * MINUTE }
    one.happens(event as EventOf<'ReadingTaken'>)
  }
  return { ...one, standing: one.job(), readings }
}

export const growth: Figure = {
  name: 'growth',
  what: 'one more reading, as the job grows',
  atMostSeconds: 300,
  async run({ rounds, quick, say }) {
    const upTo = (sizes: number[], most: number) => sizes.filter((size) => !quick || size <= most)
    return [
      ...(await grown('steps of the plan', upTo(STEPS, 1000), ofSteps)),
      ...(await grown('readings in the job', upTo(READINGS, 5000), ofReadings)),
    ]

    async function grown(what: string, sizes: number[], of: typeof ofSteps): Promise<Line[]> {
      const jobs = new Map(sizes.map((size) => [size, of(size)]))
      const got = await inTurn(rounds, sizes, async (size, round) => {
        const one = jobs.get(size) as ReturnType<typeof of>
        one.startFrom(one.standing)
        const costs = Array.from({ length: TAKEN }, (_, n) => {
          // A stride that shares no factor with the places: all over the engine, and elsewhere each round.
          const command = one.readings[((round * TAKEN + n) * 37) % one.readings.length]
          return one.taken(command as JobCommand)
        })
        return Object.fromEntries(
          PARTS.map((part) => [part, median(costs.map((cost) => cost[part]))]),
        ) as Cost
      })
      const costAt = (size: number, part: Part) => median((got.get(size) ?? []).map((cost) => cost[part]))
      const rows = sizes.map((size): Line[] =>
        PARTS.map((part) => ({
          figure: 'growth',
          what: `${part} at ${size.toLocaleString('en')} ${what}`,
          unit: 'µs',
          ours: costAt(size, part),
          reference: costAt(sizes[0] as number, part),
        })),
      )
      say(drawn(rows.flat()))
      return PARTS.map((part) => {
        const costs = sizes.map((size) => costAt(size, part))
        const steps = sizes.slice(1).map((size, n) => {
          const [from, before, after] = [sizes[n] as number, costs[n] as number, costs[n + 1] as number]
          // As if the size had exactly doubled.
          return { from, size, times: (after / before) ** (1 / Math.log2(size / from)) }
        })
        const worst = steps.reduce((most, one) => (one.times > most.times ? one : most))
        return {
          figure: 'growth',
          what: `${part}, worst doubling of ${what}`,
          unit: 'times',
          ours: worst.times,
          goal: { by: 'ours', wants: 'at most', goal: 2.4, stretch: 2 },
          notes: [
            `µs: ${sizes.map((size, n) => `${size.toLocaleString('en')} ${(costs[n] as number).toFixed(0)}`).join(', ')}; worst from ${worst.from.toLocaleString('en')} to ${worst.size.toLocaleString('en')}`,
          ],
        } satisfies Line
      })
    }
  },
}
