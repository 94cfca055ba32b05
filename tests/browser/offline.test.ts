/** Entries made without signal: through a reload, a closed tab and another person's sign-in, once, in order, as theirs. */
import { expect, test } from 'vitest'
import type { Job } from '../../shared/job/types'
import { beginHead, claim, engineAtItsHead, enterScale, HEAD_NUTS, says, tap } from './hands'
import { type Device, SOON_MS, signInQuietly, UNPLUGGED, useShop } from './harness'

const shop = useShop()

async function jobOf({ context }: Device, jobId: string): Promise<Job> {
  return (await (await context.request.get(`/api/jobs/${jobId}`)).json()) as Job
}
const clicks = (job: Job) =>
  Object.values(job.readings)
    .flat()
    .map(({ position, by }) => `${position} by ${by}`)

test('four nuts without signal, the tab closed, another person signs in: all four are the first one’s, once', async () => {
  const lead = await shop.deviceOf('odile')
  const { jobId } = await engineAtItsHead(lead)
  const doer = await shop.deviceOf('suvi')
  const { page, context } = doer
  await beginHead(doer, jobId)
  doer.allow(UNPLUGGED)
  await context.setOffline(true)
  await page.getByText('no signal', { exact: true }).waitFor()
  for (const n of [4, 2, 5]) await tap(page, HEAD_NUTS, n)
  await says(page.locator('.sentence'), /3 entries are kept on this device/)
  await page.getByRole('button', { name: 'no signal: 3 entries kept on this device' }).click()
  const waiting = page.getByRole('dialog', { name: 'Not with the shop yet' })
  expect(await waiting.getByRole('listitem').count()).toBe(3)
  await says(waiting.getByRole('listitem').first(), /T-\d+.*nut 4.*Suvi.*Kept on this device\./)
  await doer.shot('offline-waiting')
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    waiting.getByRole('button', { name: 'Save as a file' }).click(),
  ])
  expect(file.suggestedFilename()).toMatch(/^not-sent-2\d{3}-\d\d-\d\dT\d\d-\d\d\.json$/)

  // The tab is gone with all it held in memory. The network is back; somebody else signs in on this tablet.
  await page.close()
  expect(clicks(await jobOf(lead, jobId))).toEqual(['1 by suvi'])
  await context.setOffline(false)
  await signInQuietly(doer, shop.server, 'odile')
  const next = await context.newPage()
  await next.goto('/')
  await expect
    .poll(async () => clicks(await jobOf(lead, jobId)), { timeout: SOON_MS })
    .toEqual(['1 by suvi', '4 by suvi', '2 by suvi', '5 by suvi'])
})

test('the browser throws away what it kept for the shop: the shop tells how many entries never arrived', async () => {
  const lead = await shop.deviceOf('odile')
  const { jobId } = await engineAtItsHead(lead)
  const doer = await shop.deviceOf('suvi')
  const { page, context } = doer
  await beginHead(doer, jobId)
  doer.allow(UNPLUGGED)
  await context.setOffline(true)
  await page.getByText('no signal', { exact: true }).waitFor()
  for (const n of [4, 2]) await tap(page, HEAD_NUTS, n)
  await page.getByText('no signal: 2 entries kept on this device').waitFor()
  await page.close()
  const next = await context.newPage()
  const browser = await context.newCDPSession(next)
  // As a browser does that runs out of room: all the pages kept, and not the cookies.
  await browser.send('Storage.clearDataForOrigin', {
    origin: shop.server.address,
    storageTypes: 'indexeddb,local_storage,cache_storage,service_workers',
  })
  await context.setOffline(false)
  await next.goto('/')
  await next.getByRole('button', { name: 'live; 2 entries never arrived' }).click({ timeout: 60_000 })
  const told = next.getByRole('dialog', { name: 'Not with the shop yet' })
  await says(told, /2 entries made on this device, after .*, never reached the shop/)

  await told.getByRole('button', { name: 'I have looked' }).click()
  await says(told, 'Everything entered here is with the shop.')
  await next.reload()
  await next.getByText('live', { exact: true }).waitFor()
})

test('two people without signal at one joint: the claim is the first one’s, every turn of a wrench is in the record', async () => {
  const lead = await shop.deviceOf('odile')
  const { jobId } = await engineAtItsHead(lead)
  const [suvi, bram] = [await shop.deviceOf('suvi'), await shop.deviceOf('bram')]
  for (const { page } of [suvi, bram]) {
    await page.goto(`/jobs/${jobId}/bench/B1`)
    await page.getByRole('button', { name: 'Claim step' }).waitFor()
  }
  for (const device of [suvi, bram]) {
    device.allow(UNPLUGGED)
    await device.context.setOffline(true)
    await device.page.getByText('no signal', { exact: true }).waitFor()
  }
  for (const [{ page }, nuts] of [
    [suvi, [1, 4]],
    [bram, [1]],
  ] as const) {
    await claim(page)
    await enterScale(page, '40')
    for (const n of nuts) await tap(page, HEAD_NUTS, n)
  }
  await suvi.context.setOffline(false)
  await expect
    .poll(async () => clicks(await jobOf(lead, jobId)), { timeout: SOON_MS })
    .toEqual(['1 by suvi', '4 by suvi'])
  await bram.context.setOffline(false)
  await bram.page.getByText('live; 1 entry not taken over').waitFor()
  // Each claimed it where they stood; by the clock either may have been first.
  await says(bram.page.getByRole('main'), /Suvi Hale claimed B1 at .* or claim another step\./)
  await says(
    bram.page.getByRole('main'),
    /1 reading entered under this claim is kept in the record, flagged: B1 was not yours\./,
  )
  await bram.shot('offline-two-at-one-joint')
  expect(clicks(await jobOf(lead, jobId)).sort()).toEqual(['1 by bram', '1 by suvi', '4 by suvi'])
  await says(suvi.page.getByRole('status').first(), 'live')
})
