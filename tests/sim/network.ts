/**
 * What lies between the devices and the server: lines that carry messages in order, requests over HTTP, and everything
 * that can happen to either on the way. `sockets.ts` and `browser.ts` speak through it.
 */
import type { Hono } from 'hono'
import { after, atOnce, below, between, NOBODY, type Realm } from './world'

/** One life of the server. */
export interface ServerLife extends Realm {
  build: number
  /** Its end of the sockets; `sockets.ts` knows what it is. */
  io?: unknown
  app?: { fetch: Hono['fetch'] }
}

/** The side of a page that the network sees. */
export interface NetworkedPage extends Realm {
  device: { cookie: string; linkUp: boolean }
  /** Which build served it; one speaks only with its like. */
  build: number
  /** What is broadcast to it may be lost, doubled or overtaken. */
  badAir: boolean
}

/** What can happen once to one command, or to one photo's bytes. */
export const ON_THE_WAY = [
  'request lost',
  'answer lost',
  'doubled',
  'overtaken',
  'stalled',
  'answer stalled',
  'line cut before it arrives',
  'line cut before the answer',
] as const
export type OnTheWay = (typeof ON_THE_WAY)[number]

export const ORIGIN = 'http://127.0.0.1:4747'

/** Beyond every wait for an answer. */
export const stallMs = () => between(16_000, 60_000)
export const latencyMs = () => between(1, 120)

interface Pending {
  page: NetworkedPage
  life: ServerLife | undefined
  fail(): void
}

export interface Network {
  life: ServerLife | undefined
  /** By command id, or a photo's hash. */
  armed: Map<string, OnTheWay>
  /** What was armed came to pass. */
  hit(what: string, key: string): void
  pending: Set<Pending>
}

export const network: Network = {
  life: undefined,
  armed: new Map(),
  hit: () => undefined,
  pending: new Set(),
}

export function beginNetwork(hit: Network['hit']): void {
  network.life = undefined
  network.armed.clear()
  network.pending.clear()
  network.hit = hit
}

export function onTheWay(key: string | undefined): OnTheWay | undefined {
  const what = key === undefined ? undefined : network.armed.get(key)
  if (key === undefined || what === undefined) return undefined
  network.armed.delete(key)
  network.hit(what, key)
  return what
}

/** Requests that are under way to a server that is gone, or over a link that is. */
export function failRequests(of: (pending: Pending) => boolean): void {
  for (const pending of [...network.pending].filter(of)) after(between(5, 20_000), NOBODY, pending.fail)
}

const PHOTO = /^\/api\/photos\/([0-9a-f]{64})$/
/** A browser gives a request up in the end. */
const GIVEN_UP_MS = 120_000

interface PlainAnswer {
  status: number
  text: string
  cookie: string | undefined
}

export async function request(page: NetworkedPage, path: string, init: RequestInit = {}): Promise<Response> {
  const body = init.body instanceof Blob ? await init.body.arrayBuffer() : init.body
  const what = onTheWay(PHOTO.exec(path)?.[1])
  return new Promise((resolve, reject) => {
    const { life } = network
    let settled = false
    const settle = (how: () => void) => {
      if (settled || page.dead) return
      settled = true
      network.pending.delete(pending)
      after(0, page, how)
    }
    const fail = () => settle(() => reject(new TypeError('Failed to fetch')))
    const pending: Pending = { page, life, fail }
    init.signal?.addEventListener('abort', fail)
    if (!life || life.dead || !page.device.linkUp) {
      after(between(1, 3000), NOBODY, fail)
      return
    }
    network.pending.add(pending)
    after(GIVEN_UP_MS, NOBODY, fail)
    if (what === 'request lost') return
    if (what === 'line cut before it arrives') {
      after(latencyMs(), NOBODY, fail)
      return
    }

    const arrive = async () => {
      if (!page.device.linkUp) return
      const answer = await atOnce(ask(life, page, path, { ...init, body: body ?? null }))
      if (life.dead || what === 'answer lost') return
      if (what === 'line cut before the answer') return after(latencyMs(), NOBODY, fail)
      after(what === 'answer stalled' ? GIVEN_UP_MS : latencyMs(), NOBODY, () => {
        if (!page.device.linkUp) return
        settle(() => {
          if (answer.cookie) page.device.cookie = answer.cookie
          const { status, text } = answer
          resolve({
            ok: status >= 200 && status < 300,
            status,
            json: async () => JSON.parse(text),
          } as Response)
        })
      })
    }
    const late = what === 'stalled' ? GIVEN_UP_MS + stallMs() : what === 'overtaken' ? 3000 : 0
    after(latencyMs() + late, life, arrive)
    if (what === 'doubled') after(latencyMs() + between(0, 4000), life, arrive)
  })
}

async function ask(
  life: ServerLife,
  page: NetworkedPage,
  path: string,
  init: RequestInit,
): Promise<PlainAnswer> {
  const { signal: _, credentials: __, headers, ...rest } = init
  const method = init.method ?? 'GET'
  const asked = new Request(`${ORIGIN}${path}`, {
    ...rest,
    headers: { ...(headers as Record<string, string>), origin: ORIGIN, cookie: page.device.cookie },
    ...(method === 'GET' ? { body: null } : {}),
  })
  const answer = await (life.app as NonNullable<ServerLife['app']>).fetch(asked)
  const cookie = answer.headers.get('set-cookie')?.split(';')[0]
  return { status: answer.status, text: await answer.text(), cookie }
}

/** Whether something not told in particular happens to what is broadcast. */
export const inBadAir = (page: NetworkedPage): 'lost' | 'doubled' | 'overtaken' | undefined =>
  page.badAir ? ([undefined, undefined, 'lost', 'doubled', 'overtaken'] as const)[below(5)] : undefined
