/** Photos taken without signal: through a reload of the page to the server, and their gate met. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import type { Chain } from '../../shared/chain'
import type { Job } from '../../shared/job/types'
import type { Plan, PlanStep } from '../../shared/plan/types'
import { PLAN } from '../shop/yard'
import { command, says, station, toBench } from './hands'
import { type Device, SOON_MS, UNPLUGGED, useShop } from './harness'

const shop = useShop()

const picture = (name: string) => fileURLToPath(new URL(`../../web/pictures/${name}.png`, import.meta.url))

const [step] = PLAN.steps
const PORTS: Plan = {
  ...PLAN,
  id: 'ports',
  title: 'Inlet ports',
  stages: [{ id: 'A', title: 'All of it', releases: 'to_owner' }],
  steps: [
    {
      ...(step as PlanStep),
      id: 'F3',
      title: 'Ports looked into',
      kind: 'check',
      joints: [],
      gates: [
        {
          id: 'clear',
          kind: 'photo',
          text: 'Each port looked into and clear',
          places: ['port 1', 'port 2', 'port 3'],
        },
      ],
    },
  ],
}

/** A new engine on a plan that asks for a photo of each port, its step claimed by whoever holds `doer`. */
async function engineWithPorts(lead: Device, doer: Device, number: string): Promise<string> {
  const jobId = crypto.randomUUID()
  const engine = { model: 'Small', serial: '1' }
  const added = await lead.context.request.post('/api/shop/commands', {
    data: { commandId: crypto.randomUUID(), type: 'AddPlan', plan: PORTS },
  })
  expect(added.status(), await added.text()).toBe(201)
  await command(lead, jobId, { type: 'OpenJob', number, engine, owner: 'Harbour Ferry Club', agreed: 'All' })
  await command(lead, jobId, { type: 'AdoptPlan', planId: 'ports', edition: 1 })
  await command(doer, jobId, { type: 'ClaimStep', stepId: 'F3' })
  return jobId
}

const place = ({ page }: Device, name: string) => page.locator('.photo-place').filter({ hasText: name })

async function choose(device: Device, name: string, file: string): Promise<void> {
  const [chooser] = await Promise.all([
    device.page.waitForEvent('filechooser'),
    place(device, name)
      .getByRole('button', { name: `Add photo of ${name}` })
      .click(),
  ])
  await chooser.setFiles(picture(file))
}

async function take(device: Device, name: string, file: string): Promise<void> {
  await choose(device, name, file)
  await says(place(device, name), 'taken, on its way')
}

test('taken offline, the page loaded again, back on the network: they arrive and the gate is met', async () => {
  const lead = await shop.deviceOf('odile')
  const doer = await shop.deviceOf('suvi')
  const { page, context } = doer
  const jobId = await engineWithPorts(lead, doer, 'T-701')
  await toBench(doer, jobId, 'F3')
  await place(doer, 'port 1').waitFor()
  doer.allow(UNPLUGGED)

  await context.setOffline(true)
  await page.getByText('no signal', { exact: true }).waitFor()
  await take(doer, 'port 1', 'board')
  await take(doer, 'port 2', 'bench')
  await take(doer, 'port 3', 'audit')
  await page.getByText('no signal: 3 entries, 3 photos kept on this device').waitFor()
  await doer.shot('photos-no-signal')

  const photosOf = async () => {
    const answer = await lead.context.request.get(`/api/jobs/${jobId}`)
    return ((await answer.json()) as Job).photos
  }
  expect(await photosOf()).toEqual([])

  // The page is gone with everything it held in memory, and comes back with the network.
  await expect(page.reload()).rejects.toThrow(/ERR_INTERNET_DISCONNECTED/)
  await context.setOffline(false)
  await toBench(doer, jobId, 'F3')
  // When all have arrived by then, the page opens where the step is signed.
  await station(page, /^Check/).click()
  for (const name of ['port 1', 'port 2', 'port 3']) await says(place(doer, name), 'taken, here')
  await page.getByText('live', { exact: true }).waitFor()
  await page.locator('.gate.met').waitFor()
  await doer.shot('photos-here')

  const photos = await photosOf()
  expect(photos.map((photo) => [photo.place, photo.arrived, photo.by]).sort()).toEqual([
    ['port 1', true, 'suvi'],
    ['port 2', true, 'suvi'],
    ['port 3', true, 'suvi'],
  ])
  for (const { sha256, bytes } of photos) {
    const answer = await lead.context.request.get(`/api/photos/${sha256}`)
    expect([answer.status(), (await answer.body()).length]).toEqual([200, bytes])
  }
  const left = () =>
    page.evaluate(async () => {
      const { databases } = indexedDB
      const [named] = (await databases.call(indexedDB)).filter(({ name }) =>
        name?.startsWith('paintmark-photos-'),
      )
      if (!named?.name) return 'no store'
      const db = await new Promise<IDBDatabase>((resolve, reject) => {
        const asked = indexedDB.open(named.name as string)
        asked.onsuccess = () => resolve(asked.result)
        asked.onerror = () => reject(asked.error)
      })
      return new Promise<number>((resolve) => {
        const asked = db.transaction('waiting').objectStore('waiting').count()
        asked.onsuccess = () => resolve(asked.result)
      })
    })
  await expect.poll(left, { timeout: SOON_MS }).toBe(0)

  // The record, as somebody finds it: pictures in it, its head recomputed from the stored entries.
  await command(doer, jobId, { type: 'SignStep', stepId: 'F3' })
  await command(lead, jobId, { type: 'Release', kind: 'to_owner' })
  await lead.goTo(`/jobs/${jobId}/record/T-701-R1`)
  const sheet = lead.page
  await sheet.getByRole('status').filter({ hasText: 'The record is whole: entries 1 to' }).waitFor()
  const seen = () =>
    sheet
      .locator('.paper-pictures img')
      .evaluateAll((all) =>
        all.map((one) => (one as HTMLImageElement).complete && (one as HTMLImageElement).naturalWidth > 0),
      )
  await expect.poll(seen, { timeout: SOON_MS }).toEqual([true, true, true])
  await says(sheet.locator('.paper-pictures li').first(), /port \d, on F3.*Suvi Hale.*hash [0-9a-f]{12}/)
  await sheet.locator('.paper-pictures').scrollIntoViewIfNeeded()
  await lead.shot('record-pictures')

  // One figure changed on the way from the disk to the page.
  await sheet.route('**/chain', async (route) => {
    const answer = await route.fetch()
    const chain = (await answer.json()) as Chain
    const row = chain.rows[2] as Chain['rows'][number]
    row.body = row.body.replace('suvi', 'kofi')
    await route.fulfill({ response: answer, json: chain })
  })
  await sheet.reload()
  await sheet.getByRole('status').filter({ hasText: 'This is not what was released. Entry 3: ' }).waitFor()
  await lead.shot('record-differs')
})

