/** What people do on the pages, press by press, named as the shop names it. */
import type { Locator, Page } from 'playwright-core'
import { expect } from 'vitest'
import type { Server } from '../process/program'
import { type Device, nameOf, pinOf, pressDigits, SOON_MS, stands } from './harness'

export interface NewEngine {
  number: string
  model: string
  serial: string
  owner: string
  agreed: string
}

export const LAUNCH: NewEngine = {
  number: 'T-201',
  model: 'Ottersby S9',
  serial: 'S9-0777',
  owner: 'Harbour Ferry Club',
  agreed: 'Head off, valves ground in',
}

/** From the board; ends on the new engine's page and answers with its id. */
export async function openJob(page: Page, engine: NewEngine): Promise<string> {
  await page.getByRole('button', { name: 'Open job' }).click()
  const form = page.getByRole('dialog', { name: 'Open job' })
  await form.getByRole('textbox', { name: 'Job number' }).fill(engine.number)
  await form.getByRole('textbox', { name: 'Engine model' }).fill(engine.model)
  await form.getByRole('textbox', { name: 'Serial number' }).fill(engine.serial)
  await form.getByRole('textbox', { name: 'Owner' }).fill(engine.owner)
  await form.getByRole('textbox', { name: 'Agreed work' }).fill(engine.agreed)
  await form.getByRole('button', { name: 'Open job' }).click()
  await page.waitForURL(/\/jobs\/[^/]+$/)
  await page.getByRole('heading', { level: 1, name: engine.number }).waitFor()
  return new URL(page.url()).pathname.split('/')[2] as string
}

/** From the board, in the row of an engine that has none: the plan, then the word that it is meant. */
export async function adoptPlan(page: Page, number: string, title: string): Promise<void> {
  await page.getByRole('navigation', { name: 'Pages' }).getByRole('link', { name: 'Board' }).click()
  await rowOf(page, number).getByRole('button', { name: 'Adopt plan…' }).click()
  const dialog = page.getByRole('dialog', { name: `Adopt plan for ${number}` })
  await dialog.getByRole('button', { name: new RegExp(`^${title}`) }).click()
  await dialog.getByRole('button', { name: new RegExp(`^Adopt plan: ${title}`) }).click()
  await dialog.waitFor({ state: 'hidden' })
}

/** What one device of the shop asks over HTTP; for what a test needs but is not about. */
export async function command(device: Device, jobId: string, body: object): Promise<void> {
  const answer = await device.context.request.post(`/api/jobs/${jobId}/commands`, {
    data: { commandId: crypto.randomUUID(), ...body },
  })
  expect(answer.status(), await answer.text()).toBe(201)
}

/** Steps A1 and A2 of the launch diesel, so that its head can be tightened. */
export async function measuredByHttp(device: Device, jobId: string): Promise<void> {
  const measure = (stepId: string, measurementId: string, place: string, value: number) =>
    command(device, jobId, {
      type: 'TakeMeasurement',
      stepId,
      measurementId,
      place,
      value,
      instrument: 'bore gauge',
    })
  await command(device, jobId, { type: 'ClaimStep', stepId: 'A1' })
  for (const place of ['lengthwise', 'crosswise', 'diagonal']) await measure('A1', 'flatness', place, 0.02)
  for (const place of ['top', 'middle', 'bottom']) await measure('A1', 'bore', place, 0.05)
  await command(device, jobId, { type: 'SignStep', stepId: 'A1' })
  await command(device, jobId, { type: 'ClaimStep', stepId: 'A2' })
  for (const place of ['inlet', 'exhaust']) await measure('A2', 'recess', place, 1)
  await command(device, jobId, { type: 'AnswerGate', stepId: 'A2', gateId: 'cotters' })
  await command(device, jobId, { type: 'SignStep', stepId: 'A2' })
}

export interface OpenEngine {
  jobId: string
  number: string
}

let opened = 300

