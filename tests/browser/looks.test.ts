/** The looks notice what they are there for: a page with one fault of each kind, and the same page put right. */
import { expect, test } from 'vitest'
import { useShop } from './harness'
import { axeFindings, clippedFindings, sidewaysFindings, smallTargets } from './looks'

const shop = useShop('main')

test('a page with faults is found out, and one without is not', async () => {
  const device = await shop.device()
  await device.goTo('/first-run')
  const { page } = device
  const all = async () => ({
    axe: await axeFindings(page),
    sideways: await sidewaysFindings(page),
    clipped: await clippedFindings(page),
    small: await smallTargets(page, 56),
  })
  // The real page stays as it is; what is wrong is added to it, then taken away again.
  const before = await all()
  expect(before.axe).toEqual([])
  expect(before.sideways).toEqual([])
  expect(before.clipped).toEqual([])
  await page.evaluate(() => {
    const faults = document.createElement('div')
    faults.id = 'faults'
    const style = (element: HTMLElement, css: string) => element.setAttribute('style', css)
    const pale = document.createElement('p')
    pale.textContent = 'words nobody can read'
    style(pale, 'color: #ccc; background: #fff')
    const clipped = document.createElement('p')
    clipped.textContent = 'a long line that does not fit in here at all'
    style(clipped, 'width: 60px; overflow: hidden; white-space: nowrap')
    const wide = document.createElement('div')
    style(wide, 'width: 3000px; height: 4px')
    const tiny = document.createElement('button')
    tiny.textContent = 'x'
    style(tiny, 'width: 20px; height: 20px; padding: 0; min-height: 0')
    faults.append(pale, clipped, wide, tiny)
    document.querySelector('main')?.append(faults)
  })
  const after = await all()
  expect(after.axe.join('\n')).toContain('color-contrast')
  expect(after.sideways).toHaveLength(1)
  expect(after.clipped.join('\n')).toContain('a long line')
  expect(after.small).toContain('x: 20 × 20 px')
  await page.evaluate(() => document.getElementById('faults')?.remove())
  expect(await all()).toEqual(before)
})
