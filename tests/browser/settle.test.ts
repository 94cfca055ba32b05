/** A torque nobody published: refused to be computed where formulas do not hold, computed where they do, and kept for ever. */
import { randomUUID } from 'node:crypto'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { command, LAUNCH, says } from './hands'
import { type Device, SIZES, type Size, useShop } from './harness'
import { looks } from './looks'
import { SETTLE_PLAN } from './settle-plan'

const shop = useShop()
const main = (page: Page) => page.getByRole('main')
const field = (page: Page, name: string | RegExp) => main(page).getByRole('textbox', { name })

/** An engine on the plan of `settle-plan.ts`; answers with its id. */
async function engine(device: Device): Promise<string> {
  const jobId = `settle-${randomUUID().slice(0, 8)}`
  const added = await device.context.request.post('/api/shop/commands', {
    data: { commandId: randomUUID(), type: 'AddPlan', plan: SETTLE_PLAN },
  })
  expect(added.status(), await added.text()).toBe(201)
  const { number: _, model, serial, owner, agreed } = LAUNCH
  await command(device, jobId, {
    type: 'OpenJob',
    number: jobId.slice(-6).toUpperCase(),
    engine: { model, serial },
    owner,
    agreed,
  })
  await command(device, jobId, { type: 'AdoptPlan', planId: SETTLE_PLAN.id, edition: 1 })
  return jobId
}

test('T3: the anode plug, bronze in bronze: nothing is computed, with why; Odile’s own word stands for ever', async () => {
  const device = await shop.deviceOf('odile', { size: 'office' })
  const { page } = device
  await device.goTo('/jobs/e-101/audit')
  await page.getByRole('link', { name: 'Decide torque Anode carrier plug' }).click()
  await says(main(page), 'The formulas do not hold here.')
  await says(main(page), 'A plug closes a hole and seats on a washer or its own shoulder')
  await says(main(page), 'no bolt strength is known for bronze')
  await says(main(page), 'Left empty on purpose: this is a bronze plug')
  expect(await page.getByRole('radio', { name: /^Computed/ }).isDisabled()).toBe(true)
  expect(await main(page).getByRole('cell', { name: 'no value' }).count()).toBe(3)

  await field(page, /^Whose word/).fill('Odile, supervisor, marine fitter')
  // Typing chose the way.
  expect(await page.getByRole('radio', { name: /A competent person’s word/ }).isChecked()).toBe(true)
  await main(page).getByRole('button', { name: 'Decide torque: I answer for it' }).click()
  await says(main(page), 'Enter the torque in N·m, above 0 and at most')
  await says(main(page), 'Say why this value is right for this joint.')
  await field(page, 'Torque, N·m').fill('12')
  expect(await field(page, 'Lowest, N·m').inputValue()).toBe('10.8')
  await field(page, 'Lowest, N·m').fill('11')
  await field(page, 'Highest, N·m').fill('13')
  await field(page, /^Why this value/).fill('Bronze, low pressure; fibre washer, re-check cold at K2')
  await main(page).getByRole('button', { name: 'Decide torque: I answer for it' }).click()
  await main(page).getByRole('heading', { name: 'In force' }).waitFor()
  await says(main(page), '“Bronze, low pressure; fibre washer, re-check cold at K2”')
  await says(main(page), 'Odile')

  await main(page).getByRole('button', { name: 'Decide again' }).click()
  await field(page, 'Title').fill('Heat exchanger leaflet')
  await field(page, 'Edition').fill('3')
  await field(page, 'Page').fill('page 7')
  await field(page, 'Torque, N·m').fill('13')
  await field(page, /^Why this value/).fill('The leaflet came by post')
  await main(page).getByRole('button', { name: 'Decide torque: I answer for it' }).click()
  await says(main(page), 'Decided here before')
  await says(main(page), '11 to 13 N·m')

  await main(page).getByRole('link', { name: 'Audit', exact: true }).click()
  await says(main(page), 'Source: Heat exchanger leaflet, edition 3, page 7')
  await says(main(page), /Decided here before:.*12 N·m within 11 to 13 N·m/s)
})