/** A launch diesel ready for its head nuts, made over HTTP by whoever leads; `device` is theirs. */
export async function engineAtItsHead(device: Device): Promise<OpenEngine> {
  const number = `T-${++opened}`
  const jobId = crypto.randomUUID()
  const { model, serial, owner, agreed } = LAUNCH
  await command(device, jobId, { type: 'OpenJob', number, engine: { model, serial }, owner, agreed })
  await command(device, jobId, { type: 'AdoptPlan', planId: 'ottersby-s9', edition: 1 })
  await measuredByHttp(device, jobId)
  return { jobId, number }
}

/** The head of a bolt map, by joint and number. */
export const head = (page: Page, joint: string, n: number): Locator =>
  page.getByRole('button', { name: new RegExp(`^${joint}, ${n} of \\d`) })

export async function toBench(device: Device, jobId: string, stepId: string): Promise<void> {
  await device.page.goto(`/jobs/${jobId}/bench/${stepId}`)
  await stands(device.page)
}

export async function claim(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Claim step' }).click()
  await page.getByRole('button', { name: 'Leave step' }).waitFor()
}

/** What the scale says, on the pad. */
export async function enterScale(page: Page, value: string): Promise<void> {
  const pad = page.getByRole('group', { name: 'Number on the scale' })
  await pressDigits(pad, value)
  await page.getByRole('button', { name: new RegExp(`^It is set to ${value} `) }).click()
}

/** What the map says of one head, waited for until it says so. */
export const headSays = (page: Page, joint: string, n: number, words: RegExp): Promise<void> =>
  expect.poll(() => head(page, joint, n).getAttribute('aria-label'), { timeout: SOON_MS }).toMatch(words)

/** One tap on a head; waits until the map says that it was reached. */
export async function tap(page: Page, joint: string, n: number): Promise<void> {
  await head(page, joint, n).click()
  await headSays(page, joint, n, /, reached|, final/)
}

export const HEAD_NUTS = 'Head nuts'
export const HEAD_ORDER = [1, 4, 2, 5, 3, 6]
export const HEAD_PASSES = ['40', '70', '90']

/** The server has it: the head no longer waits, for the device's store or for the signal. */
export const confirmed = (page: Page, joint: string, n: number): Promise<void> =>
  headSays(page, joint, n, /^(?!.*(waiting to be sent|not kept yet))/)

/** All passes of the launch diesel's head nuts in the plan's order; `from` counts passes. */
export async function tightenHead(page: Page, from = 1): Promise<void> {
  for (const [index, scale] of HEAD_PASSES.entries()) {
    if (index + 1 < from) continue
    await enterScale(page, scale)
    for (const n of HEAD_ORDER) await tap(page, HEAD_NUTS, n)
    if (index + 1 < HEAD_PASSES.length)
      await page.getByRole('button', { name: new RegExp(`^Pass ${index + 2} next`) }).click()
  }
  await page.getByRole('button', { name: 'Next: sign step' }).click()
}

export const signButton = (page: Page): Locator =>
  page.getByRole('button', { name: 'Sign step: it is done, and I did it' })

/** Where another person gives their PIN on this tablet, whoever is signed in on it. */
export async function secondDialog(page: Page, server: Server, personId: string): Promise<Locator> {
  await page
    .getByRole('button', { name: /^Give second signature/ })
    .first()
    .click()
  const dialog = page.getByRole('dialog', { name: 'Give second signature' })
  await dialog.getByRole('button', { name: nameOf(server, personId) }).click()
  return dialog
}

export async function enterSecond(dialog: Locator, pin: string): Promise<void> {
  await pressDigits(dialog.getByRole('group', { name: 'PIN' }), pin)
  await dialog.getByRole('button', { name: /^Give second signature as/ }).click()
}

export const secondByPin = async (page: Page, server: Server, personId: string): Promise<void> =>
  enterSecond(await secondDialog(page, server, personId), pinOf(server, personId))

/** The text of something, waited for until it says so. */
export const says = (what: Locator, words: string | RegExp): Promise<void> =>
  expect.poll(() => what.textContent(), { timeout: SOON_MS }).toMatch(words)

/** One engine's row on the board. */
export const rowOf = (page: Page, number: string): Locator =>
  page.getByRole('listitem').filter({ has: page.getByRole('heading', { name: number, exact: true }) })

