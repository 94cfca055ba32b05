/** The shop, its plan library, commands to it, and what messages look like. */
import { Hono } from 'hono'
import { counts } from '../../shared/plan/counts'
import { readPlanText } from '../../shared/plan/schema'
import { publishedSchema } from '../../shared/schema'
import { format } from '../format'
import { eventWithoutPlanBody, withoutPlanBodies } from '../plan-bodies'
import { signedIn } from './guard'
import { type Env, fromDesk, json, notFound, problem, type Rooms } from './parts'

export function shopRoutes({ desk, intake, photos }: Rooms) {
  let schema: ReturnType<typeof publishedSchema> | undefined

  return new Hono<Env>()
    .get('/schema', (c) => {
      schema ??= publishedSchema()
      return c.json(schema)
    })
    .get('/shop', signedIn, async (c) => {
      const shop = await desk.shop()
      return c.json(c.req.query('plans') === 'full' ? shop : withoutPlanBodies(shop))
    })
    .post('/shop/commands', async (c) => {
      const input = await json(c)
      if ('answer' in input) return input.answer
      const answer = await intake({ stream: 'shop', body: input.value, deviceId: c.var.deviceId })
      return fromDesk(c, answer.ok ? { ...answer, events: answer.events.map(eventWithoutPlanBody) } : answer)
    })
    .get('/plans/:id/:edition', signedIn, async (c) => {
      const { id, edition } = c.req.param()
      const { plans } = await desk.shop()
      const plan = Object.hasOwn(plans, id) ? plans[id]?.[Number(edition)] : undefined
      return plan
        ? c.json(plan)
        : notFound(c, 'The library has no such plan and edition. Look at GET /api/shop.')
    })
    .post('/plans/read', signedIn, async (c) => {
      const { wrenches, tolerances } = await desk.shop()
      const atHand = { wrenches, tolerances, bytesHere: photos.has }
      const reading = readPlanText(await c.req.text(), format, atHand)
      if ('faults' in reading) {
        const [first] = reading.faults
        const sentence = first ? `${first.path}: ${first.problem}. ${first.inFile ?? first.fix}` : ''
        return problem(c, 400, 'plan_has_faults', sentence, { faults: reading.faults })
      }
      const { steps: _, stages, ...header } = reading.plan
      return c.json({ plan: { ...header, stages }, counts: counts(reading.plan), cautions: reading.cautions })
    })
}
