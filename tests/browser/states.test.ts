/** States an engine is rarely in, each looked at on phone and tablet, by day and by night, as every screen is. */
import { randomUUID } from 'node:crypto'
import { beforeEach, describe, expect, test } from 'vitest'
import { command, head, says, station, takePhoto } from './hands'
import { type Device, type Size, useShop } from './harness'
import { GLOVE_PX, looks } from './looks'
import { openSmallShop, WRENCHES } from './small-shop'
import {
  closed,
  type Hands,
  headDone,
  MINUTE,
  newEngine,
  photoOnItsWay,
  releasedToOwner,
  STATES_PLAN,
  standSigned,
  tighten,
} from './states'

const shop = useShop('main')

let opened = false
let ada: string

/** The shop is opened once; each test has devices of its own. */
async function hands(): Promise<Hands> {
  const office = await shop.device({ size: 'office' })
  if (!opened) {
    await openSmallShop(office, shop.server)
    opened = true
    ada = shop.server.people.at(-1)?.id ?? ''
    await shopSays(office, { type: 'AddPlan', plan: STATES_PLAN })
    await shopSays(office, {
      type: 'AddWrench',
      wrench: { ...WRENCHES[0], id: 'TW-9', title: 'click wrench that was dropped', state: 'dropped' },
    })
    await shopSays(office, {
      type: 'SetSelfRecheck',
      selfRecheck: { allowed: true, afterMinutes: 30 },
    })
  }
  return { ada: await shop.deviceOf(ada), tom: await shop.deviceOf('tom'), ines: await shop.deviceOf('ines') }
}

async function shopSays(device: Device, body: object): Promise<void> {
  const answer = await device.context.request.post('/api/shop/commands', {
    data: { commandId: randomUUID(), ...body },
  })
  expect(answer.status(), await answer.text()).toBe(201)
}

