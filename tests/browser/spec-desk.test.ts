/**
 * The spec desk in a real browser: a thread typed gives its band, a bolt that bottoms is said, a crowfoot moves the
 * setting, and a link opened again gives the same sheet.
 */
import type { Page } from 'playwright-core'
import { describe, expect, test } from 'vitest'
import { type Device, useShop } from './harness'
import { looks } from './looks'

const shop = useShop()

const field = (page: Page, name: string) => page.getByLabel(name, { exact: true })
const answer = (page: Page, name: string) => page.getByRole('region', { name, exact: true })

async function atDesk(size: 'phone' | 'tablet' | 'office', search = ''): Promise<Device> {
  const device = await shop.deviceOf('odile', { size })
  await device.goTo(`/desk${search}`)
  return device
}

const WHOLE =
  '?thread=M10x1.25&class=10.9&lubrication=oil&hole=cast_iron&length=45&stack=22&washer=2&depth=28&drilled=32&bolts=8' +
  '&adapter=50&angle=45&wrench=400&convert=35+ft.+lbs.'

describe('the spec desk', () => {
  test('from the bar, by keyboard: a thread typed as printed gives its band, recommended torque and why', async () => {
    const { page, goTo } = await shop.deviceOf('odile', { size: 'office' })
    await goTo('/')
    await page
      .getByRole('navigation', { name: 'Pages' })
      .getByRole('link', { name: 'Spec desk' })
      .press('Enter')
    await page.getByText('Type a thread as it is printed.').waitFor()
    await field(page, 'Thread').focus()
    await page.keyboard.type('M10x1.25')
    const torque = answer(page, 'Torque, computed')
    // Nothing is taken that decides the number.
    await torque.getByText('Enter the class or grade as it is marked on the head').waitFor()
    await field(page, 'Class or grade').fill('8.8')
    await torque.getByText('Say how thread and head are').waitFor()
    await torque.getByRole('button', { name: 'oiled', exact: true }).press('Enter')
    await torque.getByText('full use over the band, μ 0.08 to 0.16').waitFor()
    const words = await torque.ariaSnapshot()
    expect(words).toContain('The maker’s printed value counts, not what is computed here.')
    const [, low = '', high = ''] = /([\d.]+) to ([\d.]+) N·m/.exec(words) ?? []
    const [, recommended = ''] = /text: recommended\s+- strong: ([\d.]+) N·m/.exec(words) ?? []
    expect(Number(recommended)).toBeLessThanOrEqual(Number(low))
    expect(Number(high)).toBeGreaterThan(1.4 * Number(low))
    expect(words).toContain('Why this one: it uses 90 % of the yield stress of 8.8')
    await torque.getByRole('button', { name: 'Formula and source of the torque' }).press('Enter')
    await torque.getByText('VDI 2230 Part 1, 2001 and later').waitFor()
    // What is typed faster than the address follows stays as typed.
    expect(await field(page, 'Thread').inputValue()).toBe('M10x1.25')
    expect(new URL(page.url()).search).toBe('?thread=M10x1.25&class=8.8&lubrication=oil')
  })

  test('a bolt that bottoms is said and drawn so, and no torque is recommended for it', async () => {
    const { page } = await atDesk(
      'tablet',
      '?thread=M8&class=8.8&lubrication=oil&hole=cast_iron&stack=12&depth=18',
    )
    const torque = answer(page, 'Torque, computed')
    expect(await torque.ariaSnapshot()).toContain('recommended')
    await field(page, 'Bolt length, mm').fill('45')
    const fit = answer(page, 'Does the bolt fit?')
    await fit.getByText('It bottoms: the wrench clicks and nothing is clamped.').waitFor()
    await fit.getByRole('img', { name: /It bottoms.*too long by 15 mm/ }).waitFor()
    // Reached deeper than the thread goes, it is held by the thread there is.
    expect(await fit.ariaSnapshot()).toContain('18 mm (2.3 d)')
    expect(await torque.ariaSnapshot()).toContain(
      'No torque is recommended: the bolt would stand on the bottom',
    )
    await field(page, 'Bolt length, mm').fill('25')
    await fit.getByText('It fits.', { exact: true }).waitFor()
    expect(await torque.ariaSnapshot()).not.toContain('No torque is recommended')
  })

  test('a crowfoot straight out lowers what is set, at a right angle it changes nothing', async () => {
    const { page } = await atDesk('tablet', '?thread=M8&printed=24+%C2%B14+N%C2%B7m')
    const set = answer(page, 'What to set')
    await set.getByText('For 24 N·m as the manual prints it; band 20 to 28 N·m (as printed).').waitFor()
    await field(page, 'Adapter, mm').fill('60')
    await field(page, 'Adapter’s angle, °').fill('0')
    await field(page, 'Wrench, mm').fill('300')
    await set.getByText('Any wrench of 300 mm with this adapter is set to').waitFor()
    await set.getByRole('img', { name: '300 mm of this wrench, the adapter 60 mm at 0°' }).waitFor()
    expect(await set.ariaSnapshot()).toContain('20 N·m (14.8 lbf·ft)')
    await field(page, 'Adapter’s angle, °').fill('90')
    await expect.poll(() => set.ariaSnapshot()).toContain('24 N·m (17.7 lbf·ft)')
  })

  test('what the manual prints: a contradiction stops the setting, what is unclear is asked and chosen', async () => {
    const { page } = await atDesk('office', '?thread=M10')
    const set = answer(page, 'What to set')
    await field(page, 'What the manual prints').fill('95 N·m (70 in-lb)')
    const printed = answer(page, 'Printed: it counts before anything computed')
    await printed.getByText('The manual contradicts itself').waitFor()
    expect(await set.ariaSnapshot()).toContain('There is no torque to set yet.')
    await field(page, 'What the manual prints').fill('35')
    await printed.getByRole('button', { name: '35 lbf·ft' }).click()
    await expect.poll(() => field(page, 'What the manual prints').inputValue()).toBe('35 lbf·ft')
    await set.getByText('For 47.45 N·m as the manual prints it').waitFor()
  })

  test('what the reader leaves beside a torque: a remark, and words that one press keeps', async () => {
    const device = await atDesk('office', '?thread=M10x1.25')
    const { page } = device
    const printed = answer(page, 'Printed: it counts before anything computed')
    await field(page, 'What the manual prints').fill('46.0 N·m (34.5 lbf·ft)')
    await printed.getByText('“46.0 N·m” and “34.5 lbf·ft” are 1.7 % apart. The first is taken.').waitFor()
    await field(page, 'What the manual prints').fill('46 Nm with new bolts')
    await printed.getByText('with the note “with new bolts”').waitFor()
    expect(await looks(device, 'desk-offered')).toEqual([])
    await printed.getByRole('button', { name: 'It says 46 N·m' }).click()
    const beside = printed.getByText('Printed beside it, and not read: “with new bolts”.', { exact: true })
    await beside.waitFor()
    expect(await field(page, 'What the manual prints').inputValue()).toBe('46 N·m')
    await answer(page, 'What to set').getByText('For 46 N·m as the manual prints it').waitFor()
    await page.reload()
    await beside.waitFor()
    // What is typed by hand is another torque.
    await field(page, 'What the manual prints').fill('47 N·m')
    await beside.waitFor({ state: 'detached' })
  })

  test('a number out of bounds is told at its own field, with both bounds', async () => {
    const { page } = await atDesk('phone', '?thread=M10&stack=12&depth=90000')
    await page
      .getByText('“Thread depth” cannot be 90000 mm. Enter a number above 0 mm to 5000 mm.')
      .first()
      .waitFor()
    expect(await field(page, 'Thread depth, mm').getAttribute('aria-invalid')).toBe('true')
    expect(await field(page, 'Drilled to, mm').getAttribute('aria-invalid')).toBeNull()
    await field(page, 'Thread depth, mm').fill('18')
    await expect.poll(() => field(page, 'Thread depth, mm').getAttribute('aria-invalid')).toBeNull()
  })

  test('a link opened again, and a reload, give the same sheet', async () => {
    const first = await atDesk('office')
    const { page } = first
    for (const [name, value] of [
      ['Thread', '3/8-16 UNC'],
      ['Class or grade', 'SAE 8'],
      ['Clamped stack, mm', '15'],
      ['Thread depth, mm', '25'],
      ['How many bolts', '10'],
      ['A torque to convert', '12,5 daN·m'],
    ] as const)
      await field(page, name).fill(value)
    await page.getByLabel('Thread and head are').selectOption('anti_seize')
    await page.getByLabel('The hole is cut in').selectOption('steel')
    await expect.poll(() => new URL(page.url()).search).toContain('hole=steel')
    const sheet = (on: Page) => on.getByRole('main').ariaSnapshot()
    const before = await sheet(page)
    expect(before).toContain('Tighten 1, 6, 3, 8, 5, 10, 2, 7, 4, 9')
    await first.goTo(new URL(page.url()).pathname + new URL(page.url()).search)
    await expect.poll(() => sheet(page)).toBe(before)
    const other = await shop.deviceOf('bram', { size: 'office' })
    await other.goTo(new URL(page.url()).pathname + new URL(page.url()).search)
    await expect.poll(() => sheet(other.page)).toBe(before)
    await page.getByRole('link', { name: 'Empty sheet' }).click()
    await page.getByText('Type a thread as it is printed.').waitFor()
    expect(await field(page, 'Thread').inputValue()).toBe('')
    await page.goBack()
    await expect.poll(() => sheet(page)).toBe(before)
  })
})

