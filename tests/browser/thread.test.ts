/** One joint, three screens: the whole thread with several people, each on a device of their own. */
import { describe, expect, test } from 'vitest'
import type { JobEvent } from '../../shared/job/events'
import type { StreamEvent } from '../../shared/log'
import {
  adoptPlan,
  beginHead,
  claim,
  command,
  confirmed,
  engineAtItsHead,
  enterScale,
  HEAD_NUTS,
  HEAD_ORDER,
  head,
  headSays,
  LAUNCH,
  measuredByHttp,
  openJob,
  rowOf,
  says,
  secondByPin,
  signButton,
  tap,
  tightenHead,
  toBench,
} from './hands'
import { type Device, SOON_MS, signIn, UNPLUGGED, useShop } from './harness'

const shop = useShop()

const record = (page: Device['page']) => page.getByRole('table', { name: 'Head nuts, fastener by fastener' })

/** As the log has them, in its order. */
async function readingsOf(device: Device, jobId: string) {
  const answer = await device.context.request.get(`/api/jobs/${jobId}/events`)
  expect(answer.status()).toBe(200)
  const { events } = (await answer.json()) as { events: StreamEvent<JobEvent>[] }
  return events.flatMap(({ event }) => (event.type === 'ReadingTaken' ? [event] : []))
}

describe('the whole thread', () => {
  test('opened in the office, tightened at the bench, signed twice on one tablet, seen on the board and in the audit', async () => {
    const office = await shop.device({ size: 'office' })
    const desk = await shop.device({ size: 'office' })
    const bench = await shop.device()
    await signIn(office, shop.server, 'odile')
    await signIn(desk, shop.server, 'hattie')
    const board = desk.page
    // Lost with the document: whoever loads the board again loses it.
    await board.evaluate(() => Object.assign(window, { sameDocument: true }))
    const row = rowOf(board, LAUNCH.number)

    const jobId = await openJob(office.page, LAUNCH)
    await says(row, 'No build plan yet')
    await adoptPlan(office.page, LAUNCH.number, 'Ottersby S9, head and valves')
    await says(row, /Nobody is working on it. Next: Bores, valves and head face/)
    await says(row, '0 of 8 steps')

    await signIn(bench, shop.server, 'suvi')
    await measuredByHttp(bench, jobId)
    await says(row, '2 of 8 steps')

    await bench.goTo(`/jobs/${jobId}/bench`)
    await bench.page.getByRole('link', { name: /^B1 / }).click()
    await claim(bench.page)
    await says(row, 'Suvi Hale is working on “Head gasket, head on, nuts tightened”')
    await bench.shot('bench-claimed')

    await tightenHead(bench.page)
    await signButton(bench.page).click()
    await says(
      row,
      'needs its second signature before “Push rods, rocker stand, valve clearance cold” covers it',
    )
    await desk.shot('board-second-due')

    await secondByPin(bench.page, shop.server, 'bram')
    await bench.page.getByText('This step is done and signed.').waitFor()
    await bench.page.getByText('by PIN on this tablet').waitFor()
    await says(row, '3 of 8 steps')
    await bench.page.getByRole('button', { name: /Suvi Hale is signed in/ }).waitFor()
    // All of it came by itself: the board was never loaded again.
    expect(await board.evaluate(() => 'sameDocument' in window)).toBe(true)
    await board.reload()
    expect(await board.evaluate(() => 'sameDocument' in window)).toBe(false)
    await says(row, '3 of 8 steps')

    await office.goTo(`/jobs/${jobId}/audit`)
    const rows = record(office.page).getByRole('row')
    // A heading, and three passes of six nuts.
    await expect.poll(() => rows.count(), { timeout: SOON_MS }).toBe(1 + 18)
    const firstNut = (await rows.nth(1).textContent()) ?? ''
    expect(firstNut).toContain('40 N·m clicked')
    expect(firstNut).toContain('TW-15')
    expect(firstNut).toContain('signed off')
    await expect.poll(() => rows.nth(1).getByTitle('Suvi Hale').count()).toBe(1)
    await expect.poll(() => rows.nth(1).getByTitle('Bram Teague').count()).toBe(1)
    expect(await rows.nth(3).textContent()).toContain('90 N·m clicked')
    await office.shot('audit-proven')
  })

  test('a wrench that was set for another engine since is asked about again', async () => {
    const lead = await shop.deviceOf('odile')
    const [first, second] = [await engineAtItsHead(lead), await engineAtItsHead(lead)]
    const doer = await shop.deviceOf('suvi')
    for (const { jobId } of [first, second]) {
      await toBench(doer, jobId, 'B1')
      await claim(doer.page)
      await enterScale(doer.page, '40')
      await tap(doer.page, HEAD_NUTS, 1)
    }
    await doer.page.reload()
    await tap(doer.page, HEAD_NUTS, 4)
    await toBench(doer, first.jobId, 'B1')
    await enterScale(doer.page, '40')
    await tap(doer.page, HEAD_NUTS, 4)
  })

  test('the second signature from another device, and neither sees a word of the other’s tablet before it is said', async () => {
    const lead = await shop.deviceOf('odile')
    const { jobId, number } = await engineAtItsHead(lead)
    const doer = await shop.deviceOf('suvi')
    await toBench(doer, jobId, 'B1')
    await claim(doer.page)
    await tightenHead(doer.page)

    const second = await shop.deviceOf('bram', { size: 'phone' })
    await toBench(second, jobId, 'B1')
    await says(second.page.getByRole('main'), `claimed by`)
    expect(await second.page.getByRole('button', { name: /^Give second signature/ }).count()).toBe(0)
    await signButton(doer.page).click()
    await second.page.getByRole('button', { name: 'Give second signature: I have looked' }).click()
    await doer.page.getByText('This step is done and signed.').waitFor()
    expect(await doer.page.getByText('by PIN on this tablet').count()).toBe(0)
    const writer = await shop.deviceOf('hattie', { size: 'office' })
    await writer.goTo('/')
    await says(rowOf(writer.page, number), '3 of 8 steps')
  })

  test('a supervisor looks at every reading in the audit and signs there', async () => {
    const lead = await shop.deviceOf('odile', { size: 'office' })
    const { jobId } = await engineAtItsHead(lead)
    const doer = await shop.deviceOf('bram')
    await toBench(doer, jobId, 'B1')
    await claim(doer.page)
    await tightenHead(doer.page)
    await signButton(doer.page).click()

    await lead.goTo(`/jobs/${jobId}/audit`)
    // Among what to sign, and again among what stops the release.
    await lead.page
      .getByRole('button', { name: /^Give second signature/ })
      .first()
      .click()
    const look = lead.page.getByRole('dialog', { name: /^B1/ })
    await says(look, '90 N·m clicked')
    await look.getByRole('button', { name: 'Give second signature: I have looked' }).click()
    await expect
      .poll(() => record(lead.page).getByRole('row').nth(1).getByTitle('Odile Marrow').count(), {
        timeout: SOON_MS,
      })
      .toBe(1)
    await doer.page.getByText('This step is done and signed.').waitFor()
  })
})

