/**
 * The second signature without signal: the PIN waits sealed on the tablet, through a reload, and is a signature once the
 * shop has checked it; a wrong one, and a step changed meanwhile, leave a flagged look and are told.
 */
import { readFileSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import type { Job } from '../../shared/job/types'
import {
  command,
  engineAtItsHead,
  enterSecond,
  HEAD_ORDER,
  HEAD_PASSES,
  LAUNCH,
  says,
  secondByPin,
  secondDialog,
  signButton,
  station,
  toBench,
} from './hands'
import { type Device, pinOf, SIZES, SOON_MS, stands, UNPLUGGED, useShop } from './harness'

const shop = useShop()

/** A part of one may look like a PIN. */
const UUID = /[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/g

async function jobOf({ context }: Device, jobId: string): Promise<Job> {
  return (await (await context.request.get(`/api/jobs/${jobId}`)).json()) as Job
}
const setOf = async (device: Device, jobId: string) => (await jobOf(device, jobId)).steps.B1?.sets.step
const oneReading = (jointId: string, pass: number, position: number) => ({
  type: 'TakeReading',
  jointId,
  position,
  pass,
  how: 'clicked',
  wrenchId: 'TW-15',
})

/** Claimed and tightened through by whoever is at the device, over HTTP; nothing is signed. */
async function headTightened(doer: Device, jobId: string): Promise<string> {
  const { plan } = await jobOf(doer, jobId)
  const jointId = plan?.steps.find(({ id }) => id === 'B1')?.joints[0]?.id ?? ''
  await command(doer, jobId, { type: 'ClaimStep', stepId: 'B1' })
  for (const [index, value] of HEAD_PASSES.entries()) {
    await command(doer, jobId, {
      type: 'EnterScale',
      jointId,
      pass: index + 1,
      wrenchId: 'TW-15',
      value: Number(value),
    })
    for (const n of HEAD_ORDER) await command(doer, jobId, oneReading(jointId, index + 1, n))
  }
  return jointId
}

/** At the bench's last page, with the plug pulled. */
async function unplugged(doer: Device, jobId: string, stepId = 'B1'): Promise<void> {
  const { page, context } = doer
  await toBench(doer, jobId, stepId)
  await station(page, /^Sign/).click()
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
  // What was seen is put by a moment after it came.
  await expect
    .poll(async () => Object.keys(await keptHere(page)), { timeout: SOON_MS })
    .toEqual(
      expect.arrayContaining([expect.stringMatching(/ shop$/), expect.stringContaining(` job:${jobId}`)]),
    )
  doer.allow(UNPLUGGED)
  await context.setOffline(true)
  await page.getByText('no signal', { exact: true }).waitFor()
}

/** All that this browser keeps for the shop as text, by store and key. */
const keptHere = (page: Page): Promise<Record<string, string>> =>
  page.evaluate(async () => {
    const kept: Record<string, string> = { localStorage: JSON.stringify(localStorage) }
    for (const { name } of await indexedDB.databases()) {
      const database = await new Promise<IDBDatabase>((resolve, reject) => {
        const request = indexedDB.open(name as string)
        request.onsuccess = () => resolve(request.result)
        request.onerror = () => reject(request.error)
      })
      for (const table of database.objectStoreNames) {
        const all = await new Promise<[IDBValidKey, unknown][]>((resolve, reject) => {
          const found: [IDBValidKey, unknown][] = []
          const request = database.transaction(table).objectStore(table).openCursor()
          request.onerror = () => reject(request.error)
          request.onsuccess = () => {
            const { result } = request
            if (!result) return resolve(found)
            found.push([result.key, result.value])
            result.continue()
          }
        })
        for (const [key, value] of all) kept[`${name} ${key}`] = JSON.stringify(value)
      }
      database.close()
    }
    return kept
  })
/** What waits sealed, each as it lies in the store of that name. */
const sealedHere = async (page: Page): Promise<string[]> =>
  Object.entries(await keptHere(page)).flatMap(([name, text]) =>
    name.startsWith('paintmark-sealed-') ? [(JSON.parse(text) as { sealed: string }).sealed] : [],
  )

test('signed and second-signed without signal, the page loaded again: both are in the record when the signal is back', async () => {
  const lead = await shop.deviceOf('odile')
  const { jobId } = await engineAtItsHead(lead)
  const doer = await shop.deviceOf('suvi', { keepsPages: true })
  await headTightened(doer, jobId)
  await unplugged(doer, jobId)
  const { page, context } = doer
  const main = page.getByRole('main')

  await signButton(page).click()
  await says(main, /Suvi Hale signed/)
  const dialog = await secondDialog(page, shop.server, 'bram')
  await says(dialog, /No signal\. The PIN is sealed on this device and checked when it reaches the shop\./)
  await doer.shot('sealed-dialog')
  const pin = pinOf(shop.server, 'bram')
  await enterSecond(dialog, pin)
  await dialog.waitFor({ state: 'detached' })
  await says(
    main,
    /Bram Teague has looked, .*: look noted, no signature before the shop has checked their PIN\./,
  )
  await says(page.getByRole('region', { name: 'Look noted' }), /The PIN is sealed on this device/)
  expect(await page.getByRole('button', { name: /^Give second signature/ }).count()).toBe(0)
  await page.getByRole('link', { name: 'What can I work on?' }).waitFor()
  await page.getByRole('button', { name: 'no signal: 2 entries kept on this device' }).click()
  const waiting = page.getByRole('dialog', { name: 'Not with the shop yet' })
  await says(waiting.getByRole('listitem').nth(1), /second signature of B1.*Kept on this device\./)
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    waiting.getByRole('button', { name: 'Save as a file' }).click(),
  ])
  const saved = readFileSync(await file.path(), 'utf8')
  const { entries } = JSON.parse(saved) as { entries: { command: { type: string } }[] }
  expect(entries.map(({ command }) => command.type)).toEqual(['SignStep', 'SecondSignStep'])
  await page.keyboard.press('Escape')

  // On the tablet it is only as it was sealed: in one place, and neither there nor anywhere else as it was entered.
  const kept = await keptHere(page)
  const sealed = await sealedHere(page)
  expect(sealed).toEqual([expect.stringMatching(/^[A-Za-z0-9+/]{512}$/)])
  for (const [name, text] of [...Object.entries(kept), ['the file', saved]] as [string, string][]) {
    expect([name, new RegExp(`\\b${pin}\\b`).test(text.replace(UUID, ''))]).toEqual([name, false])
    if (!name.startsWith('paintmark-sealed-'))
      expect([name, text.includes(sealed[0] ?? '')]).toEqual([name, false])
  }

  await page.reload()
  await stands(page)
  await page.getByRole('button', { name: 'no signal: 2 entries kept on this device' }).waitFor()
  await says(page.getByRole('region', { name: 'Look noted' }), /The PIN is sealed on this device/)
  await doer.shot('sealed-waits')
  for (const [size, light] of [
    ['phone', 'light'],
    ['phone', 'dark'],
    ['tablet', 'dark'],
    ['office', 'light'],
  ] as const) {
    await page.setViewportSize(SIZES[size])
    await page.emulateMedia({ colorScheme: light })
    await doer.shot(`sealed-waits-${size}-${light}`)
  }
  expect((await jobOf(lead, jobId)).steps.B1?.sets).toEqual({})

  await context.setOffline(false)
  await expect
    .poll(() => setOf(lead, jobId), { timeout: SOON_MS })
    .toMatchObject({ first: { by: 'suvi' }, second: { by: 'bram', through: 'sealed' } })
  await page.getByText('This step is done and signed.').waitFor()
  await page.getByText('live', { exact: true }).waitFor()
  await expect.poll(() => sealedHere(page), { timeout: SOON_MS }).toEqual([])
})

