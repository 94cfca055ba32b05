/**
 * The demonstration's day, played at speed with three screens open: board, bench and audit follow it, agree with the
 * server's fold at the end, and begin anew together. And the first look: one touch, and somebody is at work.
 */
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import type { JobEvent } from '../../shared/job/events'
import { reasonSentence } from '../../shared/job/reason'
import type { JobSummary } from '../../shared/job/summary'
import { isProven, stepState } from '../../shared/job/verdicts'
import type { StreamEvent } from '../../shared/log'
import type { DemoState } from '../../shared/protocol'
import { figures } from '../shop/words'
import { claim, command } from './hands'
import { type Device, nameOf, SIZES, type Size, stands, useShop } from './harness'
import { axeFindings, clippedFindings, sidewaysFindings, smallTargets } from './looks'

const shop = useShop()

const strip = (page: Page) => page.getByRole('complementary', { name: 'About this shop' })

const timeOn = (page: Page) => strip(page).getByRole('time').textContent()

async function fromServer<T>(device: Device, path: string): Promise<T> {
  const answer = await device.context.request.get(path)
  expect(answer.ok()).toBe(true)
  return (await answer.json()) as T
}

/** What the page says to a reader; how old a thing is goes on while one looks, and is left out. */
async function wordsOf(page: Page): Promise<string> {
  const text = await page.getByRole('main').ariaSnapshot()
  return text.replaceAll(/\b(a|an|\d+) (second|minute|hour|day)s? (old|ago)\b/g, '… old')
}

const rowsOf = (page: Page) =>
  page
    .getByRole('listitem')
    .filter({ has: page.getByRole('heading', { level: 2 }) })
    .allInnerTexts()

/** What each nut's head is said to be; a finished step loaded anew shows them another way round, but the same. */
async function headsOf(page: Page): Promise<string[]> {
  const text = await page.getByRole('main').ariaSnapshot()
  return [...text.matchAll(/button "Exhaust manifold nuts, \d of 6,(?: pass \d,)? ([^"]*)"/g)].map(
    ([, said = '']) => said,
  )
}

async function openThree() {
  const board = await shop.deviceOf('hattie', { size: 'office' })
  const bench = await shop.deviceOf('bram', { size: 'tablet' })
  const audit = await shop.deviceOf('odile', { size: 'phone', light: 'night' })
  await board.goTo('/')
  await bench.goTo('/jobs/e-101/bench/F5')
  await audit.goTo('/jobs/e-103/audit')
  await board.page.getByRole('heading', { name: 'E-101', exact: true }).waitFor()
  return { board, bench, audit, all: [board, bench, audit] }
}

/** From the banner; every screen then stands at sign-in. */
async function beginAnew({ page }: Device) {
  await strip(page)
    .getByRole('button', { name: /[dD]ay$/ })
    .last()
    .click()
  const sheet = page.getByRole('dialog', { name: 'The day' })
  await sheet.getByRole('button', { name: 'Start the day over' }).click()
  await sheet.getByRole('button', { name: 'Yes, start the day over' }).click()
  await atSignIn(page)
}

/** Looked at, not waited for as one navigation: a page that is sent there while it loads gives up its first way. */
const atSignIn = (page: Page): Promise<void> =>
  expect.poll(() => new URL(page.url()).pathname, { timeout: 20_000 }).toBe('/sign-in')

/** Without the page: the shop as it opened, and somebody signed in on this device. */
async function anew({ context }: Device, personId: string) {
  const headers = { origin: shop.server.address }
  const { run } = (await (await context.request.get('/api/demo')).json()) as DemoState
  await context.request.post('/api/demo', { data: { do: 'restart', run }, headers })
  const answer = await context.request.post('/api/demo/sign-in', { data: { personId }, headers })
  expect(answer.status()).toBe(201)
}

