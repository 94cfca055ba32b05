/** Who works here, on the pages: a PIN set for another and for oneself, and somebody who leaves and comes back. */
import { expect, test } from 'vitest'
import { says } from './hands'
import { SIZES, type Size, stands, touchIn, useShop } from './harness'
import { looks } from './looks'

const shop = useShop()
const sizes = Object.keys(SIZES) as Size[]
const STORY_MS = 240_000

test('a PIN set for another signs them out and is told; one’s own asks for the one until now; who leaves is gone from the tiles', {
  timeout: STORY_MS,
}, async () => {
  const odile = await shop.deviceOf('odile', { size: 'office' })
  const kofi = await shop.deviceOf('kofi')
  const found: string[] = []
  const { page } = odile
  await kofi.goTo('/')
  await odile.goTo('/shop')

  await page.getByRole('button', { name: 'Set PIN of Kofi' }).click()
  let form = page.getByRole('dialog')
  await form.getByLabel('PIN', { exact: true }).fill('2580')
  await form.getByLabel('PIN again').fill('2580')
  await form.getByRole('button', { name: 'Set PIN' }).click()
  await says(form, /among the first that anybody tries/)
  await form.getByLabel('PIN', { exact: true }).fill('70635')
  await form.getByLabel('PIN again').fill('70635')
  await form.getByRole('button', { name: 'Set PIN' }).click()
  await form.waitFor({ state: 'hidden' })
  await says(page.getByRole('listitem').filter({ hasText: 'Kofi' }), /set on .* by Odile/)

  kofi.allow(/401|WebSocket|disconnect/)
  await kofi.goTo('/sign-in')
  const known = shop.server.people.find(({ id }) => id === 'kofi') as { pin: string }
  known.pin = '70635'
  await touchIn(kofi.page, shop.server, 'kofi')
  const notice = kofi.page.getByRole('region', { name: 'Your PIN' })
  await says(notice, /^Odile .* set a new PIN for you on /)
  for (const size of sizes) {
    await kofi.page.setViewportSize(SIZES[size])
    found.push(...(await looks(kofi, `${size}-pin-notice`)))
  }
  await notice.getByRole('button', { name: 'Seen' }).click()
  await notice.waitFor({ state: 'hidden' })

  await kofi.goTo('/shop')
  await kofi.page.getByRole('button', { name: 'Set PIN of Kofi' }).click()
  const own = kofi.page.getByRole('dialog', { name: 'Your new PIN' })
  await own.getByLabel('New PIN', { exact: true }).fill('81746')
  await own.getByLabel('New PIN again').fill('81746')
  kofi.allow(/403/)
  await own.getByRole('button', { name: 'Set PIN' }).click()
  await says(own, /^.*That is not your PIN until now/)
  found.push(...(await looks(kofi, 'own-pin')))
  await own.getByLabel('Your PIN until now').fill('70635')
  await own.getByRole('button', { name: 'Set PIN' }).click()
  await own.waitFor({ state: 'hidden' })

  await page.getByRole('button', { name: /^Kofi .* leaves the shop$/ }).click()
  form = page.getByRole('dialog')
  found.push(...(await looks(odile, 'leaves')))
  await form.getByRole('button', { name: 'Leaves the shop' }).click()
  await form.waitFor({ state: 'hidden' })
  await page.getByRole('heading', { name: 'Left the shop' }).waitFor()
  for (const size of sizes) {
    await page.setViewportSize(SIZES[size])
    found.push(...(await looks(odile, `${size}-people`)))
  }
  await kofi.goTo('/sign-in')
  await stands(kofi.page)
  await kofi.page.getByRole('button', { name: /Bram/ }).first().waitFor()
  expect(await kofi.page.getByRole('list').getByRole('button', { name: /Kofi/ }).count()).toBe(0)

  await page.getByRole('button', { name: /^Kofi .* comes back$/ }).click()
  await page
    .getByRole('dialog')
    .getByRole('checkbox', { name: /^technician/ })
    .check()
  await page.getByRole('dialog').getByRole('button', { name: 'Enter again, then set PIN' }).click()
  await page.getByRole('dialog', { name: /^A PIN for Kofi/ }).waitFor()
  expect(found).toEqual([])
})