test('a wrong PIN: the look stays, flagged, the tablet is told, and the right one makes it a signature', async () => {
  const lead = await shop.deviceOf('odile')
  const { jobId } = await engineAtItsHead(lead)
  const doer = await shop.deviceOf('suvi', { keepsPages: true })
  await headTightened(doer, jobId)
  await command(doer, jobId, { type: 'SignStep', stepId: 'B1' })
  await unplugged(doer, jobId)
  const { page, context } = doer
  const main = page.getByRole('main')
  const dialog = await secondDialog(page, shop.server, 'bram')
  await enterSecond(dialog, '000000')
  await dialog.waitFor({ state: 'detached' })
  await context.setOffline(false)

  await page.getByRole('button', { name: 'live; 1 entry not taken over' }).waitFor()
  await says(main, /The PIN entered for Bram Teague on B1 was wrong\. The look is noted/)
  await says(main, /Look noted: .*No second signature: the PIN was wrong\./)
  await doer.shot('sealed-wrong')
  const { second, look } = (await setOf(lead, jobId)) ?? {}
  expect([second, look]).toMatchObject([undefined, { personId: 'bram', by: 'suvi', flag: 'wrong_pin' }])
  await expect.poll(() => sealedHere(page), { timeout: SOON_MS }).toEqual([])
  await lead.goTo(`/jobs/${jobId}/audit`)
  await says(
    lead.page.getByRole('main'),
    /Look noted without signal: Bram Teague, .*; no second signature: the PIN was wrong\./,
  )
  await lead.shot('sealed-wrong-audit')
  await lead.goTo(`/jobs/${jobId}`)
  await says(
    lead.page.getByRole('main'),
    /Look noted: Bram Teague, .*; no second signature: the PIN was wrong\./,
  )
  await lead.page.getByText('no second signature: the PIN was wrong').first().scrollIntoViewIfNeeded()
  await lead.shot('sealed-wrong-engine')

  // Told until somebody has read it, also after a reload.
  await page.reload()
  await says(main, /The PIN entered for Bram Teague on B1 was wrong/)
  await main.getByRole('button', { name: 'Dismiss' }).first().click()
  await page
    .getByRole('region', { name: 'Look noted' })
    .getByRole('button', { name: /^Give second signature as/ })
    .click()
  await enterSecond(dialog, pinOf(shop.server, 'bram'))
  await page.getByText('This step is done and signed.').waitFor()
  expect((await setOf(lead, jobId))?.second).toMatchObject({ by: 'bram', through: 'grant' })
})