describe('what stands against', () => {
  test('a number in the wrong unit is held up at the scale with both readings; set again, it goes on', async () => {
    const lead = await shop.deviceOf('odile')
    const { jobId } = await engineAtItsHead(lead)
    const { page } = lead
    await toBench(lead, jobId, 'B1')
    await claim(page)
    await page.getByRole('button', { name: 'Other wrench' }).click()
    await page
      .getByRole('dialog', { name: 'Which wrench is in your hand?' })
      .getByRole('button', { name: /TW-14/ })
      .click()
    await enterScale(page, '40')
    const stop = page.getByRole('alert').filter({ hasText: 'Stop: which unit is that?' })
    await says(stop, '40 on this wrench is 40 lbf·ft = 54.2 N·m.')
    await says(stop, 'The plan says 40 N·m, which is 29.5 on this scale.')
    await lead.shot('bench-unit-slip')
    // A head tapped now records nothing.
    await head(page, HEAD_NUTS, 1).click()
    await headSays(page, HEAD_NUTS, 1, /not yet reached/)
    await stop.getByRole('button', { name: 'Set it again and enter' }).click()
    await enterScale(page, '29.5')
    await tap(page, HEAD_NUTS, 1)
    await confirmed(page, HEAD_NUTS, 1)
    await headSays(page, HEAD_NUTS, 1, /, reached$/)

    // The supervisor finds it with both readings, and that it is settled.
    await lead.goTo(`/jobs/${jobId}/audit`)
    await page.getByText('54.2').first().waitFor()
    await page.getByText('no longer counts').waitFor()
  })

  test('a nut that was slackened in pass 2 begins at pass 1 again, and the bench goes there', async () => {
    const lead = await shop.deviceOf('odile')
    const { jobId } = await engineAtItsHead(lead)
    const doer = await shop.deviceOf('suvi')
    const { page } = doer
    await toBench(doer, jobId, 'B1')
    await claim(page)
    await enterScale(page, '40')
    for (const n of HEAD_ORDER) await tap(page, HEAD_NUTS, n)
    await page.getByRole('button', { name: /^Pass 2 next/ }).click()
    await enterScale(page, '70')
    await tap(page, HEAD_NUTS, 1)
    await head(page, HEAD_NUTS, 1).click()
    await page
      .getByRole('dialog')
      .getByRole('button', { name: /^Slackened/ })
      .click()
    await page.locator('.passes [aria-current=true]', { hasText: '40' }).waitFor()
  })

  test('out of band is recorded with its flag and stops the signature; struck, both stay readable', async () => {
    const lead = await shop.deviceOf('odile')
    const { jobId, number } = await engineAtItsHead(lead)
    const doer = await shop.deviceOf('suvi')
    const { page } = doer
    const writer = await shop.deviceOf('hattie', { size: 'office' })
    await writer.goTo('/')
    await toBench(doer, jobId, 'B1')
    await claim(page)
    await enterScale(page, '48')
    await page
      .getByRole('alert')
      .filter({ hasText: 'Stop: the scale is set above the band.' })
      .getByRole('button', { name: 'It really is set to that' })
      .click()
    await head(page, HEAD_NUTS, 1).click()
    const odd = page.getByRole('alert', { name: 'Flags' })
    await says(odd, /out of band/i)
    await says(rowOf(writer.page, number), 'Head nuts, nut 1: out of band. Suvi Hale recorded it.')
    await doer.shot('bench-out-of-band')

    // Signing too early: refused with what is open, which one, what to do.
    await page
      .getByRole('navigation', { name: 'Work of this step' })
      .getByRole('button', { name: /^Sign/ })
      .click()
    await says(page.getByRole('main'), 'Finish that, then sign.')
    expect(await signButton(page).isDisabled()).toBe(true)
    // The server refuses the same, whatever a page thinks of it.
    const answer = await doer.context.request.post(`/api/jobs/${jobId}/commands`, {
      data: { commandId: crypto.randomUUID(), type: 'SignStep', stepId: 'B1' },
    })
    expect(answer.status()).toBe(409)
    expect(await answer.json()).toMatchObject({ code: 'positions_open' })

    await page
      .getByRole('navigation', { name: 'Work of this step' })
      .getByRole('button', { name: /^Head nuts/ })
      .click()
    await odd.getByRole('button', { name: /^(Look at |What to do$)/ }).click()
    const panel = page.getByRole('dialog', { name: /^Head nuts: / })
    await panel.getByRole('button', { name: 'Cross out entry' }).click()
    await panel.getByRole('button', { name: 'wrong number entered' }).click()
    await says(panel, 'Crossed out by Suvi Hale')
    await says(panel, ': wrong number entered')
    await says(panel, '48 N·m clicked')
    await panel.getByRole('button', { name: 'Close' }).click()
    await odd.waitFor({ state: 'detached' })
    await says(rowOf(writer.page, number), 'Suvi Hale is working on')

    await lead.goTo(`/jobs/${jobId}/audit`)
    await says(record(lead.page), /48 N·m clicked/)
    await says(record(lead.page), /crossed out by Suvi Hale, .*: wrong number entered/)
  })
})