describe.each(['phone', 'tablet'] as const)('on a %s', (size: Size) => {
  let all: Hands
  let jobId: string
  beforeEach(async () => {
    all = await hands()
    jobId = await newEngine(all)
  })
  /** On the bench of one step, as somebody. */
  const bench = async (who: 'tom' | 'ines', stepId: string) => {
    const device = await shop.deviceOf(who, { size })
    await device.goTo(`/jobs/${jobId}/bench/${stepId}`)
    return device
  }
  // Axe reads colours and names, which no size changes: the tablet has it for both.
  const axe = size === 'phone' ? ('none' as const) : ('both' as const)
  const held = async (device: Device, name: string) =>
    expect(await looks(device, `state-${size}-${name}`, { press: GLOVE_PX, axe })).toEqual([])
  const seen = async (device: Device, name: string) =>
    expect(await looks(device, `state-${size}-${name}`, { axe })).toEqual([])

  test('a claim that hides what is not proven is asked first, and recorded', async () => {
    await headDone(all, jobId)
    const device = await bench('tom', 'B1')
    const { page } = device
    const asks = page.getByRole('region', { name: 'What this step would cover' })
    await says(asks, 'Rocker stand nuts: not tightened yet')
    await held(device, 'hides')
    await asks.getByRole('button', { name: 'I know: claim step' }).click()
    await page.getByRole('button', { name: 'Leave step', exact: true }).waitFor()
    await held(device, 'hides-claimed')
  })

  test('what was left out earlier is due here', async () => {
    await headDone(all, jobId)
    await command(all.tom, jobId, { type: 'ClaimStep', stepId: 'A2' })
    await command(all.tom, jobId, {
      type: 'Defer',
      what: { kind: 'fasteners', joint: 'H-A2', positions: [2] },
      dueStepId: 'B1',
      reason: 'In the way of a later fit',
    })
    await tighten(all.tom, jobId, 'H-A2', { value: 22, at: [1] })
    const home = await bench('tom', 'A2')
    await home.page.getByRole('heading', { name: 'Left out on purpose' }).waitFor()
    await held(home, 'left-out')
    await command(all.tom, jobId, { type: 'SignStep', stepId: 'A2' })
    await command(all.ines, jobId, { type: 'ClaimStep', stepId: 'B1', hidesKnowingly: true })
    const device = await bench('ines', 'B1')
    await station(device.page, /^Rocker stand nuts 2/).click()
    await head(device.page, 'Rocker stand nuts', 2).waitFor()
    await held(device, 'due-here')
    await station(device.page, /^Sign/).click()
    await device.page.getByText('Rocker stand nuts 2, class B, left out in A2').waitFor()
    await held(device, 'due-here-sign')
  })

  test('who was handed a step sees where it stands', async () => {
    await command(all.ines, jobId, { type: 'ClaimStep', stepId: 'A1' })
    await tighten(all.ines, jobId, 'H-A1', { value: 30, at: [1, 3] })
    await command(all.ines, jobId, {
      type: 'HandOverStep',
      stepId: 'A1',
      to: 'tom',
      note: 'Stud 2 turns a little stiff: look at its thread before you go on.',
    })
    const device = await bench('tom', 'A1')
    await says(
      device.page.getByRole('region', { name: 'Where it was left' }),
      'interrupted in pass 1 of 2, before nut 2 (3rd in order)',
    )
    await says(device.page.getByRole('alert'), 'Stud 2 turns a little stiff')
    await held(device, 'handed-over')
    await command(all.tom, jobId, { type: 'PutDownStep', stepId: 'A1', note: 'Thread of stud 2 is torn.' })
    const next = await bench('ines', 'A1')
    await next.page.getByRole('button', { name: 'Claim and continue' }).waitFor()
    await says(next.page.getByRole('complementary', { name: 'What to do' }), 'Thread of stud 2 is torn.')
    await held(next, 'left-here')
  })

  test('a bead that is past its time', async () => {
    await headDone(all, jobId)
    await command(all.tom, jobId, { type: 'ClaimStep', stepId: 'B1', hidesKnowingly: true })
    await command(all.tom, jobId, { type: 'StartSealant', stepId: 'B1', doneAt: Date.now() - 15 * MINUTE })
    const device = await bench('tom', 'B1')
    await says(device.page.getByRole('region', { name: 'Sealant clock' }), 'Past the time of flange sealant')
    await held(device, 'sealant-late')
    await device.page.getByRole('button', { name: 'Last fastener in, late' }).click()
    await says(device.page.getByRole('region', { name: 'Sealant clock' }), 'Clean it off and lay a new bead')
    await held(device, 'sealant-closed-late')
  })

  test('a doubtful wrench, and one that fits', async () => {
    await command(all.tom, jobId, { type: 'ClaimStep', stepId: 'A1' })
    await command(all.tom, jobId, {
      type: 'EnterScale',
      jointId: 'H-A1',
      pass: 1,
      wrenchId: 'TW-9',
      value: 30,
    })
    const device = await bench('tom', 'A1')
    const offer = device.page.getByRole('region', { name: 'Another wrench' })
    await says(offer, 'TW-9 does not fit. Dropped')
    await held(device, 'wrench-offer')
    await offer.getByRole('button', { name: 'Take TW-1' }).click()
    await offer.waitFor({ state: 'detached' })
  })

  test('the same person’s second look, before its time and after', async () => {
    await headDone(all, jobId)
    await standSigned(all, jobId)
    const early = await bench('tom', 'A2')
    await station(early.page, /^Sign/).click()
    await held(early, 'own-look-early')
    jobId = await newEngine(all)
    await headDone(all, jobId)
    await standSigned(all, jobId, Date.now() - 40 * MINUTE)
    const device = await bench('tom', 'A2')
    await station(device.page, /^Sign/).click()
    const look = device.page.getByRole('button', {
      name: 'Give second signature on my own work: I have looked again',
    })
    await look.waitFor()
    await held(device, 'own-look')
    await look.click()
    await device.page.getByText('second-signed by the same person').waitFor()
    await held(device, 'own-look-given')
  })

  test('no published torque at the bench, and a settled one', async () => {
    await headDone(all, jobId)
    await command(all.tom, jobId, { type: 'ClaimStep', stepId: 'B2' })
    const device = await bench('tom', 'B2')
    await device.page.getByText('No published torque').first().waitFor()
    await held(device, 'no-value')
    await command(all.ada, jobId, {
      type: 'SettleValue',
      jointId: 'H-B2',
      pass: 1,
      torqueNm: 25,
      minNm: 23,
      maxNm: 27,
      basis: { kind: 'computed', method: 'Torque from preload', inputs: 'M12x1.5, 8, friction 0.14' },
      reason: 'As the same union on the R1',
    })
    await says(device.page.getByRole('main'), 'Ada Brook')
    await held(device, 'settled')
  })

  test('a warranty case on the engine page', async () => {
    await releasedToOwner(all, jobId)
    await command(all.ada, jobId, {
      type: 'OpenWarranty',
      complaint: 'Weeps oil at the feed union after four hours under load',
    })
    const device = await shop.deviceOf(ada, { size })
    await device.goTo(`/jobs/${jobId}`)
    await says(device.page.getByRole('main'), 'Weeps oil at the feed union')
    await seen(device, 'warranty-engine')
    await device.goTo(`/jobs/${jobId}/audit`)
    await says(device.page.getByRole('main'), 'Weeps oil at the feed union')
    await seen(device, 'warranty-audit')
  })

  test('a release that rework has withdrawn', async () => {
    await closed(all, jobId)
    await command(all.ada, jobId, { type: 'Release', kind: 'to_fitting' })
    await command(all.ines, jobId, {
      type: 'TakeReading',
      jointId: 'H-B2',
      position: 1,
      pass: 1,
      how: 'slackened',
    })
    const device = await shop.deviceOf(ada, { size })
    await device.goTo(`/jobs/${jobId}`)
    await device.page.getByRole('heading', { name: 'The plan', exact: true }).waitFor()
    await seen(device, 'withdrawn-engine')
    await device.goTo(`/jobs/${jobId}/audit`)
    await says(device.page.getByRole('main'), 'rework on B2 by Ines Falk')
    await seen(device, 'withdrawn-audit')
    await device.page
      .getByRole('link', { name: /^The record/ })
      .first()
      .click()
    await device.page.getByText('No longer counts: work went on at B2').waitFor()
    await seen(device, 'withdrawn-record')
  })

  test('a photo that is taken and not here yet', async () => {
    await headDone(all, jobId)
    await command(all.tom, jobId, { type: 'ClaimStep', stepId: 'B1', hidesKnowingly: true })
    await photoOnItsWay(all.tom, jobId)
    const device = await bench('ines', 'B1')
    await station(device.page, /^Check/).click()
    await held(device, 'photo-waits')
    const office = await shop.deviceOf(ada, { size: 'office' })
    await office.goTo(`/jobs/${jobId}/audit`)
    await says(
      office.page.getByRole('main'),
      'The photo of front for B1 has not been sent yet. Switch on the device that took it.',
    )
    await device.goTo(`/jobs/${jobId}`)
    await device.page.getByRole('heading', { name: 'The plan', exact: true }).waitFor()
    await seen(device, 'photo-waits-engine')
  })

  test('a photo taken without signal waits on this tablet, and arrives when it is back', async () => {
    await headDone(all, jobId)
    await command(all.tom, jobId, { type: 'ClaimStep', stepId: 'B1', hidesKnowingly: true })
    const device = await bench('tom', 'B1')
    const { page, context } = device
    // The browser itself says so when the plug is pulled.
    device.allow(/ERR_INTERNET_DISCONNECTED|WebSocket connection .* failed/)
    await station(page, /^Check/).click()
    await context.setOffline(true)
    await page.getByRole('status').filter({ hasText: 'No signal' }).first().waitFor()
    await takePhoto(page, 'Add photo of front')
    await says(page.getByRole('main'), 'taken, on its way')
    await held(device, 'photo-no-signal')
    await context.setOffline(false)
    await says(page.getByRole('main'), 'taken, here')
    const office = await shop.deviceOf(ada, { size: 'office' })
    await office.goTo(`/jobs/${jobId}/audit`)
    const stops = office.page.getByRole('main')
    await says(stops, 'B1')
    expect(await stops.textContent()).not.toContain('The photo of front for B1')
  })
})
