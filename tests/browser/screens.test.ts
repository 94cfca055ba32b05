/**
 * Every screen, at every size, by day and by night: nothing axe finds, nothing on the console, nothing wider than
 * the window, no words cut off, and at the bench nothing too small for a glove.
 *
 * Axe looks at everything by day and again, at night, at what the light changes: contrast. The two big pages of the
 * 50-step engine are looked at at every size for their layout, by axe on the tablet by day; the short engine has the rest.
 */
import { describe, expect, test } from 'vitest'
import {
  claim,
  command,
  engineAtItsHead,
  enterScale,
  HEAD_NUTS,
  head,
  LAUNCH,
  signButton,
  tightenHead,
} from './hands'
import { type Device, SIZES, type Size, stands, useShop } from './harness'
import { GLOVE_PX, looks } from './looks'

const sizes = Object.keys(SIZES) as Size[]

describe('a shop with its engines', () => {
  const shop = useShop()

  test.each(sizes)('sign-in, on a %s', async (size) => {
    const device = await shop.device({ size })
    await device.goTo('/sign-in')
    await device.page.getByRole('button', { name: 'Suvi Hale' }).waitFor()
    const found = await looks(device, `${size}-sign-in`, { press: GLOVE_PX })
    await device.page.getByRole('button', { name: 'Suvi Hale' }).click()
    const pad = device.page.getByRole('region', { name: 'PIN of Suvi Hale' })
    found.push(...(await looks(device, `${size}-pin`, { press: GLOVE_PX })))
    if (size === 'tablet') {
      // A wrong PIN is answered in words; the browser notes the 401 by itself. Once: the shop slows down who guesses.
      device.allow(/401 \(Unauthorized\).*\/api\/sign-in/)
      for (const digit of '0000') await pad.getByRole('button', { name: digit, exact: true }).click()
      await pad.getByRole('button', { name: 'Sign in' }).click()
      await pad.getByText('That is not this person’s PIN.').waitFor()
      found.push(...(await looks(device, `${size}-wrong-pin`)))
    }
    expect(found).toEqual([])
  })

  test.each(sizes)('board, new job, change of person, on a %s', async (size) => {
    const device = await shop.deviceOf('odile', { size })
    const { page } = device
    await device.goTo('/')
    await page.getByRole('heading', { name: 'E-101', exact: true }).waitFor()
    await page
      .getByRole('img', { name: /of 50 steps signed/ })
      .first()
      .waitFor()
    const found = await looks(device, `${size}-board`)
    await page.getByRole('searchbox').fill('no such engine')
    await page.getByRole('heading', { name: 'No engine matches' }).waitFor()
    found.push(...(await looks(device, `${size}-board-nothing-found`)))
    await page.getByRole('button', { name: 'Open job' }).click()
    await page.getByRole('dialog', { name: 'Open job' }).waitFor()
    found.push(...(await looks(device, `${size}-new-job`)))
    await page.keyboard.press('Escape')
    await page.getByRole('button', { name: /is signed in/ }).click()
    await page.getByRole('dialog', { name: 'Who is using this tablet?' }).waitFor()
    found.push(...(await looks(device, `${size}-change-person`)))
    expect(found).toEqual([])
  })

  test.each(sizes)('engines that left the shop, looked up by number and by year, on a %s', async (size) => {
    const device = await shop.deviceOf('hattie', { size })
    const { page, context } = device
    const asked: string[] = []
    page.on('request', (request) => {
      if (/\/api\/finished/.test(request.url())) asked.push(request.url())
    })
    await device.goTo('/')
    const section = page.getByRole('region', { name: 'Engines that left the shop' })
    const says = (text: string | RegExp) => section.getByText(text).waitFor()
    await page.getByRole('searchbox', { name: 'Find an engine by number' }).fill('e-103x')
    await page.getByRole('heading', { name: 'No engine matches' }).waitFor()
    await section.getByRole('button', { name: 'Look up an engine' }).click()
    // What was sought on the board need not be typed again.
    const number = section.getByRole('textbox', { name: 'Job number' })
    await expect.poll(() => number.evaluate((field) => field === document.activeElement)).toBe(true)
    expect(await number.inputValue()).toBe('e-103x')
    expect(asked).toEqual([])
    await page.keyboard.press('Enter')
    await says('No engine “e-103x” has left the shop.')
    await says(/^Enter the whole number as it stands on the record/)
    const found = await looks(device, `${size}-left-none`)
    await number.fill(' ')
    await page.keyboard.press('Enter')
    await says(/^Enter the job number/)
    const year = section.getByRole('textbox', { name: 'Year of the last entry' })
    const shown = await year.inputValue()
    await year.fill('26')
    await section.getByRole('button', { name: 'Show year' }).click()
    await says(/^Enter a year from 1970 to/)
    found.push(...(await looks(device, `${size}-left-wrong`)))
    await number.fill('e-101')
    await section.getByRole('button', { name: 'Find engine' }).click()
    await says(/is on the board: it is still in the shop/)

    device.allow(/ERR_INTERNET_DISCONNECTED|WebSocket connection .* failed/)
    await context.setOffline(true)
    await number.fill('e-108')
    await page.keyboard.press('Enter')
    await says(/^No signal/)
    found.push(...(await looks(device, `${size}-left-no-signal`, { axe: 'none' })))
    await context.setOffline(false)
    await section.getByRole('button', { name: 'Try again' }).click()
    await says('This engine left the shop.')
    await year.fill(shown)
    await page.keyboard.press('Enter')
    await says(new RegExp(`^1 engine with the last entry in ${shown}$`))
    found.push(...(await looks(device, `${size}-left-found`)))
    await section.getByRole('link', { name: /^Record / }).click()
    await page.waitForURL(/\/jobs\/e-108\/record\//)
    // Whoever comes back finds the list as it was.
    await page.goBack()
    await says(new RegExp(`^1 engine with the last entry in ${shown}$`))
    await section.getByRole('link', { name: /^E-108 / }).click()
    await page.waitForURL(/\/jobs\/e-108$/)
    expect(found).toEqual([])
  })

  test.each(sizes)('engine without a plan and with one, and its audit, on a %s', async (size) => {
    const device = await shop.deviceOf('odile', { size })
    const jobId = `no-plan-${size}`
    await command(device, jobId, { type: 'OpenJob', number: `N-${size}`, ...NO_PLAN_YET })
    await device.goTo(`/jobs/${jobId}`)
    await device.page.getByRole('heading', { name: 'No build plan yet' }).waitFor()
    const found = await looks(device, `${size}-engine-no-plan`)
    await device.goTo(`/jobs/${jobId}/audit`)
    await device.page.getByRole('heading', { name: 'Nothing to audit yet' }).waitFor()
    found.push(...(await looks(device, `${size}-audit-no-plan`)))
    await device.goTo('/jobs/e-105')
    await device.page.getByRole('heading', { name: 'The plan', exact: true }).waitFor()
    found.push(...(await looks(device, `${size}-engine`)))
    await device.goTo('/jobs/e-105/audit')
    await device.page.getByRole('heading', { name: 'The record', exact: true }).waitFor()
    found.push(...(await looks(device, `${size}-audit`)))
    expect(found).toEqual([])
  })

  test.each(sizes)('the engine of fifty steps, on a %s', async (size) => {
    const device = await shop.deviceOf('odile', { size })
    const axe = size === 'tablet' ? 'day' : 'none'
    await device.goTo('/jobs/e-101')
    await device.page.getByRole('heading', { name: 'The plan', exact: true }).waitFor()
    const found = await looks(device, `${size}-engine-full`, { axe })
    await device.goTo('/jobs/e-101/audit')
    await device.page.getByRole('heading', { name: 'The record', exact: true }).waitFor()
    found.push(...(await looks(device, `${size}-audit-full`, { axe })))
    await device.goTo('/jobs/e-101/bench')
    await device.page.getByRole('heading', { name: 'What can I work on?' }).waitFor()
    found.push(...(await looks(device, `${size}-bench-chooser`, { press: GLOVE_PX })))
    expect(found).toEqual([])
  })

  test.each(sizes)('the bench from claim to signature, on a %s', async (size) => {
    const lead = await shop.deviceOf('odile')
    const { jobId } = await engineAtItsHead(lead)
    const device = await shop.deviceOf('suvi', { size })
    const { page } = device
    const found: string[] = []
    const look = async (name: string) => {
      found.push(...(await looks(device, `${size}-bench-${name}`, { press: GLOVE_PX })))
    }
    const onScale = async () => {
      if (size !== 'phone') return
      await page.getByRole('button', { name: /^What is .* set to\?$/ }).click()
    }
    await device.goTo(`/jobs/${jobId}/bench/B1`)
    await look('unclaimed')
    await claim(page)
    await onScale()
    await page.getByRole('group', { name: 'Number on the scale' }).waitFor()
    await look('scale-entry')
    if (size === 'phone') await page.keyboard.press('Escape')
    await page.getByRole('button', { name: 'Other wrench' }).first().click()
    await page.getByRole('dialog', { name: 'Which wrench is in your hand?' }).waitFor()
    await look('wrenches')
    await page.getByRole('button', { name: /TW-14/ }).click()
    await onScale()
    await enterScale(page, '40')
    await page.getByRole('heading', { name: 'Stop: which unit is that?' }).waitFor()
    await look('unit-slip')
    await page.getByRole('button', { name: 'It really is set to that' }).click()
    await head(page, HEAD_NUTS, 1).click()
    await page.getByRole('alert', { name: 'Flags' }).waitFor()
    await look('out-of-band')
    await page
      .getByRole('alert', { name: 'Flags' })
      .getByRole('button', { name: /^(Look at |What to do$)/ })
      .click()
    const panel = page.getByRole('dialog', { name: /^Head nuts: / })
    await panel.getByRole('button', { name: 'Cross out entry' }).click()
    await look('strike')
    await panel.getByRole('button', { name: 'wrong number entered' }).click()
    await look('struck')
    await panel.getByRole('button', { name: 'Close' }).click()
    // The rest is done on another tablet of the same person; this one follows.
    await command(device, jobId, { type: 'PutDownStep', stepId: 'B1' })
    const other = await shop.deviceOf('suvi')
    await other.goTo(`/jobs/${jobId}/bench/B1`)
    await claim(other.page)
    await tightenHead(other.page)
    await page
      .getByRole('navigation', { name: 'Work of this step' })
      .getByRole('button', { name: /^Sign/ })
      .click()
    await signButton(page).waitFor()
    await look('sign')
    await signButton(page).click()
    await page
      .getByRole('button', { name: /^Give second signature/ })
      .first()
      .waitFor()
    await look('second-due')
    await page
      .getByRole('button', { name: /^Give second signature/ })
      .first()
      .click()
    const second = page.getByRole('dialog', { name: 'Give second signature' })
    await second.getByRole('button', { name: 'Bram Teague' }).waitFor()
    await look('second-who')
    await second.getByRole('button', { name: 'Bram Teague' }).click()
    await second.getByRole('group', { name: 'PIN' }).waitFor()
    await look('second-pin')
    await page.keyboard.press('Escape')

    await lead.page.setViewportSize(SIZES[size])
    await lead.goTo(`/jobs/${jobId}/audit`)
    await lead.page
      .getByRole('button', { name: /^Give second signature/ })
      .first()
      .click()
    await lead.page.getByRole('dialog', { name: /^B1/ }).waitFor()
    found.push(...(await looks(lead, `${size}-audit-look`)))
    expect(found).toEqual([])
  })

  test.each(sizes)('measuring and checks at the bench, on a %s', async (size) => {
    const jobId = crypto.randomUUID()
    const device = await shop.deviceOf('odile', { size })
    const { number: _, model, serial, owner, agreed } = LAUNCH
    const number = `M-${sizes.indexOf(size)}`
    await command(device, jobId, { type: 'OpenJob', number, engine: { model, serial }, owner, agreed })
    await command(device, jobId, {
      type: 'AdoptPlan',
      planId: 'orrath-q31',
      edition: await editionOf(device),
    })
    const { page } = device
    await device.goTo(`/jobs/${jobId}/bench/A1`)
    await claim(page)
    const found = await looks(device, `${size}-bench-checks`, { press: GLOVE_PX })
    await page.getByRole('button', { name: 'Count', exact: true }).first().click()
    await page.getByRole('dialog').getByRole('group').waitFor()
    found.push(...(await looks(device, `${size}-bench-count`, { press: GLOVE_PX })))
    await page.keyboard.press('Escape')
    await device.goTo('/jobs/e-108/bench/B5')
    found.push(...(await looks(device, `${size}-bench-done`, { press: GLOVE_PX })))
    await device.goTo('/jobs/e-101/bench/E1')
    await stands(page)
    found.push(...(await looks(device, `${size}-bench-measure`, { press: GLOVE_PX })))
    expect(found).toEqual([])
  })
})

describe('a shop that is not open yet', () => {
  const shop = useShop('main')

  test('first run at every size, then an empty board', async () => {
    const device = await shop.device()
    const { page } = device
    const found: string[] = []
    await device.goTo('/')
    await page.waitForURL(/\/first-run$/)
    for (const size of sizes) {
      await page.setViewportSize(SIZES[size])
      found.push(...(await looks(device, `${size}-first-run`)))
    }
    await page.getByLabel('Code from the server’s window').fill(await shop.server.firstRunCode())
    await page.getByRole('textbox', { name: 'Name of the shop' }).fill('Saltings Engine Works')
    await page.getByRole('textbox', { name: 'Your name' }).fill('Ada Brook')
    await page.getByLabel('PIN', { exact: true }).fill('2749')
    await page.getByLabel('PIN again').fill('2748')
    await page.getByRole('button', { name: 'Open the shop' }).click()
    await page.getByText('The two PINs differ.').waitFor()
    await page.getByLabel('PIN again').fill('2749')
    await page.getByRole('button', { name: 'Open the shop' }).click()
    await page.getByRole('heading', { name: 'Saltings Engine Works is open' }).waitFor()
    for (const size of sizes) {
      await page.setViewportSize(SIZES[size])
      found.push(...(await looks(device, `${size}-first-run-guide`)))
    }
    await device.goTo('/shop/backups')
    await page.getByText('The server makes no backups by itself.').waitFor()
    for (const size of sizes) {
      await page.setViewportSize(SIZES[size])
      found.push(...(await looks(device, `${size}-backups`)))
    }
    await device.goTo('/')
    await page.getByRole('heading', { name: 'No engine is in the shop yet.' }).waitFor()
    for (const size of sizes) {
      await page.setViewportSize(SIZES[size])
      found.push(...(await looks(device, `${size}-board-empty`)))
    }
    await page.getByRole('button', { name: 'Open job' }).waitFor()
    expect(found).toEqual([])
  })
})

const NO_PLAN_YET = {
  engine: { model: 'Halvard F52', serial: 'HF52-2201' },
  owner: 'Mrs Rook',
  agreed: 'Liners',
}

async function editionOf(device: Device): Promise<number> {
  const answer = await device.context.request.get('/api/jobs/e-101')
  return ((await answer.json()) as { plan: { edition: number } }).plan.edition
}
