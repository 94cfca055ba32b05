/** What the server refuses after its page or its form was left is told on the next page that is about it. */
import { expect, test } from 'vitest'
import { claim, command, engineAtItsHead, says, toBench } from './hands'
import { UNPLUGGED, useShop } from './harness'

const shop = useShop()

test('a step claimed without signal, its page left, and claimed by somebody else meanwhile', async () => {
  const lead = await shop.deviceOf('odile')
  const { jobId } = await engineAtItsHead(lead)
  const doer = await shop.deviceOf('suvi')
  const { page, context } = doer
  await toBench(doer, jobId, 'B1')
  const pages = page.getByRole('navigation', { name: 'Pages' })
  // The board's code is loaded while there is signal.
  await pages.getByRole('link', { name: 'Board' }).click()
  await page.getByRole('heading', { name: 'Board' }).waitFor()
  await page.goBack()
  await page.getByRole('button', { name: 'Claim step' }).waitFor()
  doer.allow(UNPLUGGED)
  await context.setOffline(true)
  await page.getByText('no signal', { exact: true }).waitFor()
  await claim(page)
  await pages.getByRole('link', { name: 'Board' }).click()
  await page.getByText('no signal: 1 entry kept on this device').waitFor()
  await command(lead, jobId, { type: 'ClaimStep', stepId: 'B1' })
  await context.setOffline(false)
  await page.getByRole('button', { name: 'live; 1 entry not taken over' }).waitFor()

  await page.locator(`a[href^="/jobs/${jobId}"]`).first().click()
  const refused = page.locator('.refused-list')
  await says(refused, /Odile Marrow claimed B1 at .*claim another step/)
  await doer.shot('refused-engine')
  await refused.getByRole('button', { name: 'Dismiss' }).click()
  await expect.poll(() => refused.getByRole('button').count()).toBe(0)
})

test('a person added without signal, the form closed, and the initials taken meanwhile', async () => {
  const lead = await shop.deviceOf('odile')
  const { page, context } = lead
  await lead.goTo('/shop')
  lead.allow(UNPLUGGED)
  await page.getByRole('button', { name: 'Add person' }).click()
  const form = page.getByRole('dialog', { name: 'Add person' })
  await form.getByRole('textbox', { name: 'Name', exact: true }).fill('Zita Quill')
  await form.getByRole('textbox', { name: 'Initials' }).fill('zq')
  await form.getByRole('checkbox', { name: /^technician/ }).check()
  await context.setOffline(true)
  await page.getByText('no signal', { exact: true }).waitFor()
  await form.getByRole('button', { name: 'Add person, then set PIN' }).click()
  await page.getByText('no signal: 1 entry kept on this device').waitFor()
  await page.keyboard.press('Escape')
  await form.waitFor({ state: 'hidden' })
  const nothing = { classes: [], families: [] }
  const person = { id: 'zoe', name: 'Zoe Quarrel', initials: 'ZQ', paint: 'blue', roles: ['technician'] }
  const answer = await context.request.post('/api/shop/commands', {
    data: {
      commandId: crypto.randomUUID(),
      type: 'AddPerson',
      person: { ...person, mayDo: nothing, maySecondSign: nothing },
    },
  })
  expect(answer.status(), await answer.text()).toBe(201)
  await context.setOffline(false)

  const refused = page.locator('.refused-list')
  await says(refused, /ZQ are Zoe Quarrel’s initials\..* You entered: a new person, Zita Quill\./)
  await lead.shot('refused-shop')
  await refused.getByRole('button', { name: 'Dismiss' }).click()
  await expect.poll(() => refused.getByRole('button').count()).toBe(0)
})
