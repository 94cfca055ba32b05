/**
 * A printed torque that no bolt of its size bears: stopped, then taken by the supervisor with its page as a photo, and
 * found with its reason and its page in the library, on the job and in the record.
 */
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import type { Plan } from '../../shared/plan/types'
import { PLAN } from '../shop/yard'
import { command, says } from './hands'
import { stands, useShop } from './harness'
import { looks } from './looks'

const shop = useShop()

const picture = fileURLToPath(new URL('../../web/pictures/bench.png', import.meta.url))

const [step] = PLAN.steps
const [joint] = step?.joints ?? []
if (!step || !joint) throw new Error('The yard’s plan has no joint.')
const STOPPED: Plan = {
  ...PLAN,
  id: 'stopped',
  title: 'Printed too high',
  steps: [{ ...step, joints: [{ ...joint, passes: [{ kind: 'torque', torqueNm: 60 }] }] }],
}

test('a stopped value is taken as printed, with its page, and the record shows both', async () => {
  const device = await shop.deviceOf('odile', { size: 'office' })
  const { page, context } = device
  // A file with faults is answered with 400; the browser notes that by itself.
  device.allow(/400 \(Bad Request\).*\/api\/plans\/read/)
  await device.goTo('/shop/plans/read-one')
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles({
      name: 'stopped.json',
      mimeType: 'application/json',
      buffer: Buffer.from(JSON.stringify(STOPPED, null, 2)),
    })
  const faults = page.getByRole('region', { name: /^1 fault: nothing was added\./ })
  await says(faults, 'J1: 60 N·m would break an M8x1.25 bolt (8.8)')

  await faults.getByText('It is printed so: take it, with the page as a photo').click()
  const take = faults.getByRole('button', { name: 'Take it as printed: I answer for it' })
  await take.click()
  await says(faults, 'The photo of the page is missing. Choose it.')
  await faults.getByLabel('Photo of the page').setInputFiles(picture)
  await take.click()
  await says(faults, 'Say why the printed value is taken.')
  await faults
    .getByRole('textbox', { name: 'Why this value is taken' })
    .fill('Confirmed by the maker’s letter')
  expect(await looks(device, 'as-printed')).toEqual([])
  await take.click()
  await page.getByText('No fault found. Look at it; it is not in the library yet.').waitFor()
  await says(page.getByRole('main'), 'Taken as printed: Confirmed by the maker’s letter')
  await page.getByRole('button', { name: 'Add to library' }).click()
  await page.waitForURL(/\/shop\/plans\/stopped\/1/)
  await stands(page)
  await says(page.getByRole('main'), 'Taken as printed: Confirmed by the maker’s letter')

  const kept = (await (await context.request.get('/api/plans/stopped/1')).json()) as Plan
  const [pass] = kept.steps[0]?.joints[0]?.passes ?? []
  const photo = pass?.kind === 'torque' ? (pass.asPrinted?.photo ?? '') : ''
  expect((await context.request.get(`/api/photos/${photo}`)).status()).toBe(200)

  const jobId = crypto.randomUUID()
  const engine = { model: 'Small', serial: '1' }
  await command(device, jobId, { type: 'OpenJob', number: 'T-777', engine, owner: 'Somebody', agreed: 'All' })
  await command(device, jobId, { type: 'AdoptPlan', planId: 'stopped', edition: 1 })
  await device.goTo(`/jobs/${jobId}/audit`)
  const record = page.getByRole('region', { name: joint.title })
  await says(record, 'Pass 1: 60 N·m taken as printed')
  await says(record, `Confirmed by the maker’s letter. Photo of the page, check number ${photo.slice(0, 12)}`)
  expect(await record.getByRole('link', { name: 'Photo of the page' }).getAttribute('href')).toBe(
    `/api/photos/${photo}`,
  )
  expect(await looks(device, 'as-printed-record')).toEqual([])
})

test('a plan that names a page the server does not have is stopped, and may be taken again', async () => {
  const device = await shop.deviceOf('odile', { size: 'phone', light: 'night' })
  const { page, context } = device
  device.allow(/400 \(Bad Request\).*\/api\/plans\/read/)
  const asPrinted = { torqueNm: 60, photo: 'a'.repeat(64), reason: 'Confirmed by the maker’s letter' }
  const plan: Plan = {
    ...STOPPED,
    id: 'elsewhere',
    steps: [{ ...step, joints: [{ ...joint, passes: [{ kind: 'torque', torqueNm: 60, asPrinted }] }] }],
  }
  const sent = await context.request.post('/api/shop/commands', {
    data: { commandId: crypto.randomUUID(), type: 'AddPlan', plan },
  })
  expect([sent.status(), (await sent.json()).code]).toEqual([409, 'plan_has_faults'])
  await device.goTo('/shop/plans/read-one')
  await page.getByRole('textbox', { name: /^Or paste its text/ }).fill(JSON.stringify(plan, null, 2))
  await page.getByRole('button', { name: 'Read it' }).click()
  const faults = page.getByRole('region', { name: /^1 fault: nothing was added\./ })
  await says(faults, 'the photo of its page is not on this server. Take it as printed again, with the photo.')
  await faults.getByText('It is printed so: take it, with the page as a photo').click()
  await faults.getByLabel('Photo of the page').setInputFiles(picture)
  await faults
    .getByRole('textbox', { name: 'Why this value is taken' })
    .fill('Confirmed by the maker’s letter')
  expect(await looks(device, 'as-printed-phone')).toEqual([])
  await faults.getByRole('button', { name: 'Take it as printed: I answer for it' }).click()
  await page.getByText('No fault found. Look at it; it is not in the library yet.').waitFor()
})
