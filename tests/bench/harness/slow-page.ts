/**
 * A page on a cheap tablet: Chromium with its processor six times slowed, and what its main thread did. Its work is told in
 * the thread's own running time, so that a busy machine does not add to it; how a page opens is told by the clock.
 */
import type { BrowserContext, Page } from 'playwright-core'
import { counters } from './browser'

const SLOWER = 6
const LOOK_MS = 400
/** Of the time: what a page that does nothing still does. */
const QUIET_SHARE = 0.05
const QUIET_AT_MOST_MS = 90_000
const DRAWN_AT_MOST_MS = 60_000

/** Main-thread milliseconds. */
export interface Spent {
  task: number
  script: number
  style: number
  layout: number
}

export interface Opened {
  /** From asking for the page until what was waited for, and the largest part of the first screen, are painted. */
  firstScreenMs: number
  longestTaskMs: number
  /** Elements, texts and comments in the document. */
  nodes: number
}

export interface SlowPage {
  page: Page
  slow(on: boolean): Promise<void>
  /** Until the main thread rests; false where it did not in time. */
  rests(): Promise<boolean>
  /** What the main thread does in so many milliseconds, from just before `begin`. */
  spent(ms: number, begin: () => unknown): Promise<Spent>
  /** Opens an address and waits until the thread rests; `wanted` is a selector. */
  open(address: string, wanted: string): Promise<Opened>
  lines(): Promise<string[]>
  /** How many times as long a loop of fixed length runs when the page is slowed: six, unless the machine is too busy. */
  slowedTimes(): Promise<number>
}

export async function slowPage(context: BrowserContext): Promise<SlowPage> {
  const page = await context.newPage()
  const devtools = await context.newCDPSession(page)
  await devtools.send('Performance.enable', { timeDomain: 'threadTicks' })
  await page.addInitScript(WATCH)

  async function slow(on: boolean) {
    await devtools.send('Emulation.setCPUThrottlingRate', { rate: on ? SLOWER : 1 })
  }
  async function now(): Promise<Spent> {
    const all = await counters(devtools)
    const ms = (name: string) => {
      const seconds = all.get(name)
      if (seconds === undefined) throw new Error(`Chromium does not say ${name}.`)
      return seconds * 1000
    }
    return {
      task: ms('TaskDuration'),
      script: ms('ScriptDuration'),
      style: ms('RecalcStyleDuration'),
      layout: ms('LayoutDuration'),
    }
  }
  async function spent(ms: number, begin: () => unknown): Promise<Spent> {
    const before = await now()
    await begin()
    await page.waitForTimeout(ms)
    const after = await now()
    const more = (name: keyof Spent) => after[name] - before[name]
    return { task: more('task'), script: more('script'), style: more('style'), layout: more('layout') }
  }
  async function rests(): Promise<boolean> {
    const until = performance.now() + QUIET_AT_MOST_MS
    let quiet = 0
    while (quiet < 3 && performance.now() < until) {
      const { task } = await spent(LOOK_MS, () => {})
      quiet = task < LOOK_MS * QUIET_SHARE ? quiet + 1 : 0
    }
    return quiet >= 3
  }
  async function loopMs(slowed: boolean): Promise<number> {
    await slow(slowed)
    return (await spent(0, () => page.evaluate(LOOP))).task
  }
  return {
    page,
    slow,
    async slowedTimes() {
      await loopMs(false)
      return (await loopMs(true)) / (await loopMs(false))
    },
    rests,
    spent,
    async open(address, wanted) {
      await page.goto(address, { waitUntil: 'commit' })
      const { result } = await devtools.send('Runtime.evaluate', {
        expression: `watchedByBench.drawn(${JSON.stringify(wanted)}, ${DRAWN_AT_MOST_MS})`,
        awaitPromise: true,
        returnByValue: true,
      })
      if (typeof result.value !== 'number')
        throw new Error(`${address} did not draw ${wanted} within ${DRAWN_AT_MOST_MS} ms.`)
      await rests()
      const seen = await devtools.send('Runtime.evaluate', {
        expression: 'watchedByBench.seen()',
        returnByValue: true,
      })
      const { largestMs, longestTaskMs, nodes } = seen.result.value
      return { firstScreenMs: Math.max(result.value, largestMs), longestTaskMs, nodes }
    },
    lines: async () =>
      (await page.locator('main').allInnerTexts())
        .flatMap((text) => text.split('\n'))
        .flatMap((line) => line.trim() || []),
  }
}

/** In a task of its own; a tenth of a second or so. */
const LOOP = `new Promise((done) => setTimeout(() => {
  let sum = 0
  for (let n = 0; n < 3e7; n++) sum += Math.sqrt(n)
  done(sum)
}))`

/** Runs before any script of the page; looks, once a frame, and does nothing else. */
const WATCH = `globalThis.watchedByBench = (() => {
  let largestMs = 0
  let longestTaskMs = 0
  new PerformanceObserver((list) => {
    for (const { startTime } of list.getEntries()) largestMs = Math.max(largestMs, startTime)
  }).observe({ type: 'largest-contentful-paint', buffered: true })
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) longestTaskMs = Math.max(longestTaskMs, duration)
  }).observe({ type: 'longtask', buffered: true })
  return {
    drawn: (wanted, atMostMs) => new Promise((done) => {
      const look = () => {
        if (document.querySelector(wanted))
          requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now())))
        else if (performance.now() > atMostMs) done('late')
        else requestAnimationFrame(look)
      }
      look()
    }),
    seen() {
      const walker = document.createTreeWalker(document, NodeFilter.SHOW_ALL)
      let nodes = 1
      while (walker.nextNode()) nodes += 1
      return { largestMs, longestTaskMs, nodes }
    },
  }
})()`
