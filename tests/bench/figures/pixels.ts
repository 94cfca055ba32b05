/**
 * The board with 200 open engines, from data to pixels: how long Chromium's main thread ran scripts from the
 * page's first byte until every row is drawn, less what the same page takes with an empty board. From
 * Chromium's own counters (`Performance.getMetrics`), not from a stopwatch.
 */
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { type BrowserContext, chromium } from 'playwright-core'
import { repoFolder } from '../../../server/repo-folder'
import { interleaved, median } from '../harness/stats'
import type { Figure } from './figure'

const ENGINES = 200
const DRAWN_MS = 20_000

interface Spent {
  script: number
  layout: number
  style: number
  /** Everything the main thread did, these three and all else. */
  task: number
}

export const pixels: Figure = {
  name: 'pixels',
  what: `board with ${ENGINES} open engines, from data to pixels`,
  atMostSeconds: 240,
  async run({ rounds, ending, host, say }) {
    const executablePath = await browser()
    const link = host()
    const folder = ending.folder()
    // All at different places of the build, as in a shop.
    const full = await link.openOurs(
      join(folder, 'full'),
      Array.from({ length: ENGINES }, (_, n) => ({ commands: (n * 37) % 160 })),
    )
    const empty = await link.openOurs(join(folder, 'empty'), [])
    const running = await chromium.launch({ executablePath, args: ['--no-sandbox'] })
    ending.add(() => running.close())

    async function load(
      { origin, cookie }: { origin: string; cookie: string },
      rows: number,
    ): Promise<Spent> {
      const context = await running.newContext({ viewport: { width: 1280, height: 800 } })
      try {
        const [name = '', ...value] = cookie.split('=')
        await context.addCookies([{ name, value: value.join('='), url: origin }])
        return await spentOn(context, origin, rows)
      } finally {
        await context.close()
      }
    }

    const got = await interleaved(rounds, {
      ours: () => load(full, ENGINES),
      reference: () => load(empty, 0),
    })
    say(`pixels: ours ${JSON.stringify(got.ours)}, empty ${JSON.stringify(got.reference)}`)
    await link.closeOurs(full.id)
    await link.closeOurs(empty.id)
    const of = (name: keyof Spent) =>
      median(got.ours.map((run) => run[name])) - median(got.reference.map((run) => run[name]))
    return [
      {
        figure: 'pixels',
        what: `${this.what}: scripting`,
        unit: 'ms',
        ours: median(got.ours.map(({ script }) => script)),
        reference: median(got.reference.map(({ script }) => script)),
        beside: 'the same page with no engine; judged is the difference',
        goal: { by: 'difference', wants: 'at most', goal: 200, stretch: 100 },
        notes: [
          `beside scripting, more than the empty page: layout ${of('layout').toFixed(0)} ms, styles ${of('style').toFixed(0)} ms, the whole main thread ${of('task').toFixed(0)} ms`,
        ],
      },
    ]
  },
}

async function spentOn(context: BrowserContext, origin: string, rows: number): Promise<Spent> {
  const page = await context.newPage()
  const devtools = await context.newCDPSession(page)
  await devtools.send('Performance.enable')
  await page.goto(origin)
  // Asked for in a few bytes of script a frame: the driver's own locators are scripts too, and would count.
  const [wanted, count] = rows > 0 ? ['ol.rows > li.row .row-strip svg', rows] : ['.board section.empty', 1]
  const { result } = await devtools.send('Runtime.evaluate', {
    expression: drawn(wanted, count),
    awaitPromise: true,
    returnByValue: true,
  })
  if (result.value !== 'drawn')
    throw new Error(`The board did not draw ${count} × ${wanted} within ${DRAWN_MS} ms.`)
  const { metrics } = await devtools.send('Performance.getMetrics')
  const ms = (name: string) => {
    const found = metrics.find((metric) => metric.name === name)
    if (!found) throw new Error(`Chromium does not say ${name}.`)
    return found.value * 1000
  }
  return {
    script: ms('ScriptDuration'),
    layout: ms('LayoutDuration'),
    style: ms('RecalcStyleDuration'),
    task: ms('TaskDuration'),
  }
}

/** Two frames after it is in the page, it is on the screen. */
const drawn = (wanted: string, count: number) => `new Promise((done) => {
  const until = performance.now() + ${DRAWN_MS}
  const look = () => {
    if (document.querySelectorAll('${wanted}').length >= ${count})
      requestAnimationFrame(() => requestAnimationFrame(() => done('drawn')))
    else if (performance.now() > until) done('late')
    else requestAnimationFrame(look)
  }
  look()
})`

/** The one the browser tests use, found in the same way; not bundled, because it is no part of the build. */
async function browser(): Promise<string> {
  const file = pathToFileURL(join(repoFolder(), 'server', 'setup', 'browser.mjs')).href
  const { ensureBrowser } = (await import(/* @vite-ignore */ file)) as { ensureBrowser(): Promise<string> }
  return ensureBrowser()
}
