/**
 * The built page against a server of another version: what the server says and takes is changed on its way, as the other
 * version would have it. The page goes on, says that a reload is due, and never loads itself over what waits.
 */
import type { Page, WebSocketRoute } from 'playwright-core'
import { expect, test } from 'vitest'
import type { Job } from '../../shared/job/types'
import { PROTOCOL_VERSION } from '../../shared/protocol'
import { beginHead, engineAtItsHead, HEAD_NUTS, says, tap } from './hands'
import { type Device, SOON_MS, useShop } from './harness'

const shop = useShop()

/** An event on the wire, with the number it is answered by; see socket.io's protocol, version 5. */
const EVENT = /^42(\d*)(\[.*\])$/s

interface Told {
  event: string
  body: { protocol?: number; command?: object }
  /** Answers in the server's place. */
  answer(fault: object): void
}

/** What the other version does otherwise: gives what is passed on, or nothing. */
interface OtherVersion {
  /** A version 1 says nothing of itself. */
  speaks: number | undefined
  asked?(told: Told): boolean
}

async function behind(page: Page, now: () => OtherVersion): Promise<{ lines: WebSocketRoute[] }> {
  const lines: WebSocketRoute[] = []
  await page.routeWebSocket(/\/socket\.io\//, (line) => {
    lines.push(line)
    const server = line.connectToServer()
    const hello = (protocol: number) => line.send(`42${JSON.stringify(['reload', { protocol }])}`)
    server.onMessage((frame) => {
      const [, , json] = EVENT.exec(`${frame}`) ?? []
      if (!json?.startsWith('["reload"')) return line.send(frame)
      const { speaks } = now()
      if (speaks !== undefined) hello(speaks)
    })
    line.onMessage((frame) => {
      const [, id, json] = EVENT.exec(`${frame}`) ?? []
      const [event, body] = json ? (JSON.parse(json) as [string, Told['body']]) : []
      const answer = (fault: object) => line.send(`43${id}${JSON.stringify([fault])}`)
      if (event && body && now().asked?.({ event, body, answer }) === false) return
      server.send(frame)
    })
  })
  return { lines }
}

const bad = (path: string) => ({ ok: false, code: 'bad_message', path, sentence: 'Not understood.' })

async function clicks({ context }: Device, jobId: string): Promise<string[]> {
  const { readings } = (await (await context.request.get(`/api/jobs/${jobId}`)).json()) as Job
  return Object.values(readings)
    .flat()
    .map(({ position, by }) => `${position} by ${by}`)
}
/** Set in the page: gone when it was loaded anew. */
const mark = (page: Page) => page.evaluate(() => Object.assign(globalThis, { sameLoad: true }).sameLoad)
const isMarked = (page: Page) => page.evaluate(() => 'sameLoad' in globalThis)

test('[WI11] the server is one newer: the page says so, goes on as it is, and is loaded when somebody says so', async () => {
  const lead = await shop.deviceOf('odile')
  const { jobId } = await engineAtItsHead(lead)
  const doer = await shop.deviceOf('suvi')
  const { page } = doer
  await behind(page, () => ({ speaks: PROTOCOL_VERSION + 1 }))
  await beginHead(doer, jobId)
  await mark(page)
  const banner = page.getByRole('complementary', { name: 'Another version of Paintmark' })
  await says(banner, /There is a newer Paintmark\. You can go on, and load it when your hands are free\./)
  for (const n of [4, 2]) await tap(page, HEAD_NUTS, n)
  await expect
    .poll(() => clicks(lead, jobId), { timeout: SOON_MS })
    .toEqual(['1 by suvi', '4 by suvi', '2 by suvi'])
  expect(await isMarked(page)).toBe(true)
  await doer.shot('newer-server')
  await banner.getByRole('link', { name: 'Load it' }).click()
  await expect.poll(() => isMarked(page), { timeout: SOON_MS }).toBe(false)
})

test('[WI11] two newer: what is entered waits on the device, through the reload that is due, and is taken once', async () => {
  const lead = await shop.deviceOf('odile')
  const { jobId } = await engineAtItsHead(lead)
  const doer = await shop.deviceOf('suvi')
  const { page } = doer
  let speaks = PROTOCOL_VERSION
  const { lines } = await behind(page, () => ({ speaks }))
  await beginHead(doer, jobId)
  await mark(page)
  speaks = PROTOCOL_VERSION + 2
  await lines.at(-1)?.close()
  await page.getByText('another version', { exact: true }).waitFor()
  for (const n of [4, 2]) await tap(page, HEAD_NUTS, n)
  await page.getByText('another version: 2 entries kept on this device').waitFor()
  const banner = page.getByRole('complementary', { name: 'Another version of Paintmark' })
  await says(banner, /There is a newer Paintmark: what you enter waits here until you load it\./)
  await doer.shot('two-newer')
  expect(await clicks(lead, jobId)).toEqual(['1 by suvi'])
  expect(await isMarked(page)).toBe(true)
  // Its page, which understands it.
  speaks = PROTOCOL_VERSION
  await banner.getByRole('link', { name: 'Load it' }).click()
  await expect
    .poll(() => clicks(lead, jobId), { timeout: SOON_MS })
    .toEqual(['1 by suvi', '4 by suvi', '2 by suvi'])
  await page.getByText('live', { exact: true }).waitFor()
  await banner.waitFor({ state: 'hidden' })
})

test('[WI10] one older, which knows no numbers of entries and says nothing of itself: it takes what the page enters', async () => {
  const lead = await shop.deviceOf('odile')
  const { jobId } = await engineAtItsHead(lead)
  const doer = await shop.deviceOf('suvi')
  const { page } = doer
  let refused = 0
  const asked: OtherVersion['asked'] = ({ event, body, answer }) => {
    const fault =
      event === 'watch' && body.protocol !== PROTOCOL_VERSION - 1
        ? bad('/protocol')
        : event === 'command' && body.command && 'entryNumber' in body.command
          ? bad('/entryNumber')
          : undefined
    if (!fault) return true
    refused++
    answer(fault)
    return false
  }
  let old = true
  const { lines } = await behind(page, () =>
    old ? { speaks: undefined, asked } : { speaks: PROTOCOL_VERSION },
  )
  await beginHead(doer, jobId)
  const banner = page.getByRole('complementary', { name: 'Another version of Paintmark' })
  await says(
    banner,
    /The shop’s server runs an older Paintmark\. You can go on, and load it when your hands are free\./,
  )
  for (const n of [4, 2]) await tap(page, HEAD_NUTS, n)
  await expect
    .poll(() => clicks(lead, jobId), { timeout: SOON_MS })
    .toEqual(['1 by suvi', '4 by suvi', '2 by suvi'])
  await page.getByText('live', { exact: true }).waitFor()
  await doer.shot('older-server')
  expect(refused).toBe(0)
  // The newer one comes: what went without a number is not missed by it.
  old = false
  await lines.at(-1)?.close()
  await banner.waitFor({ state: 'hidden' })
  await tap(page, HEAD_NUTS, 5)
  await expect.poll(() => clicks(lead, jobId), { timeout: SOON_MS }).toContain('5 by suvi')
  // It was asked, and misses nothing.
  const looked = () =>
    page.evaluate(() => {
      const [, count = ''] =
        Object.entries(localStorage).find(([name]) => name.startsWith('paintmark-count-')) ?? []
      return Number(count.split('.')[1])
    })
  await expect.poll(looked, { timeout: SOON_MS }).toBeGreaterThanOrEqual(3)
  await page.getByText('live', { exact: true }).waitFor()
})