/** In the bench's own list: claims a step and opens it. */
export async function claimFromList(page: Page, jobId: string, stepId: string): Promise<void> {
  await page.goto(`/jobs/${jobId}/bench`)
  await page.getByRole('button', { name: new RegExp(`^(Claim step|Claim and continue) ${stepId}$`) }).click()
  await page.getByRole('button', { name: 'Leave step', exact: true }).waitFor()
}

export async function takeWrench(page: Page, wrenchId: string): Promise<void> {
  await page.getByRole('button', { name: 'Other wrench' }).click()
  await page
    .getByRole('dialog', { name: 'Which wrench is in your hand?' })
    .getByRole('button', { name: new RegExp(wrenchId) })
    .click()
}

/** One of the pages of a step's work: a round, Measure, Check, Sign. */
export const station = (page: Page, name: RegExp): Locator =>
  page.getByRole('navigation', { name: 'Work of this step' }).getByRole('button', { name })

/** At the bench, on the step shown. */
export async function raiseHold(page: Page, stepId: string, kind: string, what: string): Promise<void> {
  await page.getByRole('button', { name: 'Put on hold' }).click()
  const dialog = page.getByRole('dialog', { name: `Put ${stepId} on hold` })
  await dialog.getByRole('radio', { name: kind, exact: true }).check()
  await dialog.getByRole('textbox').first().fill(what)
  await dialog.getByRole('button', { name: 'Put on hold' }).click()
  await page.getByRole('region', { name: 'On hold' }).waitFor()
}

/** One fastener of the round shown, due at a later step. */
export async function leaveOut(page: Page, joint: string, n: number, dueStepId: string): Promise<void> {
  await page.getByRole('button', { name: 'One fastener…' }).click()
  await head(page, joint, n).click()
  const dialog = page.getByRole('dialog', { name: new RegExp(`^${joint}: `) })
  await dialog.getByRole('button', { name: 'Leave out' }).click()
  const leaving = page.getByRole('dialog', { name: 'Leave out' })
  await leaving.getByLabel('Due at').selectOption(dueStepId)
  await leaving.getByRole('button', { name: 'In the way of a later fit' }).click()
  await leaving.getByRole('button', { name: `Leave out until ${dueStepId}` }).click()
  await page.getByRole('heading', { name: 'Left out on purpose' }).waitFor()
}

/** A picture of this very page, as if the camera had taken it. */
export async function takePhoto(page: Page, label: string): Promise<void> {
  const chooser = page.waitForEvent('filechooser')
  await page.getByRole('button', { name: label }).click()
  const buffer = await page.screenshot({ type: 'jpeg' })
  await (await chooser).setFiles({ name: 'camera.jpg', mimeType: 'image/jpeg', buffer })
}

/** On the audit page: asks for the release and answers with the sheet that says what came of it. */
export async function askRelease(page: Page, kind: 'to fitting' | 'to the owner'): Promise<Locator> {
  await page.getByRole('button', { name: new RegExp(`^Release ${kind}`) }).click()
  const sheet = page.getByRole('dialog', { name: `Release ${kind}` })
  await sheet.getByRole('button', { name: `Release ${kind}: I answer for it` }).click()
  return sheet
}

/** Every reason a refused release gives, as it stands on the screen; the sheet is closed again. */
export async function reasonsAgainst(page: Page, kind: 'to fitting' | 'to the owner'): Promise<string[]> {
  const sheet = await askRelease(page, kind)
  const back = sheet.getByRole('button', { name: 'To the list' })
  await back.waitFor()
  const reasons = await sheet.getByRole('listitem').allTextContents()
  await back.click()
  return reasons
}

/** An engine at its head, on this device: claimed, the wrench set, the first nut taken and confirmed. */
export async function beginHead(device: Device, jobId: string): Promise<void> {
  await toBench(device, jobId, 'B1')
  await claim(device.page)
  await enterScale(device.page, '40')
  await tap(device.page, HEAD_NUTS, 1)
  await confirmed(device.page, HEAD_NUTS, 1)
}
