/**
 * The first hour of a real shop, on the pages alone: opened on the first-run page, people, a wrench and a plan entered
 * from the guided list, a plan file's faults shown at their place and put right there, the first engine under way.
 */
import type { Locator, Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { adoptPlan, claimFromList, enterScale, openJob, says, tap } from './hands'
import { type Device, signIn, stands, useShop } from './harness'
import { looks } from './looks'
import { SMALL_PLAN } from './small-shop'

const shop = useShop('main')
const STORY_MS = 240_000

const TOM = { name: 'Tom Garrick', pin: '1357' }

async function firstRun({ page }: Device): Promise<void> {
  await page.goto('/')
  await page.waitForURL(/\/first-run$/)
  await page.getByLabel('Code from the server’s window').fill(await shop.server.firstRunCode())
  await page.getByRole('textbox', { name: 'Name of the shop' }).fill('Saltings Engine Works')
  await page.getByRole('textbox', { name: 'Your name' }).fill('Ada Brook')
  expect(await page.getByRole('textbox', { name: 'Your initials' }).inputValue()).toBe('AB')
  await page.getByLabel('PIN', { exact: true }).fill('2749')
  await page.getByLabel('PIN again').fill('2749')
  await page.getByRole('button', { name: 'Open the shop' }).click()
  await page.getByRole('heading', { name: 'Saltings Engine Works is open' }).waitFor()
  await says(page.getByRole('status').filter({ hasText: 'done' }), '0 of 4 done')
}

const field = (form: Locator, name: string) => form.getByLabel(name, { exact: true })

/** Initials somebody wears are refused at their field; without a PIN nobody signs in, so it is asked at once. */
async function addsAPerson({ page }: Device): Promise<void> {
  await page.getByRole('link', { name: 'Enter the people' }).click()
  await says(page.getByRole('main'), 'Only one person is entered.')
  await page.getByRole('button', { name: 'Add person' }).click()
  const form = page.getByRole('dialog', { name: 'Add person' })
  await form.getByRole('textbox', { name: 'Name', exact: true }).fill(TOM.name)
  await form.getByRole('textbox', { name: 'Initials' }).fill('ab')
  await says(form, 'AB are Ada Brook’s initials. Choose others: they appear beside every paint stripe.')
  await form.getByRole('textbox', { name: 'Initials' }).fill('tg')
  await form.getByRole('checkbox', { name: /^technician/ }).check()
  for (const group of ['May do and sign', 'May second-sign the work of others']) {
    const classes = form.getByRole('group', { name: group })
    for (const one of ['A', 'B', 'C'])
      await classes.getByRole('checkbox', { name: new RegExp(`^class ${one}`) }).check()
  }
  await form.getByRole('button', { name: 'Add person, then set PIN' }).click()
  const pin = page.getByRole('dialog', { name: `A PIN for ${TOM.name}` })
  await field(pin, 'PIN').fill(TOM.pin)
  await field(pin, 'PIN again').fill('0000')
  await pin.getByRole('button', { name: 'Set PIN' }).click()
  await says(pin, /differ/)
  await field(pin, 'PIN again').fill(TOM.pin)
  await pin.getByRole('button', { name: 'Set PIN' }).click()
  await page.getByText(`The PIN of ${TOM.name} is set.`).waitFor()
}

async function hangsAWrench({ page }: Device): Promise<void> {
  await page
    .getByRole('navigation', { name: 'Parts of the shop' })
    .getByRole('link', { name: 'Wrenches' })
    .click()
  await page.getByRole('heading', { name: 'The crib is empty.' }).waitFor()
  await page.getByRole('button', { name: 'Add wrench' }).click()
  const form = page.getByRole('dialog', { name: 'Add wrench' })
  await form.getByRole('textbox', { name: 'Its name in the crib' }).fill('TW-1')
  await form.getByRole('textbox', { name: 'What it is' }).fill('click wrench 5–110')
  await form.getByRole('radio', { name: /^click/i }).check()
  await form.getByRole('textbox', { name: 'Lowest on its scale' }).fill('110')
  await form.getByRole('textbox', { name: 'Highest on its scale' }).fill('5')
  await form.getByRole('button', { name: 'Add wrench' }).click()
  // A scale that goes backwards is no scale: the form stays, and says so.
  await says(form, 'The scale goes from 110 to 5. Write the lower number first.')
  await form.getByRole('textbox', { name: 'Lowest on its scale' }).fill('5')
  await form.getByRole('textbox', { name: 'Highest on its scale' }).fill('110')
  await form.getByRole('button', { name: 'Add wrench' }).click()
  await form.waitFor({ state: 'hidden' })
  await says(page.getByRole('listitem').filter({ hasText: 'TW-1' }), '5 to 110 N·m')
}

/** Two faults a hand makes: a head forgotten in the order, and a need that names no step. */
const FAULTY = JSON.stringify(
  {
    ...SMALL_PLAN,
    steps: SMALL_PLAN.steps.map((step) =>
      step.id === 'A1'
        ? { ...step, joints: step.joints.map((joint) => ({ ...joint, order: [1, 3, 2] })) }
        : step.id === 'A2'
          ? { ...step, needs: ['A9'] }
          : step,
    ),
  },
  null,
  2,
)

/** The line the text cursor stands in. */
const lineAt = (area: Locator) =>
  area.evaluate(
    (element) =>
      (element as HTMLTextAreaElement).value
        .slice(0, (element as HTMLTextAreaElement).selectionStart)
        .split('\n').length,
  )

async function readsAPlan(device: Device): Promise<void> {
  const { page } = device
  // A file with faults is answered with 400 and its faults; the browser notes that by itself.
  device.allow(/400 \(Bad Request\).*\/api\/plans\/read/)
  await page.goto('/shop/plans/read-one')
  await stands(page)
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'harrow-r2.json', mimeType: 'application/json', buffer: Buffer.from(FAULTY) })
  const faults = page.getByRole('region', { name: /^2 faults: nothing was added\./ })
  await says(faults, 'The order is not each position once.')
  await says(faults, 'There is no step A9.')
  // Each stands with its lines of the text, and its press leads there.
  await says(faults, '"A9"')
  expect(await looks(device, 'shop-plan-faults')).toEqual([])
  const area = page.getByRole('textbox', { name: /^Or paste its text/ })
  const go = faults.getByRole('listitem').filter({ hasText: 'There is no step A9.' }).getByRole('button')
  const line = Number((await go.textContent())?.match(/line (\d+)/)?.[1])
  await go.click()
  expect(await lineAt(area)).toBe(line)
  expect(FAULTY.split('\n')[line - 1]).toContain('A9')
  // Put right in the text itself, and read again.
  await area.fill(FAULTY.replace('"A9"', '"A1"').replace(/("order": \[\s*1,\s*3,\s*2)\s*\]/, '$1, 4]'))
  await page.getByRole('button', { name: 'Read it again' }).click()
  await page.getByText('No fault found. Look at it; it is not in the library yet.').waitFor()
  await looksAtIt(device)
  await page.getByRole('button', { name: 'Add to library' }).click()
  await page.waitForURL(/\/shop\/plans\/harrow-r2/)
}

