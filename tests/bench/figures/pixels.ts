/**
 * The board with 200 open engines, from data to pixels: how long Chromium's main thread ran scripts from the
 * page's first byte until every row is drawn, less what the same page takes with an empty board.
 *
 * Judged by Chromium's sampling profiler: time in scripts and in collecting their garbage. Its counter
 * `ScriptDuration` leaves out what runs in microtasks, and an answer awaited from a socket runs in one; it is
 * named in the notes only.
 */
import { join } from 'node:path'
import type { BrowserContext } from 'playwright-core'
import { counters, deviceAt, openBrowser } from '../harness/browser'
import type { At } from '../harness/sockets'
import { interleaved, median } from '../harness/stats'
import type { Figure } from './figure'

const ENGINES = 200
const DRAWN_MS = 20_000
/** Seldom enough to cost little; hundreds of samples a page are plenty for a sum. */
const SAMPLE_US = 1000

interface Spent {
  /** In scripts, by the sampling profiler. */
  script: number
  /** `ScriptDuration`. */
  counter: number
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
    const link = host()
    const folder = ending.folder()
    // All at different places of the build, as in a shop.
    const full = await link.openOurs(
      join(folder, 'full'),
      Array.from({ length: ENGINES }, (_, n) => ({ commands: (n * 37) % 160 })),
    )
    const empty = await link.openOurs(join(folder, 'empty'), [])
    const running = await openBrowser(ending)

    async function load(at: At, rows: number): Promise<Spent> {
      const context = await deviceAt(running, at, { width: 1280, height: 800 })
      try {
        return await spentOn(context, at.origin, rows)
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
          `beside scripting, more than the empty page: layout ${of('layout').toFixed(0)} ms, styles ${of('style').toFixed(0)} ms, the whole main thread ${of('task').toFixed(0)} ms (with the profiler’s own work)`,
          `Chromium’s counter ScriptDuration, which leaves out microtasks: ${of('counter').toFixed(0)} ms more`,
        ],
      },
    ]
  },
}

async function spentOn(context: BrowserContext, origin: string, rows: number): Promise<Spent> {
  const page = await context.newPage()
  const devtools = await context.newCDPSession(page)
  // A small page of the same origin first: going there may change the process, and the profiler with it.
  await page.goto(`${origin}/healthz`)
  await devtools.send('Performance.enable')
  await devtools.send('Profiler.enable')
  await devtools.send('Profiler.setSamplingInterval', { interval: SAMPLE_US })
  const before = await counters(devtools)
  await devtools.send('Profiler.start')
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
  const { profile } = await devtools.send('Profiler.stop')
  const after = await counters(devtools)
  const more = (name: string) => {
    const [from, to] = [before.get(name), after.get(name)]
    if (from === undefined || to === undefined) throw new Error(`Chromium does not say ${name}.`)
    // Some begin again with a new page, some do not.
    return (to >= from ? to - from : to) * 1000
  }
  return {
    script: scriptingMs(profile),
    counter: more('ScriptDuration'),
    layout: more('LayoutDuration'),
    style: more('RecalcStyleDuration'),
    task: more('TaskDuration'),
  }
}

interface Profile {
  nodes: { id: number; callFrame: { functionName: string } }[]
  samples?: number[]
  timeDeltas?: number[]
}

/** All sampled time but the browser's own and the idle; garbage collection is in. */
function scriptingMs({ nodes, samples = [], timeDeltas = [] }: Profile): number {
  const outside = new Set(['(root)', '(idle)', '(program)'])
  const inScript = new Set(
    nodes.filter(({ callFrame }) => !outside.has(callFrame.functionName)).map(({ id }) => id),
  )
  if (samples.length === 0) throw new Error('The profiler took no samples.')
  // A delta is the time since the sample before, so it belongs to that one.
  return samples.reduce((sum, id, at) => sum + (inScript.has(id) ? (timeDeltas[at + 1] ?? 0) : 0), 0) / 1000
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
