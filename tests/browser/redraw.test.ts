/** What another device enters is drawn where it belongs; all else on the page stays the very same, with whatever is open or has the focus there. */
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { command, engineAtItsHead, HEAD_PASSES } from './hands'
import { SOON_MS, useShop } from './harness'

const shop = useShop()

interface Marked extends Element {
  stoodBefore?: true
}

const mark = (page: Page, parts: string): Promise<number> =>
  page.locator(parts).evaluateAll((all: Marked[]) => {
    for (const part of all) part.stoodBefore = true
    return all.length
  })

/** Those that were drawn since they were marked. */
const drawnSince = (page: Page, parts: string): Promise<string[]> =>
  page
    .locator(parts)
    .evaluateAll((all: Marked[]) =>
      all.filter(({ stoodBefore }) => !stoodBefore).map(({ id, textContent }) => id || `${textContent}`),
    )

async function headInHand() {
  const { jobId } = await engineAtItsHead(await shop.deviceOf('odile'))
  const doer = await shop.deviceOf('bram')
  await command(doer, jobId, { type: 'ClaimStep', stepId: 'B1' })
  await command(doer, jobId, { type: 'EnterScale', jointId: 'H-B1', pass: 1, wrenchId: 'TW-15', value: 40 })
  const read = { type: 'TakeReading', jointId: 'H-B1', pass: 1, how: 'clicked', wrenchId: 'TW-15' }
  return { jobId, read: (position: number) => command(doer, jobId, { ...read, position }) }
}

/** The words of one place, once they are others than before. */
async function changed(page: Page, place: string, happens: () => Promise<void>): Promise<void> {
  const words = () => page.locator(place).textContent()
  const before = await words()
  await happens()
  await expect.poll(words, { timeout: SOON_MS }).not.toBe(before)
}

test('a reading draws no other step of the engine page', async () => {
  const { jobId, read } = await headInHand()
  const { page, goTo } = await shop.deviceOf('suvi', { size: 'office' })
  await goTo(`/jobs/${jobId}`)
  await page.getByText('Head nuts').first().waitFor()
  // The trail says it; the step itself counts only what is final.
  await changed(page, '.trail-lines', () => read(1))
  expect(await mark(page, '.stage, .steps > li')).toBeGreaterThan(3)
  await changed(page, '.trail-lines', () => read(4))
  expect(await drawnSince(page, '.stage, .steps > li')).toEqual([])
})

test('a reading draws one bolt of the audit', async () => {
  const { jobId, read } = await headInHand()
  const { page, goTo } = await shop.deviceOf('odile', { size: 'office' })
  await goTo(`/jobs/${jobId}/audit`)
  await page.locator('#joint-H-B1').scrollIntoViewIfNeeded()
  await page.locator('#joint-H-B1 tbody tr').first().waitFor()
  await changed(page, '#joint-H-B1', () => read(1))
  const parts = '.record-group, .audit-list, #joint-H-B1 tbody tr'
  expect(await mark(page, parts)).toBeGreaterThan(6)
  await changed(page, '#joint-H-B1', () => read(4))
  expect((await drawnSince(page, parts)).length).toBeLessThanOrEqual(HEAD_PASSES.length)
})
