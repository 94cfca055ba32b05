/** A hand on the keyboard alone: sign in, claim, enter the scale, record heads, sign. No pointer is ever used. */
import type { Locator, Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { command, engineAtItsHead, HEAD_NUTS, HEAD_ORDER, head, signButton } from './hands'
import { nameOf, pinOf, SOON_MS, stands, useShop } from './harness'

const shop = useShop()

/** More than any page here has on the way to what is next. */
const FAR = 80

/** Tab after tab until the focus stands on it; that it can be reached so is the point. */
async function tabTo(page: Page, to: Locator): Promise<void> {
  await to.waitFor()
  for (let pressed = 0; pressed < FAR; pressed++) {
    if (await hasFocus(to)) return
    await page.keyboard.press('Tab')
  }
  throw new Error(`${FAR} presses of Tab do not reach ${to}.`)
}

const hasFocus = (what: Locator): Promise<boolean> =>
  what.evaluate((element) => element === document.activeElement)

/** Whether one sees where the focus is: a ring round it, or round what it spreads over the row it stands for. */
const hasRing = (what: Locator): Promise<boolean> =>
  what.evaluate((element) =>
    [undefined, '::after'].some((part) => {
      const { outlineStyle, outlineWidth, boxShadow } = getComputedStyle(element, part)
      return (outlineStyle !== 'none' && outlineWidth !== '0px') || boxShadow !== 'none'
    }),
  )

async function press(page: Page, what: Locator): Promise<void> {
  await tabTo(page, what)
  expect(await hasRing(what), `a ring on ${what}`).toBe(true)
  await page.keyboard.press('Enter')
}

test('a class A joint, from sign-in to signature, by keyboard alone', async () => {
  const { server } = shop
  const office = await shop.deviceOf('odile')
  const { jobId, number } = await engineAtItsHead(office)

  const device = await shop.device()
  const { page } = device
  await device.goTo('/sign-in')
  await press(page, page.getByRole('button', { name: nameOf(server, 'suvi') }))
  await page.getByRole('region', { name: `PIN of ${nameOf(server, 'suvi')}` }).waitFor()
  await page.keyboard.type(pinOf(server, 'suvi'))
  await press(page, page.getByRole('button', { name: 'Sign in', exact: true }))
  await page.getByRole('button', { name: /Suvi Hale is signed in/ }).waitFor()

  await press(page, page.getByRole('heading', { name: number, exact: true }).getByRole('link'))
  await page.getByRole('heading', { level: 1, name: number }).waitFor()
  await press(page, page.getByRole('navigation', { name: 'Pages' }).getByRole('link', { name: 'Bench' }))
  await page.getByRole('heading', { level: 1, name: 'What can I work on?' }).waitFor()
  await press(page, page.getByRole('link', { name: /^B1 / }))
  await stands(page)
  await press(page, page.getByRole('button', { name: 'Claim step' }))

  for (const [index, scale] of ['40', '70', '90'].entries()) {
    await page.getByRole('group', { name: 'Number on the scale' }).waitFor()
    await page.keyboard.type(scale)
    await press(page, page.getByRole('button', { name: `It is set to ${scale} N·m` }))
    // Held down it is still one press: the next nut's button stands where this one's was.
    await tabTo(page, page.getByRole('button', { name: /clicked at/ }).first())
    for (let repeats = 0; repeats < 4; repeats++) await page.keyboard.down('Enter')
    await page.keyboard.up('Enter')
    const reached = (n: number) =>
      page.getByRole('button', { name: new RegExp(`^${HEAD_NUTS}, ${n} of 6.*(reached|final)`) })
    await reached(HEAD_ORDER[0] as number).waitFor()
    const offered = page.getByRole('button', { name: /clicked at/ }).first()
    await expect.poll(() => offered.textContent(), { timeout: SOON_MS }).toMatch(/\b4 \(2nd/)
    // The rest on the map: arrows go along the order, Enter records.
    await tabTo(page, head(page, HEAD_NUTS, 4))
    for (const n of HEAD_ORDER.slice(1)) {
      await expect.poll(() => hasFocus(head(page, HEAD_NUTS, n)), { timeout: SOON_MS }).toBe(true)
      await page.keyboard.press('Enter')
      await reached(n).waitFor()
      await page.keyboard.press('ArrowRight')
    }
    if (index < 2)
      await press(page, page.getByRole('button', { name: new RegExp(`^Pass ${index + 2} next`) }))
  }
  await press(page, page.getByRole('button', { name: 'Next: sign step' }))
  await press(page, signButton(page))
  await page.getByText('Suvi Hale signed').first().waitFor()

  // Escape closes a dialog and gives the focus back to what opened it.
  const opener = page.getByRole('button', { name: /^Give second signature/ }).first()
  await press(page, opener)
  await page.getByRole('dialog', { name: 'Give second signature' }).waitFor()
  await page.keyboard.press('Escape')
  await expect.poll(() => hasFocus(opener), { timeout: SOON_MS }).toBe(true)
  await command(office, jobId, { type: 'SecondSignStep', stepId: 'B1' })
  await page.getByText('This step is done and signed.').waitFor()
})
