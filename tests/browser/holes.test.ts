/**
 * A hole is repaired at the bench: found stripped, renewed with an insert; the plan's bolt would bottom, which is told
 * before it goes in; a shorter one is said, the step tightened and signed, and the register keeps it all.
 */
import { randomUUID } from 'node:crypto'
import { expect, test } from 'vitest'
import { joint, plan, step } from '../shop/plan'
import { claim, command, enterScale, head, says, signButton, tap, toBench } from './hands'
import { pressDigits, signIn, useShop } from './harness'
import { axeFindings, clippedFindings, GLOVE_PX, sidewaysFindings, smallTargets } from './looks'
import { openSmallShop } from './small-shop'

const shop = useShop('main')
const TITLE = 'Bracket bolts'
const PLAN = plan({
  id: 'harrow-bracket',
  title: 'Harrow R2, bracket',
  source: 'Made up for a test. In a real plan: the maker’s manual by title, edition and page.',
  stages: [{ id: 'A', title: 'Bracket', releases: 'to_owner' }],
  steps: [
    step('A1', {
      title: 'Bracket on',
      joints: [
        joint('BR', {
          title: TITLE,
          lengthMm: 35,
          hole: { material: 'cast aluminium', stackMm: 12, depthMm: 28, threadMm: 26 },
          lubrication: 'oil',
          positions: [
            { n: 1, x: 20, y: 20 },
            { n: 2, x: 80, y: 20 },
          ],
          passes: [{ kind: 'torque', torqueNm: 22, wrench: 'TW-1' }],
        }),
      ],
    }),
  ],
})

test('a stripped hole is renewed, the plan’s bolt would bottom, the shorter one is tightened and signed', async () => {
  const office = await shop.device({ size: 'office' })
  await openSmallShop(office, shop.server)
  const added = await office.context.request.post('/api/shop/commands', {
    data: { commandId: randomUUID(), type: 'AddPlan', plan: PLAN },
  })
  expect(added.ok(), await added.text()).toBe(true)
  const jobId = randomUUID()
  const engine = { model: 'Harrow R2', serial: 'R2-0099' }
  await command(office, jobId, { type: 'OpenJob', number: 'S-9', engine, owner: 'Ada', agreed: 'Bracket' })
  await command(office, jobId, { type: 'AdoptPlan', planId: PLAN.id, edition: 1 })
  await office.goTo(`/jobs/${jobId}`)
  const register = office.page.getByRole('region', { name: 'Threads and holes' })
  await says(register, 'No hole is recorded: every thread is taken to be as the maker left it.')

  const tom = await shop.device()
  await signIn(tom, shop.server, 'tom')
  const { page } = tom
  await toBench(tom, jobId, 'A1')
  await claim(page)
  await page.getByRole('button', { name: 'One fastener…' }).click()
  await head(page, TITLE, 2).click()
  await page
    .getByRole('dialog', { name: `${TITLE}: 2` })
    .getByRole('button', { name: 'Thread and hole…' })
    .click()
  const sheet = page.getByRole('dialog', { name: `${TITLE}: hole 2` })
  await sheet.getByRole('button', { name: 'Stripped' }).click()
  await says(sheet, 'Thread stripped')
  await says(register, 'Thread stripped')
  await sheet.getByRole('button', { name: 'Insert fitted…' }).click()
  await sheet.getByRole('button', { name: 'Solid insert' }).click()
  await sheet.getByRole('button', { name: '1.5 d, 12 mm' }).click()
  await sheet.getByRole('button', { name: 'Below the face' }).click()
  await pressDigits(sheet.getByRole('group', { name: 'Below the face' }), '0.5')
  await sheet.getByRole('button', { name: 'Full thread now' }).click()
  await pressDigits(sheet.getByRole('group', { name: 'Full thread now' }), '20')
  await sheet.getByRole('button', { name: 'A machine shop' }).click()
  await sheet.getByRole('button', { name: 'Record the solid insert, 12 mm' }).click()

  // 35 − 12 = 23 in 20 of thread: told before anything goes in, on the sheet, the bench, the engine page and the audit.
  const bottoms = 'The bolt of 35 mm bottoms out, 3 mm too long: it would show its torque and clamp nothing.'
  await says(sheet, bottoms)
  await sheet.getByRole('img', { name: /^Section to scale\..*bottoms out/ }).waitFor()
  await says(sheet, 'Right here: 25 and 28 mm of the standard lengths; any from 24.5 mm to 29.5 mm.')
  await tom.shot('hole-bottoms')
  expect([...(await axeFindings(page)), ...(await clippedFindings(page))]).toEqual([])
  expect([...(await sidewaysFindings(page)), ...(await smallTargets(page, GLOVE_PX))]).toEqual([])
  await page.keyboard.press('Escape')
  await says(page.getByRole('alert').filter({ hasText: 'Hole 2: do not fit it like this' }), bottoms)
  await says(register, bottoms)
  await office.goTo(`/jobs/${jobId}/audit`)
  await says(
    office.page.getByRole('main'),
    'The fastener: it reaches the bottom of its hole before it clamps.',
  )
  await says(
    office.page.getByRole('main'),
    'Bracket bolts, hole 2: it reaches the bottom of its hole before it clamps. Fit one of the right length',
  )

  // Another length, on the pad: 30 comes near the bottom and is only cautioned; 28 fits and goes in.
  await page.getByRole('button', { name: 'Another length…' }).click()
  await sheet.getByRole('button', { name: 'Another length' }).click()
  await pressDigits(sheet.getByRole('group', { name: 'Length in mm' }), '30')
  await says(sheet, 'The bolt of 30 mm comes near the bottom: 2 mm clear, 2.5 mm wanted.')
  await sheet.getByRole('button', { name: /^28 mm/ }).click()
  await says(sheet, 'The bolt of 28 mm fits: 12 mm of thread holds (1.5 d), 4 mm clear at the bottom.')
  await sheet.getByRole('button', { name: '28 mm goes in, new' }).click()
  await says(sheet, 'A bolt of 28 mm is said to be in it.')
  await page.keyboard.press('Escape')
  await expect.poll(() => page.getByRole('alert').count()).toBe(0)

  await enterScale(page, '22')
  for (const n of [1, 2]) await tap(page, TITLE, n)
  await page.getByRole('button', { name: 'Next: sign step' }).click()
  await signButton(page).click()
  await says(page.getByRole('main'), 'This step is done and signed.')
  await office.goTo(`/jobs/${jobId}`)
  await says(
    register,
    'Solid insert, 12 mm long, 0.5 mm below the face; full thread 20 mm, done by a machine shop.',
  )
  await says(register, 'Thread stripped.')
  await says(register, 'The bolt of 28 mm fits')
  expect([...(await axeFindings(office.page)), ...(await sidewaysFindings(office.page))]).toEqual([])

  // The record prints the register: the hole, its repair, who and when.
  await command(office, jobId, { type: 'Release', kind: 'to_owner' })
  await office.goTo(`/jobs/${jobId}/record/S-9-R1`)
  const printed = office.page.getByRole('region', { name: 'Threads and holes' }).getByRole('row').nth(1)
  await says(printed, 'thread stripped.')
  await says(
    printed,
    'solid insert, 12 mm long, 0.5 mm below the face; full thread 20 mm, done by a machine shop.',
  )
  await says(printed, 'Tom Garrick')
  await says(printed, 'The bolt of 28 mm fits')
  await printed.scrollIntoViewIfNeeded()
  await office.shot('hole-record')
}, 120_000)

