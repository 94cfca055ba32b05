/** The rig's small shop behind the whole server, on a folder of its own that is gone afterwards. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { v7 } from 'uuid'
import { takeBackup } from '../../server/backups/take'
import { counting } from '../../server/box/tally'
import { type After, bodyHash } from '../../server/desk'
import { type App, makeApp } from '../../server/http/app'
import type { Rooms } from '../../server/http/parts'
import { type OpenShop, openShop } from '../../server/open-shop'
import { makePurses } from '../../server/purse'
import { silent } from '../shop/silent'
import { openJob, openShop as shopCommands } from '../shop/yard'

export const PINS = { ana: '4711', bo: '20406081' }
/** What the console printed for whoever opens the shop. */
export const CODE = '1234 5678'
export const ORIGIN = 'http://127.0.0.1:4747'

export interface House {
  shop: OpenShop
  rooms: Rooms
  app: App
  clock: { ahead: number; steady: number }
  /** So long on every clock. */
  pass(ms: number): void
  close(): Promise<void>
}

export async function makeHouse({
  open = true,
  web = {},
  after,
}: {
  open?: boolean
  web?: Partial<Rooms['web']>
  after?: (clock: { ahead: number }) => After
} = {}) {
  const folder = mkdtempSync(join(tmpdir(), 'paintmark-house-'))
  const clock = { ahead: 0, steady: 0 }
  const shop = await openShop({
    dataFolder: folder,
    now: () => Date.now() + clock.ahead,
    monotonic: () => performance.now() + clock.steady,
    log: silent,
    take: takeBackup,
    ...(after ? { after: after(clock) } : {}),
  })
  const rooms: Rooms = {
    ...shop,
    ...counting(shop.intake),
    purses: makePurses(shop.monotonic),
    log: silent,
    firstRunCode: CODE,
    web: { cookieName: 'paintmark', secure: false, loopbackOnly: true, folder: join(folder, 'web'), ...web },
  }
  if (open) {
    const submit = async (stream: 'shop' | `job:${string}`, command: object) => {
      const sent = { ...command, commandId: v7() } as never
      const answer = await shop.desk.submit({
        stream,
        command: sent,
        bodyHash: bodyHash(stream, sent),
        asker: { person: 'ana', through: 'sign_in' },
        receivedAt: shop.now(),
      })
      if (!answer.ok) throw new Error(answer.sentence)
    }
    for (const command of shopCommands) await submit('shop', command)
    for (const command of openJob()) await submit('job:j1', command)
    await Promise.all(Object.entries(PINS).map(([id, pin]) => shop.people.setPin(id, pin)))
  }
  const house: House = {
    shop,
    rooms,
    app: makeApp(rooms),
    clock,
    pass(ms) {
      clock.ahead += ms
      clock.steady += ms
    },
    async close() {
      await shop.close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
  return house
}

/** One browser: keeps its cookie, sends an Origin as browsers do. */
export function browser(app: App) {
  const jar = { cookie: '' }
  async function ask(method: string, path: string, body?: unknown, headers: Record<string, string> = {}) {
    const response = await app.request(`${ORIGIN}${path}`, {
      method,
      headers: {
        ...(method === 'GET' ? {} : { origin: ORIGIN }),
        ...(jar.cookie ? { cookie: jar.cookie } : {}),
        ...headers,
      },
      ...(body === undefined ? {} : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
    })
    const set = response.headers.get('set-cookie')
    if (set) jar.cookie = set.split(';')[0] ?? ''
    const text = await response.text()
    return { status: response.status, headers: response.headers, text, json: text ? safely(text) : undefined }
  }
  return {
    jar,
    get: (path: string, headers?: Record<string, string>) => ask('GET', path, undefined, headers),
    post: (path: string, body: unknown, headers?: Record<string, string>) => ask('POST', path, body, headers),
    async signIn(personId: keyof typeof PINS) {
      const answer = await ask('POST', '/api/sign-in', { personId, pin: PINS[personId] })
      if (answer.status !== 201) throw new Error(answer.text)
      return answer.json.signIn.id as string
    },
  }
}

// biome-ignore lint/suspicious/noExplicitAny: a test looks at whatever came.
function safely(text: string): any {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

export const command = (rest: object) => ({ commandId: v7(), ...rest })