test('the whole day with three screens open: no complaint, and all agree with the server', async () => {
  const { board, bench, audit, all } = await openThree()
  const before = await fromServer<DemoState>(board, '/api/demo')
  await strip(board.page).getByRole('button', { name: 'Next moment' }).click()
  for (const { page } of all) await expect.poll(() => timeOn(page)).toBe('09:51')
  await strip(bench.page).getByText('09:50 Suvi Hale, E-105', { exact: true }).waitFor()
  await bench.shot('day-bench')
  await audit.shot('day-audit-phone')

  await strip(board.page).getByRole('button', { name: 'The whole day' }).click()
  const sheet = board.page.getByRole('dialog', { name: 'The day' })
  await sheet.getByRole('radio', { name: 'At once' }).check()
  await sheet.getByRole('button', { name: 'Play the day' }).click()
  await sheet.getByText('The day is over.').waitFor()
  await sheet.getByText(/^Refused, as the day has it: /).waitFor()
  await board.shot('day-sheet-over')
  await sheet.getByRole('button', { name: 'Close' }).click()
  for (const { page } of all) {
    await strip(page).getByText('The day is over.').waitFor()
    await expect.poll(() => timeOn(page)).toBe('16:50')
  }

  const { summaries } = await fromServer<{ summaries: JobSummary[] }>(board, '/api/board')
  const words = {
    ...figures,
    person: (id: string) => nameOf(shop.server, id),
    moment: () => 'some time',
    date: String,
  }
  await expect
    .poll(async () => (await rowsOf(board.page)).filter((row) => row.includes('E-101'))[0] ?? '')
    .toContain(`${summaries.find(({ number }) => number === 'E-101')?.signed} of 50 steps`)
  for (const { number, signed, cells, reason } of summaries) {
    const row = (await rowsOf(board.page)).find((text) => text.startsWith(number)) ?? ''
    expect(row, number).toContain(`${signed} of ${cells.length} steps`)
    const [said = ''] = reasonSentence(reason, words).split('some time')
    expect(row.replaceAll(/\s+/g, ' '), number).toContain(said.trim())
  }
  const e101 = await fromServer<Parameters<typeof isProven>[0]>(bench, '/api/jobs/e-101')
  expect(isProven(e101, { joint: 'G-F5' })).toBe(true)
  expect(stepState(e101, 'F5').sets.step?.second?.by).toBe('odile')
  await bench.page.getByText('This step is done and signed.').waitFor()
  await bench.shot('day-bench-over')

  // A page loaded anew is drawn from the server's fold; those that followed the day must look the same.
  const screens: [Page, (page: Page) => Promise<string | string[]>][] = [
    [board.page, rowsOf],
    [bench.page, headsOf],
    [audit.page, wordsOf],
  ]
  expect(await headsOf(bench.page)).toEqual(Array(6).fill('final, painted BT, second OM'))
  for (const [page, seen] of screens) {
    const followed = await seen(page)
    await page.reload()
    await stands(page)
    await expect.poll(() => seen(page)).toEqual(followed)
  }

  // A page that loads itself anew asks what it needs before it knows that nobody is signed in any more.
  for (const device of all) device.allow(/401 \(Unauthorized\).*\/api\/(shop|jobs)/)
  await beginAnew(audit)
  for (const { page } of all) {
    await atSignIn(page)
    await expect.poll(() => timeOn(page)).toBe('09:45')
  }
  const after = await fromServer<DemoState>(board, '/api/demo')
  expect(after).toMatchObject({ begun: 0, playing: false, refused: [] })
  expect(after.run).not.toBe(before.run)
})

test('one touch and somebody is at work; closed, it stays closed, and is still found', async () => {
  const device = await shop.device({ size: 'phone' })
  const { page } = device
  await device.goTo('/')
  await page.waitForURL(/\/sign-in$/)
  const look = page.getByRole('region', { name: 'First look' })
  await look.getByRole('button', { name: 'Be Jory: Bench' }).click()
  await page.waitForURL(/\/jobs\/e-101\/bench$/)
  await page.getByRole('heading', { name: 'Ready for you' }).waitFor()
  await page.getByRole('button', { name: 'Jory Penhale is signed in' }).waitFor()

  await page.getByRole('button', { name: 'is signed in. Change person' }).click()
  await page.getByRole('button', { name: 'Sign Jory Penhale out' }).click()
  await look.getByRole('button', { name: 'Do not show again' }).click()
  await look.waitFor({ state: 'detached' })
  await page.reload()
  await page.getByRole('link', { name: 'What each person’s screen answers' }).click()
  await page.waitForURL(/\/first-look$/)
  expect(await look.count()).toBe(0)
  await page.getByRole('button', { name: 'Be Odile: Audit' }).click()
  await page.waitForURL(/\/jobs\/e-107\/audit$/)
  await page.getByRole('heading', { name: 'What stops the release to the owner' }).waitFor()
})

