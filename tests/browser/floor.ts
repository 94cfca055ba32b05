/** The chapters of an engine's way from its plan to its release, with three people on it at once. */
import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import {
  claimFromList,
  confirmed,
  enterScale,
  head,
  leaveOut,
  raiseHold,
  reasonsAgainst,
  rowOf,
  says,
  secondByPin,
  signButton,
  station,
  takePhoto,
  takeWrench,
  tap,
  toBench,
} from './hands'
import { type Device, pressDigits, type Server } from './harness'

export const ENGINE = {
  number: 'S-1',
  model: 'Harrow R2',
  serial: 'R2-0041',
  owner: 'Saltings Ferry',
  agreed: 'Head off, valves ground in',
}
const HEAD_NUTS = 'Head nuts'
const STAND_NUTS = 'Rocker stand nuts'

export interface Floor {
  server: Server
  office: Device
  tom: Device
  ines: Device
  jobId: string
}

/** A number from another scale is held up with both readings; set again, the pass begins and is broken off. */
export async function slipThenStop({ tom, jobId }: Floor): Promise<void> {
  const { page } = tom
  await claimFromList(page, jobId, 'A1')
  await takeWrench(page, 'TW-2')
  await enterScale(page, '30')
  const stop = page.getByRole('alert').filter({ hasText: 'Stop: which unit is that?' })
  await says(stop, '30 on this wrench is 30 lbf·ft = 40.7 N·m.')
  await says(stop, 'The plan says 30 N·m, which is 22.1 on this scale.')
  await stop.getByRole('button', { name: 'Set it again and enter' }).click()
  await enterScale(page, '22')
  await tap(page, HEAD_NUTS, 1)
  await tap(page, HEAD_NUTS, 3)
  await confirmed(page, HEAD_NUTS, 3)
  await page.getByRole('button', { name: 'Note, hand over…' }).click()
  const leave = page.getByRole('dialog', { name: 'Leave this step' })
  await says(leave, BROKEN_OFF)
  await leave.getByRole('button', { name: 'Called away' }).click()
  await leave.getByRole('button', { name: 'Leave step, with the note' }).click()
}

const BROKEN_OFF =
  'Head nuts: interrupted in pass 1 of 2, before nut 2 (3rd in order). Next: do pass 1 again from the start.'

/** Another goes on: the note is drawn, the joint's own rule comes first, then both passes anew. */
export async function anotherGoesOn({ tom, ines, jobId }: Floor): Promise<void> {
  const { page } = ines
  await toBench(ines, jobId, 'A1')
  const left = page.getByRole('region', { name: 'Where it was left' })
  await says(left, 'Left here by')
  await says(left, 'Tom Garrick')
  await says(left, BROKEN_OFF)
  await says(left, 'Do not begin B1 Rocker cover: it covers Head nuts, not signed off yet.')
  await says(left, '“Called away”')
  await ines.shot('floor-left-here')
  await page.getByRole('button', { name: 'Claim and continue' }).click()
  await says(tom.page.getByRole('main'), /claimed by\s*IF\s*Ines Falk/)
  const rule = page.getByRole('alert').filter({ hasText: 'Interrupted: Head nuts' })
  await says(rule, 'Interrupted in pass 1 of 2; nut 2 (3rd in order) was next.')
  await says(rule, 'The plan says: do pass 1 again from the start.')
  await rule.getByRole('button', { name: 'Pass 1 starts again at its first nut' }).click()
  for (const [index, scale] of ['30', '60'].entries()) {
    await enterScale(page, scale)
    for (const n of [1, 3, 2, 4]) await tap(page, HEAD_NUTS, n)
    if (index === 0) await page.getByRole('button', { name: /^Pass 2 next/ }).click()
  }
  await page.getByRole('button', { name: 'Next: sign step' }).click()
  await signButton(page).click()
}

/** One nut is left for later; an indicating wrench reads in another unit and really reads so; a part is missing. */
export async function standWaits({ office, tom, ines, jobId }: Floor): Promise<void> {
  const { page } = ines
  const row = rowOf(office.page, ENGINE.number)
  await claimFromList(page, jobId, 'A2')
  await leaveOut(page, STAND_NUTS, 2, 'B1')
  await takeWrench(page, 'IW-1')
  await pressDigits(page.getByRole('group', { name: 'Number shown' }), '22')
  const asked = page.getByRole('alert').filter({ hasText: '22 on this wrench is 22 lbf·ft = 29.8 N·m.' })
  await says(asked, 'The plan says 22 N·m, which is 16.2 on this scale.')
  // What is offered first is that it really reads so.
  expect(await asked.getByRole('button').first().textContent()).toBe('It really shows 22 lbf·ft')
  await asked.getByRole('button').first().click()
  await says(row, 'Rocker stand nuts, nut 1: out of band. Ines Falk recorded it.')
  await head(page, STAND_NUTS, 1).click()
  const panel = page.getByRole('dialog', { name: 'Rocker stand nuts: 1' })
  await panel.getByRole('button', { name: 'Slackened: record it' }).click()
  await pressDigits(page.getByRole('group', { name: 'Number shown' }), '16')
  await page.getByRole('button', { name: 'It shows 16 lbf·ft' }).click()
  await raiseHold(page, 'A2', 'part', 'stand shim')
  await says(row, /stand shim/)
  await toBench(tom, jobId, 'A2')
  await says(tom.page.getByRole('region', { name: 'On hold' }), 'Stand shim.')
}

