/**
 * Three people at once, from the adopted plan to the owner: the office in front of the board and the audit, two
 * technicians with a tablet each. Nobody loads a page again to see what another did.
 */
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { anotherGoesOn, cleared, ENGINE, type Floor, refused, slipThenStop, standWaits } from './floor'
import {
  adoptPlan,
  askRelease,
  claimFromList,
  openJob,
  reasonsAgainst,
  says,
  signButton,
  station,
} from './hands'
import { type Device, pressDigits, signIn, useShop } from './harness'
import { openSmallShop, SMALL_PLAN } from './small-shop'

const shop = useShop('main')
const STORY_MS = 240_000

/** The office opens the job; the technicians sign in on their tablets. */
async function people(): Promise<Floor> {
  const office = await shop.device({ size: 'office' })
  await openSmallShop(office, shop.server)
  await office.goTo('/')
  const jobId = await openJob(office.page, ENGINE)
  await adoptPlan(office.page, ENGINE.number, SMALL_PLAN.title)
  const tom = await shop.device()
  const ines = await shop.device()
  await signIn(tom, shop.server, 'tom')
  await signIn(ines, shop.server, 'ines')
  // Lost with the document: who loads a page again loses it.
  await office.page.evaluate(() => Object.assign(window, { sameDocument: true }))
  return { server: shop.server, office, tom, ines, jobId }
}

/** Released to fitting, run, released to the owner: numbered, and the record's figures are what was done. */
async function released({ office, tom, jobId }: Floor): Promise<void> {
  const { page } = office
  const fitting = await askRelease(page, 'to fitting')
  await says(fitting, 'Released. This is the number of its record.')
  await page.keyboard.press('Escape')
  expect(await reasonsAgainst(page, 'to the owner')).toEqual([
    'C1 First run, up to heat is not signed. Do it and sign it.',
  ])
  await firstRun(tom, jobId)
  await says(page.getByRole('button', { name: /^Release to the owner/ }), /^Release to the owner$/)
  const owner = await askRelease(page, 'to the owner')
  await owner.getByRole('link', { name: 'The record' }).click()
  await page.getByRole('heading', { name: /^Release record/ }).waitFor()
}

async function firstRun(tom: Device, jobId: string): Promise<void> {
  const { page } = tom
  await claimFromList(page, jobId, 'C1')
  await pressDigits(page.getByRole('group', { name: 'Oil pressure, hot idle' }), '2.4')
  await page.getByRole('button', { name: 'It measures 2.4 bar' }).click()
  await station(page, /^Check/).click()
  await page.getByRole('button', { name: 'I have looked: it is so' }).click()
  await station(page, /^Sign/).click()
  await signButton(page).click()
}

/** Words of each row of a table, cell by cell, without its heads. */
const rowsOf = (page: Page, name: string): Promise<string[][]> =>
  page
    .getByRole('table', { name })
    .locator('tbody tr')
    .evaluateAll((rows) =>
      rows.map((one) => [...one.querySelectorAll('th, td')].map((cell) => cell.textContent ?? '')),
    )

const HEAD_READ = [
  ['1', '1. 30 N·m', '30 N·m clicked'],
  ['1', '1. 30 N·m', '22 lbf·ft (29.8 N·m) clicked'],
  ['1', '2. 60 N·m', '60 N·m clicked'],
  ['2', '1. 30 N·m', '30 N·m clicked'],
  ['2', '2. 60 N·m', '60 N·m clicked'],
  ['3', '1. 30 N·m', '30 N·m clicked'],
  ['3', '1. 30 N·m', '22 lbf·ft (29.8 N·m) clicked'],
  ['3', '2. 60 N·m', '60 N·m clicked'],
  ['4', '1. 30 N·m', '30 N·m clicked'],
  ['4', '2. 60 N·m', '60 N·m clicked'],
]

/** The paper's figures are what was done, and it reads the same on another device. */
async function recordSays({ office, tom, jobId }: Floor): Promise<void> {
  const { page } = office
  expect(new URL(page.url()).pathname).toBe(`/jobs/${jobId}/record/${ENGINE.number}-R1`)
  const paper = page.getByRole('article')
  await says(paper, '11 fasteners, 19 readings: 11 signed off')
  await says(paper, 'released to its owner')
  await says(paper, 'Oil feed union, pass 1: 25 N·m within 23 to 27 N·m')
  await says(paper, 'Oil pressure, hot idlehot idle2.4 barat least 1 bar')
  const headRows = await rowsOf(page, 'Head nuts, fastener by fastener')
  expect(headRows.map((cells) => cells.slice(0, 3).map((cell) => cell.trim()))).toEqual(HEAD_READ)
  // What Tom read before he was called away is kept, and void.
  const ofTom = headRows.filter((cells) => cells.some((cell) => cell.includes('TW-2')))
  expect(ofTom.map((cells) => cells.at(-1))).toEqual([
    expect.stringContaining('no longer counts: pass started again by Ines Falk'),
    expect.stringContaining('no longer counts: pass started again by Ines Falk'),
  ])
  expect(await rowsOf(page, 'Cover bolts, fastener by fastener')).toHaveLength(4)
  const events = await office.context.request.get(`/api/jobs/${jobId}/events`)
  const log = (await events.json()) as { events: { event: { type: string } }[] }
  const logged = (type: string) => log.events.filter(({ event }) => event.type === type)
  // Fifteen head by head, and the four of the cover in one press.
  expect(logged('ReadingTaken')).toHaveLength(15)
  expect(logged('RoundCounted')).toHaveLength(1)
  await office.shot('floor-record')
  await tom.goTo(new URL(page.url()).pathname)
  // Its parts come in turn.
  await expect
    .poll(() => tom.page.getByRole('article').textContent(), { timeout: 20_000 })
    .toBe(await paper.textContent())
}

test(
  'from the adopted plan to the owner, with three people on one engine',
  async () => {
    const floor = await people()
    await slipThenStop(floor)
    await anotherGoesOn(floor)
    await standWaits(floor)
    await refused(floor)
    await cleared(floor)
    await released(floor)
    await recordSays(floor)
  },
  STORY_MS,
)