/** Before it is added every step can be opened, with its map. */
async function looksAtIt(device: Device): Promise<void> {
  const { page } = device
  await says(page.getByRole('main'), 'values invented')
  // Its cautions name the step as well.
  await page.locator('summary').filter({ hasText: 'Head on, nuts tightened' }).click()
  await page.getByRole('region', { name: 'Head nuts' }).getByRole('img').waitFor()
  await says(page.getByRole('region', { name: 'Head nuts' }), '30 → 60 N·m')
  expect(await looks(device, 'shop-plan-look')).toEqual([])
}

async function guideDone({ page }: Device): Promise<void> {
  await page.goto('/first-run')
  await says(page.getByRole('status').filter({ hasText: 'done' }), '3 of 4 done')
}

const idOf = async (page: Page, name: string): Promise<string> => {
  const answer = await page.request.get('/api/people')
  const people = (await answer.json()) as { id: string; name: string }[]
  return people.find((one) => one.name === name)?.id ?? ''
}

test(
  'a new shop, from its first page to the first head of its first engine',
  async () => {
    const office = await shop.device({ size: 'office' })
    const { page } = office
    await firstRun(office)
    await addsAPerson(office)
    await hangsAWrench(office)
    await readsAPlan(office)
    await guideDone(office)
    await page.getByRole('link', { name: 'To the board' }).click()
    await page.getByRole('heading', { level: 1, name: 'Board' }).waitFor()
    const jobId = await openJob(page, {
      number: 'S-1',
      model: 'Harrow R2',
      serial: 'R2-0041',
      owner: 'Saltings Ferry',
      agreed: 'Head off, valves ground in',
    })
    await adoptPlan(page, 'S-1', SMALL_PLAN.title)
    // All four are done: the shop page does not lead back to the list any more.
    await page.goto('/shop')
    await page.getByRole('heading', { name: /^People/ }).waitFor()
    expect(await page.getByText('The shop is being set up').count()).toBe(0)

    shop.server.people.push({ id: await idOf(page, TOM.name), ...TOM })
    const tom = await shop.device()
    await signIn(tom, shop.server, await idOf(page, TOM.name))
    await claimFromList(tom.page, jobId, 'A1')
    await enterScale(tom.page, '30')
    await tap(tom.page, 'Head nuts', 1)
  },
  STORY_MS,
)
