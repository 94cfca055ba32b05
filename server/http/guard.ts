/** What stands before every route: request ids, headers, whose page may call, how long a body may be. */

import type { MiddlewareHandler } from 'hono'
import { getCookie } from 'hono/cookie'
import { createMiddleware } from 'hono/factory'
import { secureHeaders } from 'hono/secure-headers'
import { SIGNED_OUT } from '../people'
import { PHOTO_MOST_BYTES } from '../photos/shelf'
import { hard, made, REFUSED, ready, WHOLE_LOG } from '../purse'
import { addressOf, type Env, problem, type Rooms, UNKNOWN } from './parts'

const SAFE = new Set(['GET', 'HEAD', 'OPTIONS'])
const LOOPBACK = /^(localhost|127(\.\d{1,3}){3}|\[::1\])(:\d+)?$/

/** [WI2] Scripts, styles and fonts come from here and nowhere else; nobody frames the page. */
export const headers = secureHeaders({
  contentSecurityPolicy: {
    defaultSrc: ["'self'"],
    // Positions on the bolt map and lengths on the strip are set as style attributes by the browser's own code.
    styleSrc: ["'self'", "'unsafe-inline'"],
    imgSrc: ["'self'", 'data:', 'blob:'],
    connectSrc: ["'self'"],
    objectSrc: ["'none'"],
    baseUri: ["'none'"],
    formAction: ["'self'"],
    frameAncestors: ["'none'"],
  },
  referrerPolicy: 'no-referrer',
  xFrameOptions: 'DENY',
  crossOriginOpenerPolicy: 'same-origin',
  crossOriginResourcePolicy: 'same-origin',
  // The name is given by `trust.ts` only after the certificate is; a browser told too early locks people out.
  strictTransportSecurity: false,
  permissionsPolicy: { geolocation: [], microphone: [], payment: [], usb: [], camera: ['self'] },
})

/** Whether a page from this origin may ask this host for anything that changes something. */
export function mayCall(
  ask: { origin: string | undefined; host: string | undefined; fetchSite: string | undefined },
  loopbackOnly: boolean,
): boolean {
  const { origin, host, fetchSite } = ask
  if (host === undefined || (loopbackOnly && !LOOPBACK.test(host))) return false
  // Without an Origin it is no browser, or one that says itself where the page came from.
  if (origin === undefined)
    return fetchSite === undefined || fetchSite === 'same-origin' || fetchSite === 'none'
  return URL.canParse(origin) && new URL(origin).host === host
}

/** Behind a proxy it is mostly the proxy, so what it must pass on is named. */
export const wrongOrigin = (
  ask: { origin: string | undefined; host: string | undefined },
  behindProxy: boolean,
) =>
  behindProxy && ask.origin !== undefined
    ? `The page is at ${ask.origin}, but the proxy asked this server as ${ask.host ?? 'nobody'}. The proxy must pass the header Host on as the browser sent it, and for sockets Upgrade and Connection too; README shows how.`
    : 'This call came from a page of another address. Open Paintmark itself and do it there.'

/** [WI3] */
export const originCheck = ({ web }: Rooms) =>
  createMiddleware<Env>(async (c, next) => {
    const host = new URL(c.req.url).host
    const ask = { origin: c.req.header('origin'), host, fetchSite: c.req.header('sec-fetch-site') }
    const safe = SAFE.has(c.req.method)
    if (safe ? !web.loopbackOnly || LOOPBACK.test(host) : mayCall(ask, web.loopbackOnly)) return next()
    return problem(c, 403, 'wrong_origin', wrongOrigin(ask, web.behindProxy === true))
  })

/**
 * A body that does not say its length, chunked or empty, is read here, up to the most it may have. Not by the framework's own
 * middleware: that hands the request to the platform's `Request`, which does not know the adapter's for one.
 */
const limit =
  (most: number, inWords: string): MiddlewareHandler<Env> =>
  async (c, next) => {
    const tooLong = () =>
      problem(c, 413, 'too_long', `The body is longer than ${inWords}, the most this address takes.`)
    const told = c.req.header('transfer-encoding') === undefined ? c.req.header('content-length') : undefined
    if (told !== undefined) return Number(told) > most ? tooLong() : next()
    const { body } = c.req.raw
    if (!body) return next()
    const chunks: Uint8Array[] = []
    let length = 0
    for await (const chunk of body) {
      length += chunk.byteLength
      if (length > most) return tooLong()
      chunks.push(chunk)
    }
    const { url, method, headers } = c.req.raw
    c.req.raw = new Request(url, { method, headers, body: Buffer.concat(chunks) })
    return next()
  }

const planLimit = limit(4 * 1024 * 1024, '4 MB')
const photoLimit = limit(PHOTO_MOST_BYTES, '12 MB')
const plainLimit = limit(64 * 1024, '64 kB')
const TAKE_PLANS = new Set(['/api/shop/commands', '/api/plans/read'])

/** [WI4] Plans are long, photos longer; nothing else is. */
export const bodyLimits = createMiddleware<Env>((c, next) => {
  const { path } = c.req
  return (TAKE_PLANS.has(path) ? planLimit : path.startsWith('/api/photos/') ? photoLimit : plainLimit)(
    c,
    next,
  )
})

/** Who asks, as far as the cookie says. */
export const whoAsks = ({ people, web }: Rooms) =>
  createMiddleware<Env>(async (c, next) => {
    const deviceId = people.deviceOf(getCookie(c, web.cookieName))
    if (deviceId) {
      c.set('deviceId', deviceId)
      c.set('signIn', people.current(deviceId))
    }
    return next()
  })

const HARD = /^\/api\/(?:jobs\/[^/]+\/(?:trail|chain|events)|plans\/.*)$/

/** [WI9] What a device asks over HTTP is weighed with what it asks over its sockets. */
export const weigh = ({ purses, web, tally }: Rooms) =>
  createMiddleware<Env>(async (c, next) => {
    const address = web.behindProxy ? UNKNOWN : addressOf(c)
    const who = c.var.deviceId ?? (address === UNKNOWN ? undefined : address)
    if (who === undefined) return next()
    const { path } = c.req
    const waitMs = purses.ask(who, HARD.test(path) ? WHOLE_LOG : 1)
    if (waitMs > 0) {
      tally.heldBack += 1
      c.header('Retry-After', `${Math.ceil(waitMs / 1000)}`)
      return problem(
        c,
        429,
        'too_many',
        'Too much was asked from this device at once. Wait a moment, then try again.',
      )
    }
    await next()
    const sent = Number(c.req.header('content-length') ?? 0)
    const given = c.var.answerBytes ?? 0
    const isPhoto = path.startsWith('/api/photos/')
    const coins = isPhoto
      ? ready(sent + given)
      : HARD.test(path)
        ? hard(sent + given)
        : hard(sent) + made(given)
    purses.pay(who, coins + (c.res.status >= 400 ? REFUSED : 0))
  })

export const signedIn = createMiddleware<Env>(async (c, next) => {
  if (c.var.signIn) return next()
  return c.json(SIGNED_OUT, 401)
})
