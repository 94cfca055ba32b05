/**
 * The example plans of the repository: invented, marked so, and in no shop's library until somebody adds one.
 *
 * For a first look, before the shop has a plan file of its own. Read once, when first asked for.
 */
import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { Hono } from 'hono'
import { counts } from '../../shared/plan/counts'
import { readPlanText } from '../../shared/plan/schema'
import type { Plan } from '../../shared/plan/types'
import type { Log } from '../desk'
import { format } from '../format'
import { repoFolder } from '../repo-folder'
import { signedIn } from './guard'
import { type Env, notFound, type Rooms } from './parts'

/** By title. A file that is no plan is left out and told to the log; one not marked as invented is no example. */
export async function readExamples(folder: string, log: Log): Promise<Plan[]> {
  const names = await readdir(folder).catch(() => [])
  const plans: Plan[] = []
  for (const name of names.filter((file) => file.endsWith('.json'))) {
    const reading = readPlanText(await readFile(join(folder, name), 'utf8'), format)
    if ('faults' in reading) log.warn({ name, faults: reading.faults.length }, 'An example plan has faults.')
    else if (reading.plan.invented) plans.push(reading.plan)
  }
  return plans.sort((a, b) => a.title.localeCompare(b.title, 'en'))
}

export function exampleRoutes({ log }: Pick<Rooms, 'log'>) {
  let reading: Promise<Plan[]> | undefined
  const examples = () => {
    reading ??= readExamples(join(repoFolder(), 'seed', 'plans'), log)
    return reading
  }
  return new Hono<Env>()
    .get('/example-plans', signedIn, async (c) =>
      c.json(
        (await examples()).map((plan) => {
          const { id, edition, title, family, source } = plan
          return { id, edition, title, family, source, invented: true, counts: counts(plan) }
        }),
      ),
    )
    .get('/example-plans/:id', signedIn, async (c) => {
      const plan = (await examples()).find(({ id }) => id === c.req.param('id'))
      return plan ? c.json(plan) : notFound(c, 'There is no such example. Look at GET /api/example-plans.')
    })
}
