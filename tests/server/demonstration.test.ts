/** The demonstration behind its server: its day, its restart, its folder; and that a real shop has none of it. */
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { io, type Socket } from 'socket.io-client'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { D0, shopClock } from '../../seed/clock'
import { type Demonstration, openDemonstration } from '../../seed/demonstration'
import { claimFolder, emptyFolder, refuseDemonstration } from '../../server/demonstration/folder'
import { openShop } from '../../server/open-shop'
import { type Serving, serve } from '../../server/serve'
import { readSettings } from '../../server/settings'
import type { DemoState, ServerToClient } from '../../shared/protocol'
import { silent } from '../shop/silent'
import { browser, makeHouse } from './house'
import { until } from './wire'

const folders: string[] = []
function newFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'paintmark-demo-'))
  folders.push(folder)
  return folder
}
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true })
})

const open = (dataFolder: string) =>
  openDemonstration({
    dataFolder,
    clock: shopClock(D0),
    log: silent,
    failed: (error) => {
      throw error
    },
  })

const routes: [method: string, path: string, body?: object][] = [
  ['GET', '/api/demo'],
  ['POST', '/api/demo', { do: 'play' }],
  ['POST', '/api/demo', { do: 'restart', run: 'any' }],
  ['POST', '/api/demo/sign-in', { personId: 'ana' }],
]

describe('a real shop', () => {
  test.each(routes)('[DM3] %s %s is unknown there, signed in or not', async (method, path, body) => {
    const house = await makeHouse()
    try {
      for (const signedIn of [false, true]) {
        const page = browser(house.app)
        if (signedIn) await page.signIn('ana')
        const answer = method === 'GET' ? await page.get(path) : await page.post(path, body)
        expect(answer.status).toBe(404)
        expect(answer.json).toMatchObject({ ok: false, code: 'not_found' })
        expect(Object.keys((await page.get('/api/me')).json)).not.toContain('demo')
        expect('signIn' in (await page.get('/api/me')).json).toBe(signedIn)
      }
    } finally {
      await house.close()
    }
  })
})

describe('the demonstration', () => {
  let running: Demonstration
  let serving: Serving
  const folder = newFolder()
  const clients: Socket<ServerToClient>[] = []

  beforeAll(async () => {
    running = await open(folder)
    const settings = readSettings({ PORT: '0' }, { port: 0, dataFolder: folder, logLevel: 'silent' })
    serving = await serve(running.shop, settings, {
      cookieName: 'paintmark_demo',
      log: silent,
      demo: running.demo,
    })
  })
  afterEach(() => {
    for (const client of clients.splice(0)) client.disconnect()
  })
  afterAll(async () => {
    await serving.close()
    await running.close()
  })

  function page() {
    let cookie = ''
    async function ask(path: string, body?: object) {
      const answer = await fetch(`${serving.address}${path}`, {
        method: body ? 'POST' : 'GET',
        headers: { origin: serving.address, cookie },
        ...(body ? { body: JSON.stringify(body) } : {}),
      })
      cookie = answer.headers.get('set-cookie')?.split(';')[0] ?? cookie
      return { status: answer.status, json: await answer.json() }
    }
    return {
      ask,
      cookie: () => cookie,
      async line() {
        const client: Socket<ServerToClient> = io(serving.address, {
          transports: ['websocket'],
          forceNew: true,
          reconnection: false,
          extraHeaders: { cookie, origin: serving.address },
        })
        clients.push(client)
        const states: DemoState[] = []
        client.on('demo', (state) => void states.push(state))
        await until('a socket is told of the day', () => states.length > 0)
        return { client, states }
      },
    }
  }

  test('lets anybody in without a PIN who works there, under a cookie of its own', async () => {
    const { ask, cookie } = page()
    expect((await ask('/api/demo/sign-in', { personId: 'nobody' })).status).toBe(404)
    expect((await ask('/api/demo/sign-in', { personId: 'constructor' })).status).toBe(404)
    expect(cookie()).toBe('')
    const answer = await ask('/api/demo/sign-in', { personId: 'jory' })
    expect(answer).toMatchObject({ status: 201, json: { person: { id: 'jory' } } })
    expect(cookie()).toMatch(/^paintmark_demo=/)
    const { json } = await ask('/api/me')
    expect(json).toMatchObject({ signIn: { person: { id: 'jory' } }, demo: { playing: false, begun: 0 } })
  })

  test('names its moments, and takes only what it understands', async () => {
    const { ask } = page()
    const { json } = await ask('/api/demo')
    expect(json.moments[0]).toMatchObject({ person: 'suvi', jobId: 'e-105' })
    for (const wrong of [
      { do: 'delete' },
      { do: 'restart' },
      { do: 'speed', speed: 7 },
      { do: 'play', speed: 1 },
      {},
    ])
      expect((await ask('/api/demo', wrong)).status).toBe(400)
  })

  test('[WI3] takes nothing from a page of another address', async () => {
    const answer = await fetch(`${serving.address}/api/demo`, {
      method: 'POST',
      headers: { origin: 'http://elsewhere.example' },
      body: JSON.stringify({ do: 'restart', run: running.demo.state().run }),
    })
    expect(answer.status).toBe(403)
  })

  test('[DM4] [DM6] plays its day, tells every socket, and begins anew with the same log', async () => {
    const before = await running.shop.store.streams()
    const first = page()
    await first.ask('/api/demo/sign-in', { personId: 'hattie' })
    const { client, states } = await first.line()
    let cut = false
    client.on('disconnect', () => {
      cut = true
    })
    await first.ask('/api/demo', { do: 'step' })
    await until('the step is told', () => states.at(-1)?.begun === 1)
    const playDay = async () => {
      await first.ask('/api/demo', { do: 'speed', speed: 'at_once' })
      await first.ask('/api/demo', { do: 'play' })
      await expect
        .poll(async () => (await first.ask('/api/demo')).json.playing, { timeout: 15_000 })
        .toBe(false)
      return running.shop.store.streams()
    }
    const played = await playDay()
    expect(played).not.toEqual(before)
    const { json } = await first.ask('/api/demo')
    expect(json.begun).toBe(json.moments.length)
    expect(json.refused).toMatchObject([{ code: 'stands_against_release', foreseen: true }])

    const run = states.at(-1)?.run
    writeFileSync(join(folder, 'kept.txt'), 'somebody put this here')
    const [restarted, meanwhile] = await Promise.all([
      first.ask('/api/demo', { do: 'restart', run }),
      page().ask('/api/me'),
    ])
    expect(restarted).toMatchObject({ status: 200, json: { begun: 0, playing: false, refused: [] } })
    expect(meanwhile.status).toBe(200)
    await until('the socket is told of another run and cut', () => cut && states.at(-1)?.run !== run)
    expect(await running.shop.store.streams()).toEqual(before)
    expect((await first.ask('/api/me')).json.signIn).toBeUndefined()
    expect(readdirSync(folder)).toContain('kept.txt')

    await first.ask('/api/demo/sign-in', { personId: 'hattie' })
    const again = await first.line()
    await first.ask('/api/demo', { do: 'step' })
    await until('the new run tells its sockets', () => again.states.at(-1)?.begun === 1)
    expect(await playDay()).toEqual(played)
  })

  test('[DM6] asked twice at once, it begins anew once', async () => {
    const { run } = running.demo.state()
    const runs = await Promise.all([1, 2, 3].map(() => page().ask('/api/demo', { do: 'restart', run })))
    expect(new Set(runs.map(({ json }) => json.run)).size).toBe(1)
    expect(running.demo.state().run).not.toBe(run)
  })

  test('[DM1] a second demonstration on the same folder is refused, and the first one lives on', async () => {
    await expect(open(folder)).rejects.toThrow(/A demonstration \(process \d+\) runs on /)
    expect((await page().ask('/api/me')).json.shop).toMatchObject({ opened: true, invented: true })
  })
})