const REFUSED = (moment: string): string[] => [
  'A1 Head on, nuts tightened: the second signature is missing; Ines Falk gave the first. Have somebody look and sign, or accept it with a reason.',
  'A2 Rocker stand is not signed. Do it and sign it.',
  'B1 Rocker cover is not signed. Do it and sign it.',
  'The photo of front for B1 is missing. Take it, or accept that with a reason.',
  'Oil feed union, pass 1: no torque is published. Decide one, with a reason.',
  'B2 Oil feed is not signed. Do it and sign it.',
  'A2 is on hold: “stand shim”. Clear the hold.',
  `Rocker stand nuts, nut 2: left out ${moment}, due at B1. Finish it there.`,
]

/** The office asks too early and is told everything that is missing, and nothing else. */
export async function refused({ office, jobId }: Floor): Promise<void> {
  const { page } = office
  expect(await page.evaluate(() => 'sameDocument' in window)).toBe(true)
  await office.goTo(`/jobs/${jobId}/audit`)
  await says(page.getByRole('main'), /30 lbf·ft.*40\.7 N·m/s)
  const reasons = await reasonsAgainst(page, 'to fitting')
  const moment = reasons.at(-1)?.match(/left out (.+), due at/)?.[1] ?? ''
  expect(moment).toMatch(/^\d\d:\d\d$/)
  expect(reasons).toEqual(REFUSED(moment))
  expect(await reasonsAgainst(page, 'to the owner')).toEqual([
    'The engine is not released to fitting. That release comes first.',
    ...REFUSED(moment).slice(0, 6),
    'C1 First run, up to heat is not signed. Do it and sign it.',
    ...REFUSED(moment).slice(6),
  ])
  await office.shot('floor-refused')
}

/** How many reasons the audit still counts; it follows by itself. */
const stillAgainst = (page: Page, count: number) =>
  says(
    page.getByRole('button', { name: /^Release to fitting/ }),
    count === 0 ? /^Release to fitting$/ : count === 1 ? '1 reason against' : `${count} reasons against`,
  )

/** Each reason is cleared where it is, and falls off the office's list meanwhile. */
export async function cleared(floor: Floor): Promise<void> {
  const { office, tom, ines, jobId } = floor
  const { page } = office
  await stillAgainst(page, 8)
  await tom.page.getByRole('button', { name: 'Clear hold: the part is here' }).click()
  await stillAgainst(page, 7)
  // The second look on the tablet of whoever did the work; she stays signed in.
  await ines.page.getByRole('region', { name: 'On hold' }).waitFor({ state: 'detached' })
  await station(ines.page, /^Sign/).click()
  await signButton(ines.page).click()
  await stillAgainst(page, 6)
  await toBench(ines, jobId, 'A1')
  await secondByPin(ines.page, floor.server, 'tom')
  await says(ines.page.getByRole('main'), 'Tom Garrick second')
  await ines.page.getByRole('button', { name: /Ines Falk is signed in/ }).waitFor()
  await stillAgainst(page, 5)
  await settled(page)
  await stillAgainst(page, 4)
  await oilFeed(floor)
  await stillAgainst(page, 3)
  await coverClosed(floor)
  await stillAgainst(page, 0)
}

/** No maker prints this torque: the owner of the shop answers for one. */
async function settled(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Decide torque Oil feed union' }).click()
  const main = page.getByRole('main')
  await says(main, 'A union is hollow and seals on a cone or a washer')
  await main.getByRole('radio', { name: /A competent person’s word/ }).check()
  await main.getByRole('textbox', { name: /^Whose word/ }).fill('Ada Brook, engine fitter for 20 years')
  await main.getByRole('textbox', { name: 'Torque, N·m' }).fill('25')
  await main.getByRole('textbox', { name: 'Lowest, N·m' }).fill('23')
  await main.getByRole('textbox', { name: 'Highest, N·m' }).fill('27')
  await main.getByRole('textbox', { name: /^Why this value/ }).fill('As the same union on the R1')
  await main.getByRole('button', { name: 'Decide torque: I answer for it' }).click()
  await main.getByRole('heading', { name: 'In force' }).waitFor()
  await main.getByRole('link', { name: 'Audit', exact: true }).click()
  await main.getByRole('heading', { name: 'The record' }).waitFor()
}

async function oilFeed({ tom, jobId }: Floor): Promise<void> {
  const { page } = tom
  await claimFromList(page, jobId, 'B2')
  await says(page.getByRole('main'), 'Ada Brook')
  await enterScale(page, '25')
  await tap(page, 'Oil feed union', 1)
  await page.getByRole('button', { name: 'Next: sign step' }).click()
  await signButton(page).click()
}

/** What was left out is due here: the step may be claimed, and is not signed before it is closed. */
async function coverClosed({ tom, jobId }: Floor): Promise<void> {
  const { page } = tom
  await claimFromList(page, jobId, 'B1')
  await enterScale(page, '8')
  await page.getByRole('button', { name: 'Round done: 4 counted' }).click()
  await station(page, /^Sign/).click()
  await says(
    page.getByRole('main'),
    'Rocker stand nuts: nut 2 still needs tightening. Finish that, then sign.',
  )
  expect(await signButton(page).isDisabled()).toBe(true)
  await tom.shot('floor-due-here')
  await station(page, /^Rocker stand nuts 2/).click()
  await enterScale(page, '22')
  await tap(page, STAND_NUTS, 2)
  await station(page, /^Check/).click()
  await takePhoto(page, 'Add photo of front')
  await says(page.getByRole('main'), 'taken, here')
  await station(page, /^Sign/).click()
  await signButton(page).click()
}
