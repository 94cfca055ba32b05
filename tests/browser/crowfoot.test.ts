/** A wrench picked from the crib and a crowfoot put on it: what is set, what is applied, and what is asked again. */
import { expect, test } from 'vitest'
import {
  claim,
  confirmed,
  engineAtItsHead,
  enterScale,
  HEAD_NUTS,
  headSays,
  says,
  takeWrench,
  tap,
  toBench,
} from './hands'
import { pressDigits, useShop } from './harness'

const shop = useShop()

test('picks a wrench, puts a crowfoot on it, sets what the bench says, and the applied torque is recorded in band', async () => {
  const lead = await shop.deviceOf('odile')
  const { jobId } = await engineAtItsHead(lead)
  const device = await shop.deviceOf('suvi')
  const { page } = device
  await toBench(device, jobId, 'B1')
  await claim(page)

  // The crib, best first, each with what speaks against it.
  await page.getByRole('button', { name: 'Other wrench' }).click()
  const crib = page.getByRole('dialog', { name: 'Which wrench is in your hand?' })
  await says(crib.getByRole('button', { name: /^TW-12/ }), 'Does not fit: failed its check')
  await says(crib.getByRole('button', { name: /^TW-15/ }), 'Mind: often at the slip')
  await says(crib.getByRole('button', { name: /^TW-11/ }), 'TW-11 can do this joint')
  await device.shot('bench-crib')
  await page.keyboard.press('Escape')
  await takeWrench(page, 'TW-11')

  await page.getByRole('button', { name: 'Adapter on…' }).click()
  const sheet = page.getByRole('dialog', { name: 'Adapter on TW-11' })
  await says(sheet, 'changes nothing')
  expect(await sheet.getByRole('button', { name: 'Enter the length of the adapter' }).isDisabled()).toBe(true)
  await pressDigits(sheet.getByRole('group', { name: 'Length or angle' }), '30')
  // Square to the handle nothing changes; straight out the lever is longer.
  await sheet.getByRole('button', { name: /^Square/ }).click()
  await says(sheet, 'Set 40 N·m')
  await sheet.getByRole('button', { name: /^Straight out/ }).click()
  await says(sheet, 'Set 36.5 N·m · applies 40.15 N·m, in band')
  await device.shot('bench-adapter')
  await sheet.getByRole('button', { name: 'Adapter on: 30 mm, straight out' }).click()

  const main = page.getByRole('main')
  await says(main, 'on TW-11, adapter on')
  await says(main, '36.5 N·m applies 40.15 N·m, in band')
  // Set as the sheet prints it, the nut would get a tenth too much: held up.
  await enterScale(page, '40')
  const stop = page.getByRole('alert').filter({ hasText: 'above the band' })
  await says(stop, '40 N·m through the adapter applies 44 N·m')
  await says(stop, 'which is 36.4 on this scale')
  await stop.getByRole('button', { name: 'Set it again and enter' }).click()
  await enterScale(page, '36.5')
  await tap(page, HEAD_NUTS, 1)
  await confirmed(page, HEAD_NUTS, 1)
  await headSays(page, HEAD_NUTS, 1, /, reached$/)
  await device.shot('bench-adapter-on')

  // The record has the setting and what reached the nut.
  await lead.goTo(`/jobs/${jobId}/audit`)
  await says(lead.page.getByRole('main'), '40.15')

  // After a stop the lever is asked before the number.
  await page.getByRole('button', { name: 'Leave step', exact: true }).click()
  await page.getByRole('button', { name: 'Claim and continue' }).click()
  await page.getByRole('button', { name: 'Pass 1 starts again at its first nut' }).click()
  const again = page.getByRole('region', { name: /^Is the adapter on TW-11\?/ })
  await says(again, '30 mm straight out on a wrench of 300 mm')
  await device.shot('bench-adapter-again')
  await again.getByRole('button', { name: 'On, as it was: 30 mm, straight out' }).click()
  await enterScale(page, '36.5')
  await tap(page, HEAD_NUTS, 1)
})