test('a steel one is computed, capped where its thread would strip, and the audit shows what it rests on', async () => {
  const device = await shop.deviceOf('odile', { size: 'office' })
  const { page } = device
  const jobId = await engine(device)
  await device.goTo(`/jobs/${jobId}/settle/L-cover/1`)
  await says(main(page), 'held down because the thread of the hole would strip first'.replace('held', 'Held'))
  await page.getByRole('radio', { name: /^Computed/ }).check()
  const proposed = Number(await field(page, 'Torque, N·m').inputValue())
  expect(proposed).toBeGreaterThan(1)
  // More thread is more torque: what is added counts at once.
  await field(page, 'Engaged thread, mm').fill('16')
  await expect
    .poll(async () => Number(await field(page, 'Torque, N·m').inputValue()))
    .toBeGreaterThan(proposed)
  await field(page, 'Engaged thread, mm').fill('')
  await field(page, 'Highest, N·m').fill('60')
  await field(page, /^Why this value/).fill('As computed, and looked at')
  await main(page).getByRole('button', { name: 'Decide torque: I answer for it' }).click()
  await says(main(page), /The upper limit of 60 N·m is above .*, where something gives way/)
  await field(page, 'Highest, N·m').fill('')
  await main(page).getByRole('button', { name: 'Decide torque: I answer for it' }).click()
  await main(page).getByRole('heading', { name: 'In force' }).waitFor()
  await main(page)
    .getByRole('img', { name: /thread of the hole bears .* the weakest/ })
    .waitFor()
  await main(page).getByRole('link', { name: 'Audit', exact: true }).click()
  await says(
    main(page),
    /Cover bolts.*friction 0\.08 to 0\.16; hole in cast aluminium.*weakest: the thread of the hole/s,
  )

  const bench = await shop.deviceOf('bram')
  await command(bench, jobId, { type: 'ClaimStep', stepId: 'A1' })
  await bench.goTo(`/jobs/${jobId}/settle/L-cover/1`)
  await says(main(bench.page), 'In force')
  await says(main(bench.page), 'can decide a torque. Ask one of them.')
})

test('a coating word is asked about, never guessed; what would break the bolt is said and not taken', async () => {
  const device = await shop.deviceOf('odile')
  const { page } = device
  const jobId = await engine(device)
  // The slipperiest class there is, whatever “dry” in its name says.
  await device.goTo(`/jobs/${jobId}/settle/L-film/1`)
  await page.getByRole('radio', { name: /^Computed/ }).check()
  await says(main(page), 'friction 0.04 to 0.1')
  const film = Number(await field(page, 'Torque, N·m').inputValue())

  await device.goTo(`/jobs/${jobId}/settle/L-word/1`)
  await page.getByRole('radio', { name: /^Computed/ }).check()
  await says(main(page), 'Nothing is proposed yet.')
  const asked = main(page).getByRole('group', { name: /The plan says “no oil”/ })
  await asked.getByRole('button', { name: 'dry', exact: true }).click()
  await says(main(page), 'friction 0.14 to 0.24')
  const dry = Number(await field(page, 'Torque, N·m').inputValue())
  expect(dry).toBeGreaterThan(film)
  await device.shot('settle-coating')

  await field(page, /^Whose word/).fill('Odile, supervisor')
  await field(page, 'Torque, N·m').fill('400')
  await says(main(page), 'This cannot be right. 400 N·m would break a')
  await field(page, /^Why this value/).fill('Read off a list')
  await main(page).getByRole('button', { name: 'Decide torque: I answer for it' }).click()
  await says(main(page), /Clamp bolts, pass 1: 400 N·m would break a/)
  await device.shot('settle-impossible')
  await page.getByRole('radio', { name: /^Computed/ }).check()
  await field(page, 'Torque, N·m').fill('')
  await main(page).getByRole('button', { name: 'Decide torque: I answer for it' }).click()
  await main(page).getByRole('heading', { name: 'In force' }).waitFor()
  await says(main(page), new RegExp(`${dry}`))
})

test.each([
  ['L-stud', 'What the stud goes into is not known'],
  ['L-steel', 'A4-70 without a lubricant seizes'],
  ['L-taper', 'a taper pipe thread'],
])('%s: why nothing is proposed is said', async (joint, why) => {
  const device = await shop.deviceOf('odile')
  const jobId = await engine(device)
  await device.goTo(`/jobs/${jobId}/settle/${joint}/1`)
  await says(main(device.page), why)
})

test.each(Object.keys(SIZES) as Size[])('every state holds, on a %s', async (size) => {
  const device = await shop.deviceOf('odile', { size })
  const { page } = device
  const jobId = await engine(device)
  const at = (joint: string) => device.goTo(`/jobs/${jobId}/settle/${joint}/1`)
  await at('L-taper')
  await says(main(page), 'The formulas do not hold here.')
  const found = await looks(device, `settle-${size}-refused`)
  await at('L-stud')
  await page.getByRole('radio', { name: /^Computed/ }).check()
  await says(main(page), 'Nothing is proposed yet.')
  found.push(...(await looks(device, `settle-${size}-asked`)))
  await at('L-bracket')
  await page.getByRole('radio', { name: /^Computed/ }).check()
  await main(page)
    .getByRole('img', { name: /^Preload/ })
    .waitFor()
  found.push(...(await looks(device, `settle-${size}-proposed`)))
  await field(page, /^Why this value/).fill('As computed')
  await main(page).getByRole('button', { name: 'Decide torque: I answer for it' }).click()
  await main(page).getByRole('heading', { name: 'In force' }).waitFor()
  found.push(...(await looks(device, `settle-${size}-settled`)))
  expect(found).toEqual([])
})