test('the browser closed with two entries and a photo waiting, somebody else signs in there: all are the first one’s, once', async () => {
  const profile = mkdtempSync(join(tmpdir(), 'paintmark-profile-'))
  try {
    const lead = await shop.deviceOf('odile')
    const doer = await shop.deviceOf('suvi', { profile })
    const jobId = await engineWithPorts(lead, doer, 'T-703')
    await toBench(doer, jobId, 'F3')
    await place(doer, 'port 1').waitFor()
    doer.allow(UNPLUGGED)
    const { page, context } = doer
    await context.setOffline(true)
    await page.getByText('no signal', { exact: true }).waitFor()
    await take(doer, 'port 1', 'board')
    await page.getByRole('button', { name: 'Leave step', exact: true }).click()
    await page.getByText('no signal: 2 entries, 1 photo kept on this device').waitFor()
    await context.close()

    const told = async () => {
      const answer = await lead.context.request.get(`/api/jobs/${jobId}/events?after=3`)
      const { events } = (await answer.json()) as { events: { event: { type: string; by: string } }[] }
      return events
        .map(({ event }) => `${event.type} by ${event.by}`)
        .filter((line) => !line.startsWith('PhotoArrived'))
    }
    expect(await told()).toEqual([])
    // The same device, as the server knows it by its cookie, in other hands before any page is open.
    const next = await shop.deviceOf('odile', { profile })
    await next.goTo('/')
    const all = ['PhotoAdded by suvi', 'StepPutDown by suvi']
    await expect.poll(told, { timeout: SOON_MS }).toEqual(all)
    const photos = async () =>
      ((await (await lead.context.request.get(`/api/jobs/${jobId}`)).json()) as Job).photos
    await expect
      .poll(async () => (await photos()).map(({ arrived }) => arrived), { timeout: SOON_MS })
      .toEqual([true])
    await next.page.getByText('live', { exact: true }).waitFor()
    await next.page.reload()
    await next.page.getByText('live', { exact: true }).waitFor()
    expect(await told()).toEqual(all)
    await next.context.close()
  } finally {
    rmSync(profile, { recursive: true, force: true })
  }
})

test('a picture the server will not have stays in sight with its sentence, through a reload, until given up', async () => {
  const lead = await shop.deviceOf('odile')
  const doer = await shop.deviceOf('suvi', { size: 'phone' })
  const { page } = doer
  const jobId = await engineWithPorts(lead, doer, 'T-702')
  doer.allow(/400 \(Bad Request\).*\/api\/photos\//)
  const sentence = 'This is not a JPEG, PNG or WebP picture.'
  await page.route('**/api/photos/*', (route) =>
    route.request().method() === 'PUT'
      ? route.fulfill({ status: 400, json: { ok: false, code: 'not_a_picture', sentence } })
      : route.continue(),
  )
  await toBench(doer, jobId, 'F3')
  await choose(doer, 'port 1', 'board')
  await says(place(doer, 'port 1'), 'taken, but the server refused it')
  await page.getByText(`A photo was not taken over. ${sentence}`).waitFor()
  await page.getByText('live; 1 photo not taken over').waitFor()
  await page.reload()
  await page.getByText(`A photo was not taken over. ${sentence}`).waitFor()
  await page.getByText('A photo was not taken over.').scrollIntoViewIfNeeded()
  await doer.shot('photo-refused')
  await page.getByRole('button', { name: 'Delete photo' }).click()
  await page.getByRole('button', { name: 'Yes, delete this photo' }).click()
  await page.getByText('live', { exact: true }).waitFor()
  expect(await page.getByText('A photo was not taken over.').count()).toBe(0)
  // What the log says of it stays: the place still waits for its picture.
  await says(place(doer, 'port 1'), 'taken, on its way')
})