describe('how it looks', () => {
  test('a whole sheet, a refused one and an empty one, on every size', async () => {
    const found: string[] = []
    const refused = '?thread=1/4-18+NPT&class=bronze&printed=95+N%C2%B7m+(70+in-lb)&convert=100&bolts=1.5'
    const stainless = '?thread=M8&class=A2-70&lubrication=dry&insert=wire&stack=10&depth=18&length=30'
    for (const [size, name, search] of [
      ['office', 'desk-whole-office', WHOLE],
      ['tablet', 'desk-refused-tablet', refused],
      ['phone', 'desk-whole-phone', WHOLE],
      ['phone', 'desk-grey-phone', stainless],
      ['phone', 'desk-empty-phone', ''],
    ] as const) {
      const device = await atDesk(size, search)
      found.push(...(await looks(device, name)))
    }
    expect(found).toEqual([])
  })

  test('on paper: what was entered and what it rests on are there, keys and empty fields are not', async () => {
    const { page } = await atDesk('office', WHOLE)
    await answer(page, 'What to set').waitFor()
    await page.emulateMedia({ media: 'print' })
    const seen = (text: string) => page.getByText(text, { exact: true }).last().isVisible()
    expect(await seen('Formulas and sources')).toBe(true)
    expect(await seen('Preload and tightening torque')).toBe(true)
    expect(await page.getByRole('button', { name: 'Print' }).isVisible()).toBe(false)
    expect(await field(page, 'Bolt length, mm').isVisible()).toBe(true)
    expect(await field(page, 'Band, ± %').isVisible()).toBe(false)
  })
})
