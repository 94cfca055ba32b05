/** Everything HTTP, in the order it is met, as the rules WI1 to WI5, WI9 and WI12 to WI14 say; WI6 to WI11 are the sockets’ (`../gateway`). */
import { Hono } from 'hono'
import { html } from 'hono/html'
import { requestId } from 'hono/request-id'
import { countOne } from '../box/tally'
import { diskSentence } from '../disk'
import { ChainBroken } from '../store'
import { backupRoutes } from './backups'
import { compressJson } from './compress'
import { demoRoutes } from './demo'
import { entryRoutes } from './entries'
import { exampleRoutes } from './examples'
import { pages } from './files'
import { bodyLimits, headers, originCheck, weigh, whoAsks } from './guard'
import { jobRoutes } from './jobs'
import { metricsRoutes } from './metrics'
import { type Env, notFound, problem, type Rooms } from './parts'
import { photoRoutes } from './photos'
import { shopRoutes } from './shop'
import { signInRoutes } from './sign-in'
import { trustRoutes } from './trust'
import { showsPages, wordsPage } from './words-page'

export type { Rooms } from './parts'

export function makeApp(rooms: Rooms) {
  const { log, web, demo, box, tally } = rooms
  const api = new Hono<Env>()
    .use(async (_, next) => {
      // A demonstration that begins anew has no shop for a moment; whoever asks then is answered by the new one.
      await demo?.ready()
      return next()
    })
    .use(whoAsks(rooms), weigh(rooms), compressJson, bodyLimits)
    .use(async (c, next) => {
      c.header('Cache-Control', 'no-store')
      return next()
    })
    .route('/', signInRoutes(rooms))
    .route('/', jobRoutes(rooms))
    .route('/', shopRoutes(rooms))
    .route('/', exampleRoutes(rooms))
    .route('/', photoRoutes(rooms))
    .route('/', entryRoutes(rooms))
    .route('/', backupRoutes(rooms))
    .route('/', demoRoutes(rooms))
    .all('*', (c) => notFound(c, `Nothing is at ${c.req.path}. GET /api/schema names what can be sent.`))

  const app = new Hono<Env>()
    .use(requestId())
    .use(headers)
    .use(async (c, next) => {
      const startedAt = performance.now()
      await next()
      const ms = Math.round(performance.now() - startedAt)
      countOne(tally.requests, `${Math.floor(c.res.status / 100)}xx`)
      tally.requestSeconds += ms / 1000
      const { method, path } = c.req
      log.debug({ requestId: c.var.requestId, method, path, status: c.res.status, ms }, 'Answered.')
    })
    .get('/healthz', async (c) => {
      await demo?.ready()
      const health = await box.health()
      return c.json(health, health.ok ? 200 : 503)
    })
    .use(originCheck(rooms))
    .route('/api', api)
    .route('/', metricsRoutes(rooms))
    .route('/', trustRoutes(rooms))
    .use(pages(web.folder))

  app.notFound((c) => {
    const { method, path } = c.req
    const asksForPage = (method === 'GET' || method === 'HEAD') && showsPages(c.req.header('accept'))
    return asksForPage ? c.html(noPage, 404) : notFound(c, `Nothing is at ${path}.`)
  })
  app.onError((err, c) => {
    log.error({ err, requestId: c.get('requestId') }, 'A request failed.')
    if (err instanceof ChainBroken)
      return problem(c, 500, 'damaged', `${err.message} Nothing of this record is shown until then.`)
    const onDisk = diskSentence(err)
    if (onDisk) return problem(c, 503, 'not_saved', onDisk)
    return problem(
      c,
      500,
      'server_fault',
      'The server failed at this; nothing was recorded. Try again; if it stays so, look into its log.',
      { requestId: c.get('requestId') },
    )
  })
  return app
}

const noPage = wordsPage(
  'No page has this address',
  html`<p>Look at it again, or go <a href="/">to the board</a>.</p>`,
)

export type App = ReturnType<typeof makeApp>
