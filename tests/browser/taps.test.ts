/** How many presses lie between a technician and the work. Counted as the page receives them, not as a script sends them. */
import type { Page } from 'playwright-core'
import { describe, expect, test } from 'vitest'
import { claim, command, engineAtItsHead, HEAD_NUTS, head, rowOf } from './hands'
import { SIZES, type Size, signIn, useShop } from './harness'

const shop = useShop()

/** Counts from now on, through every page of this tab. */
async function countPresses(page: Page): Promise<() => Promise<number>> {
  await page.evaluate(() => {
    const counter = window as unknown as { presses: number }
    counter.presses = 0
    addEventListener(
      'click',
      (event) => {
        if (event.isTrusted) counter.presses++
      },
      { capture: true },
    )
  })
  return () => page.evaluate(() => (window as unknown as { presses: number }).presses)
}

const scaleAsked = (page: Page) =>
  page.getByRole('group', { name: 'Number on the scale' }).getByRole('button', { name: '7', exact: true })

const MOST = 4

/** On a phone the pad opens on a sheet of its own. */
async function toThePad(page: Page, size: Size): Promise<void> {
  if (size === 'phone') await page.getByRole('button', { name: 'What is TW-15 set to?' }).click()
  await scaleAsked(page).waitFor()
}

describe.each(Object.keys(SIZES) as Size[])(
  'from the board to the scale entry in four presses, on a %s',
  (size) => {
    test('through the engine', async () => {
      const { number } = await engineAtItsHead(await shop.deviceOf('odile'))
      const device = await shop.device({ size })
      await signIn(device, shop.server, 'suvi')
      const { page } = device
      const presses = await countPresses(page)
      await rowOf(page, number).getByRole('link').click()
      await page.getByRole('heading', { level: 1, name: number }).waitFor()
      await page.getByRole('button', { name: 'Claim step B1' }).click()
      await page.getByRole('link', { name: /^To the bench ?, B1$/ }).click()
      await toThePad(page, size)
      expect(await presses()).toBe(size === 'phone' ? MOST : MOST - 1)
    })

    test('by the bench’s own list', async () => {
      const { number } = await engineAtItsHead(await shop.deviceOf('odile'))
      const device = await shop.device({ size })
      await signIn(device, shop.server, 'suvi')
      const { page } = device
      const presses = await countPresses(page)
      await rowOf(page, number).getByRole('link').click()
      await page.getByRole('navigation', { name: 'Pages' }).getByRole('link', { name: 'Bench' }).click()
      await page.getByRole('heading', { level: 1, name: 'What can I work on?' }).waitFor()
      await page.getByRole('button', { name: 'Claim step B1' }).click()
      await toThePad(page, size)
      expect(await presses()).toBe(size === 'phone' ? MOST : MOST - 1)
    })

    test('by the bench’s own list, having looked at the step first: one more, and claimed there', async () => {
      const { jobId } = await engineAtItsHead(await shop.deviceOf('odile'))
      const device = await shop.deviceOf('suvi', { size })
      const { page } = device
      await device.goTo(`/jobs/${jobId}/bench`)
      const presses = await countPresses(page)
      await page.getByRole('link', { name: /^B1 / }).click()
      await claim(page)
      await toThePad(page, size)
      expect(await presses()).toBe(size === 'phone' ? 3 : 2)
    })
  },
)

test('whoever holds a step goes on with it in one press from the board', async () => {
  const { jobId, number } = await engineAtItsHead(await shop.deviceOf('odile'))
  const device = await shop.device()
  await signIn(device, shop.server, 'bram')
  await command(device, jobId, { type: 'ClaimStep', stepId: 'B1' })
  const { page } = device
  const presses = await countPresses(page)
  await page.getByRole('link', { name: new RegExp(`^Continue: ${number}`) }).click()
  await scaleAsked(page).waitFor()
  expect(await presses()).toBe(1)
  // One tap a head: nothing is asked between two of them.
  await command(device, jobId, { type: 'EnterScale', jointId: 'H-B1', pass: 1, wrenchId: 'TW-15', value: 40 })
  // Entered elsewhere: the page has to have heard of it.
  await page.getByRole('button', { name: /clicked at 40 N·m$/ }).waitFor()
  const before = await presses()
  for (const n of [1, 4, 2]) {
    await head(page, HEAD_NUTS, n).click()
    await page.getByRole('button', { name: new RegExp(`^${HEAD_NUTS}, ${n} of 6.* reached`) }).waitFor()
  }
  expect((await presses()) - before).toBe(3)
})