test('joining in while the clock is hurried: what is entered by hand falls on the shop’s clock', async () => {
  const jory = await shop.device({ size: 'tablet' })
  await anew(jory, 'jory')
  await jory.goTo('/jobs/e-101/bench/G2')
  await strip(jory.page).getByRole('button', { name: 'Play the day' }).click()
  await strip(jory.page).getByText('60×').waitFor()
  await strip(jory.page).getByText('09:50 Suvi Hale, E-105', { exact: true }).waitFor()
  await jory.shot('day-playing')
  await claim(jory.page)
  const claimed = async () => {
    const { events } = await fromServer<{ events: StreamEvent<JobEvent>[] }>(jory, '/api/jobs/e-101/events')
    return events.filter(({ event }) => event.type === 'StepClaimed' && event.stepId === 'G2').at(-1)
  }
  await expect.poll(claimed).toBeDefined()
  await strip(jory.page).getByRole('button', { name: 'Pause' }).click()
  const { now } = await fromServer<DemoState>(jory, '/api/demo')
  const { event, recordedAt = 0 } = (await claimed()) ?? {}
  const doneAt = event?.doneAt ?? 0
  const opened = new Date(now).setHours(9, 50, 0, 0)
  expect(doneAt).toBeGreaterThan(opened)
  expect(doneAt).toBeLessThanOrEqual(now)
  // At 60 a second on the wire is a minute of the shop's.
  expect(Math.abs(recordedAt - doneAt)).toBeLessThan(5 * 60_000)
  // The server knew the clock was its own: nothing came from a clock that stands elsewhere.
  expect(Math.abs((event?.clockOffsetMs ?? 0) - (doneAt - Date.now()))).toBeLessThan(60 * 60_000)
})

test('somebody joins in: the moment that is refused is shown, and the day goes on', async () => {
  const kofi = await shop.device({ size: 'tablet' })
  await anew(kofi, 'kofi')
  await kofi.goTo('/jobs/e-105')
  await command(kofi, 'e-105', { type: 'ClaimStep', stepId: 'B1' })
  await strip(kofi.page).getByRole('button', { name: 'Next moment' }).click()
  await strip(kofi.page)
    .getByText(/^Refused: .*Kofi Lund/)
    .waitFor()
  await kofi.shot('day-refused')
  await strip(kofi.page).getByRole('button', { name: 'Next moment' }).click()
  await strip(kofi.page).getByText('10:05').first().waitFor()
  await strip(kofi.page).getByRole('button', { name: 'The whole day' }).click()
  const first = kofi.page.getByRole('dialog', { name: 'The day' }).getByRole('listitem').first()
  await first.getByText(/9 more entries of this moment left out\.$/).waitFor()
})

test.each(Object.keys(SIZES) as Size[])('first look and the sheet of the day, on a %s', async (size) => {
  const device = await shop.device({ size })
  const { page } = device
  await anew(device, 'odile')
  const found: string[] = []
  const look = async (name: string, press?: number) => {
    for (const light of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme: light })
      const night = light === 'dark'
      await expect
        .poll(() => page.evaluate(() => document.documentElement.dataset.light))
        .toBe(night ? 'night' : 'day')
      found.push(...(await axeFindings(page, night ? ['color-contrast'] : undefined)))
      await device.shot(`${size}-${name}-${light}`)
    }
    found.push(...(await sidewaysFindings(page)), ...(await clippedFindings(page)))
    if (press) found.push(...(await smallTargets(page, press)))
  }
  await device.goTo('/first-look')
  await page.getByRole('button', { name: 'Be Dov: Wrenches' }).waitFor()
  await look('first-look', 56)
  await strip(page).getByRole('button', { name: /^Next/ }).click()
  await expect.poll(() => timeOn(page)).toBe('09:51')
  await strip(page)
    .getByRole('button', { name: /[dD]ay$/ })
    .last()
    .click()
  const sheet = page.getByRole('dialog', { name: 'The day' })
  await sheet.getByRole('button', { name: 'Start the day over' }).click()
  await sheet.getByRole('button', { name: 'Cancel' }).waitFor()
  await look('day-sheet')
  expect(found).toEqual([])
})
