/** Holds, deferrals and notes as people give them: compact in gloves at the bench, full on the engine page and the audit. */
import { beforeEach, expect, test } from 'vitest'
import { command, head, leaveOut, says } from './hands'
import { type Device, useShop } from './harness'
import { GLOVE_PX, looks } from './looks'
import { openSmallShop } from './small-shop'
import { type Hands, headDone, newEngine, STATES_PLAN } from './states'

const shop = useShop('main')
let all: Hands
let jobId: string
let ada = ''

beforeEach(async () => {
  if (!ada) {
    const office = await shop.device({ size: 'office' })
    await openSmallShop(office, shop.server)
    await office.context.request.post('/api/shop/commands', {
      data: { commandId: crypto.randomUUID(), type: 'AddPlan', plan: STATES_PLAN },
    })
    ada = shop.server.people.at(-1)?.id ?? ''
  }
  all = { ada: await shop.deviceOf(ada), tom: await shop.deviceOf('tom'), ines: await shop.deviceOf('ines') }
  jobId = await newEngine(all)
  await headDone(all, jobId)
})

const seen = async (device: Device, name: string, press?: number) =>
  expect(await looks(device, `kept-${name}`, press ? { press } : {})).toEqual([])

test.each(['phone', 'tablet'] as const)('compact: presets and few presses, on a %s', async (size) => {
  await command(all.tom, jobId, { type: 'ClaimStep', stepId: 'A2' })
  const device = await shop.deviceOf('tom', { size })
  const { page } = device
  await device.goTo(`/jobs/${jobId}/bench/A2`)
  await page.getByRole('button', { name: 'Put on hold' }).click()
  const hold = page.getByRole('dialog', { name: 'Put A2 on hold' })
  await hold.getByRole('button', { name: 'Put on hold' }).click()
  await says(hold, 'Choose what it waits for.')
  await hold.getByRole('radio', { name: 'tool', exact: true }).check()
  await hold.getByRole('button', { name: 'Tool missing' }).click()
  await hold.getByLabel('Expected on, if known').fill('2031-05-06')
  await seen(device, `${size}-hold`, GLOVE_PX)
  await hold.getByRole('button', { name: 'Put on hold' }).click()
  const notice = page.getByRole('region', { name: 'On hold' })
  await says(notice, /Tool missing\. The tool is expected by 6 May 2031 12:00/)
  await seen(device, `${size}-on-hold`, GLOVE_PX)
  await notice.getByRole('button', { name: 'Clear hold: the tool is here' }).click()
  await notice.waitFor({ state: 'detached' })

  await page.getByRole('button', { name: 'Add note' }).click()
  const note = page.getByRole('dialog', { name: 'Add note on A2' })
  await note.getByLabel('What the next person must know').fill('Stud 2 turns with its nut')
  await seen(device, `${size}-note`, GLOVE_PX)
  await note.getByRole('button', { name: 'Add note' }).click()
  await says(page.getByRole('main'), 'Stud 2 turns with its nut')

  await leaveOut(page, 'Rocker stand nuts', 2, 'B1')
  await seen(device, `${size}-left-out`, GLOVE_PX)
  await page.getByRole('button', { name: 'Fit it now' }).click()
  await page.getByRole('heading', { name: 'Left out on purpose' }).waitFor({ state: 'detached' })
  await head(page, 'Rocker stand nuts', 2).waitFor()
})

test.each(['phone', 'office'] as const)(
  'full: the steps, the time, words of one’s own, on a %s',
  async (size) => {
    const device = await shop.deviceOf(ada, { size })
    const { page } = device
    const main = page.getByRole('main')
    const send = (dialog: string, label: string) =>
      page.getByRole('dialog', { name: dialog }).getByRole('button', { name: label }).click()
    await device.goTo(`/jobs/${jobId}`)
    await main.getByRole('button', { name: 'Put on hold', exact: true }).first().click()
    const hold = page.getByRole('dialog', { name: 'Put on hold' })
    await hold.getByRole('radio', { name: 'approval', exact: true }).check()
    await hold.getByLabel('What the owner must agree to').fill('Valve seats')
    await hold.getByRole('checkbox', { name: /^A2 / }).check()
    await seen(device, `${size}-full-hold`)
    await send('Put on hold', 'Put on hold')
    await says(main, 'Valve seats')
    await says(main, 'no date known')

    await main.getByRole('button', { name: 'Change hold Valve seats' }).click()
    const change = page.getByRole('dialog', { name: 'Change hold' })
    await change.getByLabel('Expected on, if known').fill('2031-05-06')
    await change.getByLabel('At what time, if known').fill('16:30')
    await seen(device, `${size}-full-change`)
    await send('Change hold', 'Save')
    await says(main, 'expected 6 May 2031 16:30')

    await main.getByRole('button', { name: 'Leave out', exact: true }).click()
    const leave = page.getByRole('dialog', { name: 'Leave out' })
    await leave.getByLabel('Step').selectOption('A2')
    await leave.getByLabel('What of it').selectOption({ label: 'some of Rocker stand nuts' })
    await leave.getByRole('button', { name: 'Leave out' }).click()
    await says(leave, 'Tick the positions that are left out.')
    await leave.getByRole('checkbox', { name: '2', exact: true }).check()
    await leave.getByLabel('Due at').selectOption('B1')
    await leave.getByRole('button', { name: 'Part not here yet' }).click()
    await seen(device, `${size}-full-leave-out`)
    await send('Leave out', 'Leave out')
    await says(main, 'Rocker stand nuts, nut 2')
    await seen(device, `${size}-full-engine`)

    await device.goTo(`/jobs/${jobId}/audit`)
    await main.getByRole('button', { name: /^Fit it now/ }).click()
    await page.getByLabel('Why is it not left out any more?').fill('The bracket is here')
    await seen(device, `${size}-full-fit-it-now`)
    await send('Fit it now', 'Fit it now')
    await says(main, 'No longer left out: The bracket is here.')
    await main.getByRole('button', { name: 'Clear hold Valve seats' }).click()
    await page
      .getByLabel('Who agreed, when, by telephone or letter, and to what amount')
      .fill('Owner, by phone')
    await send('Clear hold', 'Clear hold')
    await says(main, 'No step is on hold.')
  },
)