test('changed by somebody else meanwhile: the right PIN is no signature on what was not looked at', async () => {
  const lead = await shop.deviceOf('odile')
  const { jobId } = await engineAtItsHead(lead)
  const doer = await shop.deviceOf('suvi', { keepsPages: true })
  const jointId = await headTightened(doer, jobId)
  await command(doer, jobId, { type: 'SignStep', stepId: 'B1' })
  await unplugged(doer, jobId)
  const { page, context } = doer
  await secondByPin(page, shop.server, 'bram')
  await says(page.getByRole('region', { name: 'Look noted' }), /The PIN is sealed on this device/)
  await command(lead, jobId, oneReading(jointId, 3, 1))
  await context.setOffline(false)
  await page.getByRole('button', { name: 'live; 1 entry not taken over' }).waitFor()
  await says(page.getByRole('main'), /B1 is not as Bram Teague looked at it: .*Look again, then sign\./)
  const { first, second, look } = (await setOf(lead, jobId)) ?? {}
  expect([first, second, look]).toMatchObject([undefined, undefined, { personId: 'bram', flag: 'changed' }])
})

test('entries that wait with signal there: the second signature goes after them, for what they came to', async () => {
  const lead = await shop.deviceOf('odile')
  const { jobId } = await engineAtItsHead(lead)
  const doer = await shop.deviceOf('suvi')
  await headTightened(doer, jobId)
  await toBench(doer, jobId, 'B1')
  await station(doer.page, /^Sign/).click()
  await signButton(doer.page).click()
  await secondByPin(doer.page, shop.server, 'bram')
  await doer.page.getByText('This step is done and signed.').waitFor()
  await expect
    .poll(() => setOf(lead, jobId), { timeout: SOON_MS })
    .toMatchObject({ second: { by: 'bram', through: 'grant' } })
})

test('a doer’s signature waits like any entry, and so does the claim of what comes after it', async () => {
  const lead = await shop.deviceOf('odile')
  const { model, serial, owner, agreed } = LAUNCH
  const jobId = crypto.randomUUID()
  await command(lead, jobId, { type: 'OpenJob', number: 'T-399', engine: { model, serial }, owner, agreed })
  await command(lead, jobId, { type: 'AdoptPlan', planId: 'ottersby-s9', edition: 1 })
  const doer = await shop.deviceOf('suvi', { keepsPages: true })
  const measure = { type: 'TakeMeasurement', stepId: 'A1', instrument: 'bore gauge' }
  await command(doer, jobId, { type: 'ClaimStep', stepId: 'A1' })
  for (const place of ['lengthwise', 'crosswise', 'diagonal'])
    await command(doer, jobId, { ...measure, measurementId: 'flatness', place, value: 0.02 })
  for (const place of ['top', 'middle', 'bottom'])
    await command(doer, jobId, { ...measure, measurementId: 'bore', place, value: 0.05 })
  await unplugged(doer, jobId, 'A1')
  const { page, context } = doer
  await signButton(page).click()
  await page.getByRole('link', { name: 'What can I work on?' }).click()
  await page.getByRole('button', { name: /^(Claim step|Claim and continue) A2$/ }).click()
  await page.getByRole('button', { name: 'Leave step', exact: true }).waitFor()
  await page.getByText('no signal: 2 entries kept on this device').waitFor()
  expect((await jobOf(lead, jobId)).steps).not.toHaveProperty('A2')
  await context.setOffline(false)
  await expect
    .poll(async () => (await jobOf(lead, jobId)).steps, { timeout: SOON_MS })
    .toMatchObject({ A1: { sets: { step: { first: { by: 'suvi' } } } }, A2: { claim: { by: 'suvi' } } })
})