describe('the folder', () => {
  /** A shop as `npm start` makes it, in this folder, with its supervisor. */
  async function realShop(folder: string, invented?: boolean) {
    const house = await openShop({ dataFolder: folder, now: Date.now, log: silent })
    const founder = {
      id: 'ana',
      name: 'Ana',
      initials: 'A',
      paint: 'blue',
      roles: ['supervisor'],
      mayDo: { classes: [], families: [] },
      maySecondSign: { classes: [], families: [] },
    } as const
    const command = {
      type: 'OpenShop',
      commandId: 'open',
      name: 'Test Yard',
      founder,
      ...(invented ? { invented } : {}),
    } as never
    const answer = await house.desk.submit({
      stream: 'shop',
      command,
      bodyHash: 'x',
      asker: { person: 'ana', through: 'sign_in' },
      receivedAt: Date.now(),
    })
    expect(answer.ok).toBe(true)
    await house.close()
  }
  const log = (folder: string) => readFileSync(join(folder, 'paintmark.db'))

  test('[DM1] what is not its own is not even marked', async () => {
    const folder = newFolder()
    await realShop(folder)
    const before = readdirSync(folder).sort()
    await expect(open(folder)).rejects.toThrow(/holds something that is not the demonstration's/)
    expect(readdirSync(folder).sort()).toEqual(before)
  })

  test('[DM1] a real shop’s log is not deleted, even where the mark stands', async () => {
    const folder = newFolder()
    claimFolder(folder).release()
    await realShop(folder)
    const before = log(folder)
    await expect(open(folder)).rejects.toThrow(/the log in it is of a real shop\. Nothing was deleted/)
    expect(log(folder).equals(before)).toBe(true)
    // Refused, it lets go of the folder.
    claimFolder(folder).release()
  })

  test('[DM1] without its mark nothing is emptied', () => {
    const folder = newFolder()
    writeFileSync(join(folder, 'paintmark.db'), 'precious')
    expect(() => emptyFolder(folder)).toThrow(/has lost the demonstration's mark; nothing was deleted/)
    expect(existsSync(join(folder, 'paintmark.db'))).toBe(true)
  })

  test('[DM2] the real shop opens neither the demonstration’s folder nor an invented shop’s log', async () => {
    const marked = newFolder()
    await (await open(marked)).close()
    expect(() => refuseDemonstration(marked)).toThrow(/is the demonstration's: everything in it is invented/)
    const unmarked = newFolder()
    await realShop(unmarked, true)
    expect(() => refuseDemonstration(unmarked)).toThrow(/is of an invented shop\. It was left as it is/)
  })

  test('[DM2] and opens an empty one, one without a shop yet, and its own', async () => {
    const folder = newFolder()
    refuseDemonstration(join(folder, 'not-there-yet'))
    refuseDemonstration(folder)
    await (await openShop({ dataFolder: folder, now: Date.now, log: silent })).close()
    refuseDemonstration(folder)
    await realShop(folder)
    refuseDemonstration(folder)
    expect(readdirSync(folder)).not.toContain('demonstration-only')
  })
})
