/** Jobs: the board, one job, its events, its trail and its stored chain, and the commands to it. Routes translate; no rule lives here. */
import { Hono } from 'hono'
import type { Chain } from '../../shared/chain'
import type { JobEvent } from '../../shared/job/events'
import { isFinished } from '../../shared/job/reason'
import { trailLine } from '../../shared/job/trail'
import type { StreamEvent } from '../../shared/log'
import type { Fault } from '../../shared/protocol'
import { sealedBesideSchema } from '../../shared/schema'
import { check } from '../check'
import { JOB_ID, jobStream } from '../desk'
import { signedIn } from './guard'
import { badId, type Ctx, type Env, fromDesk, json, notFound, type Rooms } from './parts'

export function jobRoutes({ desk, intake, now }: Rooms) {
  const noJob = (c: Ctx) => notFound(c, 'No job is open under this id. Look it up on the board.')

  return new Hono<Env>()
    .get('/board', signedIn, (c) => {
      const all = desk.summaries()
      const summaries = c.req.query('left') === undefined ? all : all.filter(isFinished)
      return c.json({ summaries, now: now() })
    })
    .get('/finished', signedIn, async (c) => {
      const number = c.req.query('number')
      if (number !== undefined) return c.json({ jobs: await desk.finished({ number }) })
      const from = Number(c.req.query('from'))
      const until = Number(c.req.query('until'))
      if (!Number.isSafeInteger(from) || !Number.isSafeInteger(until) || from >= until)
        return badId(
          c,
          '/from',
          'name a job number, or from and until in milliseconds since 1970, the earlier first',
        )
      return c.json({ jobs: await desk.finished({ from, until }) })
    })
    .get('/next-number', signedIn, async (c) => c.json({ number: await desk.nextNumber() }))
    .get('/jobs/:id', signedIn, async (c) => {
      const id = c.req.param('id')
      const job = await desk.job(id)
      if (!job) {
        // Somebody typed what is painted on the engine.
        const [meant, ...more] = await desk.jobsOfNumber(id)
        return meant === undefined || more.length > 0 ? noJob(c) : c.redirect(`/api/jobs/${meant}`)
      }
      const tag = `W/"${job.version}"`
      c.header('ETag', tag)
      c.header('Cache-Control', 'private, no-cache')
      const clientTags = c.req.header('if-none-match')?.split(',').map(strong)
      if (clientTags?.includes(strong(tag))) return c.body(null, 304)
      return c.json(job)
    })
    .get('/jobs/:id/events', signedIn, async (c) => {
      const id = c.req.param('id')
      const after = Number(c.req.query('after') ?? 0)
      if (!Number.isSafeInteger(after) || after < 0)
        return badId(c, '/after', 'a version is a whole number from 0')
      const job = await desk.job(id)
      if (!job) return noJob(c)
      return c.json({
        from: after,
        version: job.version,
        events: await desk.eventsAfter(jobStream(id), after),
      })
    })
    .get('/jobs/:id/chain', signedIn, async (c) => {
      const stream = jobStream(c.req.param('id'))
      const upToText = c.req.query('upTo')
      const upTo = upToText === undefined ? Number.MAX_SAFE_INTEGER : Number(upToText)
      if (!Number.isSafeInteger(upTo) || upTo < 1)
        return badId(c, '/upTo', 'a version to end with is a whole number from 1')
      const rows = await desk.chain(stream)
      if (rows.length === 0) return noJob(c)
      return c.json({ stream, rows: rows.slice(0, upTo) } satisfies Chain)
    })
    .get('/jobs/:id/trail', signedIn, async (c) => {
      const id = c.req.param('id')
      const job = await desk.job(id)
      if (!job) return noJob(c)
      const words = await desk.words()
      const events = (await desk.eventsAfter(jobStream(id), 0)) as StreamEvent<JobEvent>[]
      return c.json({ lines: events.map((entry) => trailLine(job, entry, words)) })
    })
    .post('/jobs/:id/commands', async (c) => {
      const id = c.req.param('id')
      if (!JOB_ID.test(id)) return badId(c, '', 'a job’s id has 1 to 64 letters, digits, _ or -')
      const input = await json(c)
      if ('answer' in input) return input.answer
      const message = apart(input.value)
      if ('fault' in message) return fromDesk(c, message.fault)
      return fromDesk(c, await intake({ stream: jobStream(id), ...message, deviceId: c.var.deviceId }))
    })
}

/** A sealed PIN stands beside the command, not in it: it is taken out before anybody looks at that. */
function apart(value: unknown): { body: unknown; sealed?: string } | { fault: Fault } {
  if (typeof value !== 'object' || value === null || !('sealed' in value)) return { body: value }
  const { sealed, ...body } = value
  const checked = check(sealedBesideSchema, { sealed })
  return 'fault' in checked ? checked : { body, sealed: checked.value.sealed }
}

/** Without the mark of a weak tag: a proxy that compresses may put it there. */
const strong = (tag: string) => tag.trim().replace(/^W\//, '')
