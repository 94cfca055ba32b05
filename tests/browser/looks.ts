/**
 * What every page is held to, whatever it shows: nothing axe finds, nothing that sticks out of the page, no text
 * cut off in silence, and presses big enough for a glove.
 */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { AxeResults, RunOptions } from 'axe-core'
import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import type { Device } from './harness'

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

const RULES = ['wcag2a', 'wcag2aa', 'wcag21aa']

interface WithAxe {
  axe: { run(options: RunOptions): Promise<AxeResults> }
}

/**
 * Each violation as one line: rule, element, what to do. Evaluated from outside, so that the page's own
 * Content-Security-Policy need not let it in. `only` runs single rules, where the rest was looked at already.
 */
export async function axeFindings(page: Page, only?: string[]): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axeSource)
  return page.evaluate(
    async ([tags, rules]) => {
      const results = await (window as unknown as WithAxe).axe.run({
        runOnly: rules ? { type: 'rule', values: rules } : { type: 'tag', values: tags },
        resultTypes: ['violations'],
      })
      return results.violations.flatMap(({ id, nodes }) =>
        nodes.map(({ target, failureSummary }) => `${id} at ${target.join(' ')}: ${failureSummary}`),
      )
    },
    [RULES, only] as const,
  )
}

/** What makes the page wider than the window, if anything does. */
export function sidewaysFindings(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const root = document.scrollingElement as Element
    if (root.scrollWidth <= innerWidth) return []
    const out = [...document.body.querySelectorAll('*')]
      .filter((element) => element.getBoundingClientRect().right > innerWidth + 1)
      .slice(0, 4)
      .map((element) => `${element.tagName.toLowerCase()}.${element.getAttribute('class') ?? ''}`)
    return [`the page is ${root.scrollWidth} px wide in a window of ${innerWidth} px: ${out.join(', ')}`]
  })
}

/**
 * Text that is cut off: an element that hides what overflows and has more than it shows. Not those that may be
 * scrolled, those meant only for a screen reader, nor an ellipsis whose whole text stands in a title or label.
 */
export function clippedFindings(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const findings: string[] = []
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
    const seen = new Set<Element>()
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const element = node.parentElement
      if (!element || !node.nodeValue?.trim() || seen.has(element)) continue
      seen.add(element)
      const style = getComputedStyle(element)
      if (!element.checkVisibility({ visibilityProperty: true }) || style.overflowX !== 'hidden') continue
      // A box of a pixel or two is words for a screen reader.
      if (element.clientWidth <= 2 || element.clientHeight <= 2) continue
      const wide = element.scrollWidth > element.clientWidth + 1
      const tall = style.overflowY === 'hidden' && element.scrollHeight > element.clientHeight + 2
      if (!wide && !tall) continue
      const whole = element.closest('[title], [aria-label]')
      if (wide && style.textOverflow === 'ellipsis' && whole) continue
      findings.push(`“${node.nodeValue.trim().slice(0, 60)}” is cut off in ${element.className}`)
    }
    return findings
  })
}

/**
 * Pressable things smaller than `least` px either way. Links inside a line of text are text; what stands in the
 * top bar belongs to every page and is left out unless asked for.
 */
export function smallTargets(page: Page, least: number): Promise<string[]> {
  return page.evaluate((atLeast) => {
    const main = document.querySelector('dialog[open]') ?? document.querySelector('main')
    return [...(main?.querySelectorAll('button, a, input, select, textarea, summary') ?? [])].flatMap(
      (element) => {
        if (!element.checkVisibility({ visibilityProperty: true })) return []
        // A file input hides behind its label, which is what is pressed.
        if (element instanceof HTMLInputElement && element.type === 'file') return []
        if (element.closest('p, li p') && element.tagName === 'A') return []
        // A box to tick is pressed anywhere on its label.
        const { width, height } = (element.closest('label') ?? element).getBoundingClientRect()
        // Half a pixel is the layout's rounding, not a smaller button.
        if (width >= atLeast - 0.5 && height >= atLeast - 0.5) return []
        const name = element.getAttribute('aria-label') ?? element.textContent?.trim() ?? ''
        return [`${name.slice(0, 50)}: ${Math.round(width)} × ${Math.round(height)} px`]
      },
    )
  }, least)
}

/** Least size of what is pressed at the bench, CSS px. */
export const GLOVE_PX = 56

interface HeldTo {
  /** Least size of what is pressed, CSS px. */
  press?: number
  /** Axe by day and by night, unless another screen of the same parts has it. */
  axe?: 'both' | 'day' | 'none'
}

/** The state on the screen, by day and by night; each finding says where it was seen. */
export async function looks(
  device: Device,
  name: string,
  { press, axe = 'both' }: HeldTo = {},
): Promise<string[]> {
  const { page } = device
  await page.evaluate(() => document.fonts.ready.then(() => undefined))
  const found: string[] = []
  const note = (light: string, list: string[]) => {
    for (const one of list) found.push(`${name}, ${light}: ${one}`)
  }
  note('day', [
    ...(axe === 'none' ? [] : await axeFindings(page)),
    ...(await sidewaysFindings(page)),
    ...(await clippedFindings(page)),
    ...(press ? await smallTargets(page, press) : []),
  ])
  await device.shot(`${name}-day`)
  await page.emulateMedia({ colorScheme: 'dark' })
  await expect.poll(() => page.evaluate(() => document.documentElement.dataset.light)).toBe('night')
  note('night', axe === 'both' ? await axeFindings(page, ['color-contrast']) : [])
  await device.shot(`${name}-night`)
  await page.emulateMedia({ colorScheme: 'light' })
  await expect.poll(() => page.evaluate(() => document.documentElement.dataset.light)).toBe('day')
  return found
}