describe('when the signal goes', () => {
  test('entries go on, wait visibly, and arrive in order, each once, when it is back', async () => {
    const lead = await shop.deviceOf('odile')
    const { jobId } = await engineAtItsHead(lead)
    const doer = await shop.deviceOf('suvi')
    const { page, context } = doer
    await beginHead(doer, jobId)
    doer.allow(UNPLUGGED)

    await context.setOffline(true)
    const waiting = page.getByRole('status').filter({ hasText: 'No signal. Go on:' })
    await waiting.waitFor()
    for (const n of HEAD_ORDER.slice(1)) await tap(page, HEAD_NUTS, n)
    await headSays(page, HEAD_NUTS, 6, /waiting to be sent/)
    await says(waiting, '5 entries are kept on this device')
    await page.getByText('no signal: 5 entries kept on this device').waitFor()
    await doer.shot('bench-no-signal')

    // Meanwhile the engine goes on without this tablet: the supervisor measures at another step of it.
    expect((await readingsOf(lead, jobId)).map(({ position }) => position)).toEqual([1])
    await command(lead, jobId, {
      type: 'TakeMeasurement',
      stepId: 'B2',
      measurementId: 'clearance',
      place: 'inlet',
      value: 0.2,
      instrument: 'feeler',
    })

    await context.setOffline(false)
    await waiting.waitFor({ state: 'detached' })
    await confirmed(page, HEAD_NUTS, 6)
    await page.getByText('live', { exact: true }).waitFor()
    const readings = await readingsOf(lead, jobId)
    expect(readings.map(({ position }) => position)).toEqual(HEAD_ORDER)
    expect(new Set(readings.map(({ by }) => by))).toEqual(new Set(['suvi']))
    const times = readings.map(({ doneAt }) => doneAt)
    expect(times).toEqual([...times].sort((a, b) => a - b))
  })
})