test('a bolt that bottoms in the maker’s own hole is told at adoption and before its first head, and stops the signature', async () => {
  const office = await shop.device({ size: 'office' })
  const ada = shop.server.people.find(({ name }) => name === 'Ada Brook')
  await signIn(office, shop.server, ada?.id ?? '')
  const [first] = PLAN.steps
  const bracket = first?.joints[0]
  if (!first || !bracket) throw new Error('no bracket')
  const hole = { material: 'cast aluminium', stackMm: 10, depthMm: 18, threadMm: 18 }
  const long = plan({
    ...PLAN,
    id: 'harrow-long',
    title: 'Harrow R2, long bolts',
    steps: [{ ...first, joints: [{ ...bracket, lengthMm: 32, hole }] }],
  })
  const added = await office.context.request.post('/api/shop/commands', {
    data: { commandId: randomUUID(), type: 'AddPlan', plan: long },
  })
  expect(added.ok(), await added.text()).toBe(true)
  const jobId = randomUUID()
  const engine = { model: 'Harrow R2', serial: 'R2-0100' }
  await command(office, jobId, { type: 'OpenJob', number: 'S-10', engine, owner: 'Ada', agreed: 'Bracket' })
  await office.goTo(`/jobs/${jobId}`)
  const choice = office.page.getByRole('listitem').filter({ hasText: 'Harrow R2, long bolts' }).first()
  await says(choice, 'BR: bolt of 32 mm bottoms in its hole, and clamps nothing.')
  await office.shot('adopt-cautions')
  expect([...(await axeFindings(office.page)), ...(await sidewaysFindings(office.page))]).toEqual([])
  await command(office, jobId, { type: 'AdoptPlan', planId: long.id, edition: 1 })

  const tom = await shop.device()
  await signIn(tom, shop.server, 'tom')
  await toBench(tom, jobId, 'A1')
  await claim(tom.page)
  const stop = tom.page.getByRole('alert').filter({ hasText: 'This bolt bottoms: do not fit it' })
  await says(
    stop,
    'The bolt of 32 mm bottoms out, 4 mm too long: it would show its torque and clamp nothing.',
  )
  await says(tom.page.getByRole('region', { name: 'Threads and holes' }), 'Holes 1–2:')
  await tom.shot('bench-bottoms-first')
  expect([...(await axeFindings(tom.page)), ...(await clippedFindings(tom.page))]).toEqual([])

  await command(tom, jobId, { type: 'EnterScale', jointId: 'BR', pass: 1, wrenchId: 'TW-1', value: 22 })
  for (const position of [1, 2])
    await command(tom, jobId, {
      type: 'TakeReading',
      jointId: 'BR',
      position,
      pass: 1,
      how: 'clicked',
      wrenchId: 'TW-1',
    })
  const signed = await tom.context.request.post(`/api/jobs/${jobId}/commands`, {
    data: { commandId: randomUUID(), type: 'SignStep', stepId: 'A1' },
  })
  expect(signed.status()).toBe(409)
  expect(await signed.text()).toContain('fastener_not_right')

  const phone = await shop.device({ size: 'phone' })
  await signIn(phone, shop.server, 'tom')
  await toBench(phone, jobId, 'A1')
  await phone.shot('bench-bottoms-phone')
  expect(await sidewaysFindings(phone.page)).toEqual([])
})
