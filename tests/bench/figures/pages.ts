/**
 * Pages on a cheap tablet, a processor six times slowed: what the main thread does for one live event, whether that grows
 * with the events a page has lived through, and how its large pages open. Beside each a bare page with the same lines.
 *
 * An event is judged by Chromium's counter of all tasks of the main thread (`TaskDuration`) in the thread's running time, less
 * what the same page does at rest: scripts, microtasks, styles, layout and paint, to the end of every animation it begins.
 */
import { join } from 'node:path'
import { serveBarePage } from '../harness/bare-page'
import { deviceAt, openBrowser } from '../harness/browser'
import { makeEnding } from '../harness/ending'
import type { Line } from '../harness/line'
import { type Opened, type SlowPage, type Spent, slowPage } from '../harness/slow-page'
import { interleaved, median } from '../harness/stats'
import type { YardOpened } from '../host/calls'
import type { Bench, Figure } from './figure'

const TABLET = { width: 1180, height: 820 }
/** With the demonstration's eight and the large one. */
const ENGINES = 200
/** As long as a row of the board shows that it changed. */
const EVENT_MS = 2600
const BARE_EVENT_MS = 800
const REST_MS = 1000
/** How many events the page has lived through. */
const LIVED = [10, 1000, 10_000]
const LIVED_AT_MOST_MS = 60_000

interface Seen {
  name: string
  path: string
  /** What a person comes for. */
  wanted: string
  /** The engines whose events it shows. */
  jobs: string[]
}

const livePages = ({ working, atBench }: YardOpened): Seen[] => [
  { name: 'board', path: '/', wanted: 'ol.rows > li.row .row-strip svg', jobs: working },
  { name: 'engine', path: `/jobs/${atBench.job}`, wanted: '.steps > li', jobs: [atBench.job] },
  { name: 'audit', path: `/jobs/${atBench.job}/audit`, wanted: '.audit .record', jobs: [atBench.job] },
  {
    name: 'bench',
    path: `/jobs/${atBench.job}/bench/${atBench.step}`,
    wanted: '.bench-work svg',
    jobs: [atBench.job],
  },
]
const openedPages = ({ released, long }: YardOpened): Seen[] => [
  { name: 'audit', path: `/jobs/${released.job}/audit`, wanted: '.audit .record', jobs: [] },
  {
    name: 'record',
    path: `/jobs/${released.job}/record/${released.number}`,
    wanted: '.record-screen',
    jobs: [],
  },
  { name: 'engine of 500 steps', path: `/jobs/${long}`, wanted: '.steps > li', jobs: [] },
]

export const pages: Figure = {
  name: 'pages',
  what: 'pages on a cheap tablet, processor six times slowed',
  atMostSeconds: 2000,
  async run(bench) {
    const { ending, host, say } = bench
    const link = host()
    const yard = await link.openYard(join(ending.folder(), 'yard'), ENGINES - 9)
    if (yard.engines !== ENGINES) throw new Error(`${yard.engines} engines are on the board.`)
    say(`pages: ${yard.engines} engines`)
    const lines: Line[] = []
    for (const seen of openedPages(yard)) lines.push(...(await openingOf(bench, yard, seen)))
    // The board last: its events are of every engine, and theirs are its.
    for (const seen of livePages(yard).toReversed()) lines.push(...(await eventOn(bench, yard, seen)))
    await link.closeYard()
    return lines
  },
}

/** A page of ours, and a bare one with its lines, each on a device of its own. */
async function sideBySide(bench: Bench, yard: YardOpened, { path, wanted }: Seen) {
  const ending = makeEnding()
  bench.ending.add(() => ending.run())
  const browser = await openBrowser(ending)
  const ours = await slowPage(await deviceAt(browser, yard, TABLET))
  const address = `${yard.origin}${path}`
  // As on a tablet that was here before: its scripts are at hand.
  await ours.open(address, wanted)
  const served = await serveBarePage(await ours.lines(), ending)
  const bare = await slowPage(await deviceAt(browser, { origin: served.origin, cookie: '' }, TABLET))
  await bare.open(served.origin, 'li')
  const slowed = `a loop of fixed length ran ${(await bare.slowedTimes()).toFixed(1)} times as long on the slowed page`
  for (const one of [ours, bare]) await one.slow(true)
  return { ours, bare, address, served, slowed, close: () => ending.run() }
}

async function openingOf(bench: Bench, yard: YardOpened, seen: Seen): Promise<Line[]> {
  const { ours, bare, address, served, slowed, close } = await sideBySide(bench, yard, seen)
  const got = await interleaved(bench.quick ? 1 : bench.rounds, {
    ours: () => ours.open(address, seen.wanted),
    reference: () => bare.open(served.origin, 'li'),
  })
  bench.say(`opening ${seen.name}: ours ${JSON.stringify(got.ours)}, bare ${JSON.stringify(got.reference)}`)
  await close()
  const line = (name: keyof Opened, what: string, unit: string, goal: number, stretch: number): Line => ({
    figure: 'pages',
    what: `opening the ${seen.name}, ${what}`,
    unit,
    ours: median(got.ours.map((run) => run[name])),
    reference: median(got.reference.map((run) => run[name])),
    beside: 'a bare page with the same lines of text',
    goal: { by: 'ours', wants: 'at most', goal, stretch },
  })
  return [
    {
      ...line('firstScreenMs', 'first screen', 'ms', 1000, 600),
      notes: [slowed, 'by the clock, as the longest task: a busy machine lengthens both'],
    },
    line('longestTaskMs', 'longest task', 'ms', 200, 100),
    {
      ...line('nodes', 'nodes', 'nodes', 5000, 3000),
      notes: ['elements, texts and comments of the document when the page rests'],
    },
  ]
}

async function eventOn(bench: Bench, yard: YardOpened, seen: Seen): Promise<Line[]> {
  const { rounds, quick, host, say } = bench
  const link = host()
  const { ours, bare, served, slowed, close } = await sideBySide(bench, yard, seen)
  const tell = (count: number, atMostMs = 10_000) => link.tellYard(seen.jobs, count, atMostMs)

  /** One event at a time, each with a rest before it. */
  async function one(page: SlowPage, ms: number, happens: () => unknown): Promise<Spent> {
    const rest = await page.spent(REST_MS, () => {})
    const busy = await page.spent(ms, happens)
    const more = (name: keyof Spent) => Math.max(0, busy[name] - (rest[name] * ms) / REST_MS)
    return { task: more('task'), script: more('script'), style: more('style'), layout: more('layout') }
  }
  const measured = async () => {
    const got = await interleaved(quick ? 1 : rounds, {
      ours: () => one(ours, EVENT_MS, () => tell(1)),
      reference: () => one(bare, BARE_EVENT_MS, served.tell),
    })
    const middle = (runs: Spent[], name: keyof Spent) => median(runs.map((run) => run[name]))
    return { got, of: (name: keyof Spent) => middle(got.ours, name), bare: middle(got.reference, 'task') }
  }

  let lived = await tell(LIVED[0] as number)
  await ours.rests()
  const first = await measured()
  say(`${seen.name}: ours ${JSON.stringify(first.got.ours)}, bare ${JSON.stringify(first.got.reference)}`)
  const lines: Line[] = [
    {
      figure: 'pages',
      what: `one live event on the ${seen.name}`,
      unit: 'ms',
      ours: first.of('task'),
      reference: first.bare,
      beside: 'a bare page with the same lines of text, of which one changes',
      goal: { by: 'ours', wants: 'at most', goal: 90, stretch: 40 },
      notes: [
        slowed,
        `Chromium’s counters, which leave out microtasks and animations: scripts ${first.of('script').toFixed(0)} ms, styles ${first.of('style').toFixed(0)} ms, layout ${first.of('layout').toFixed(0)} ms`,
      ],
    },
  ]
  for (const events of quick ? [] : LIVED.slice(1)) {
    // As fast as the browser can, and then as slow as before.
    await ours.slow(false)
    lived += await tell(events - lived, LIVED_AT_MOST_MS)
    const rested = await ours.rests()
    await ours.slow(true)
    const later = await measured()
    const short = lived < events ? `, of ${events.toLocaleString('en')} in the time there was` : ''
    say(`${seen.name} after ${lived}${short}: ours ${JSON.stringify(later.got.ours)}`)
    lines.push({
      figure: 'pages',
      what: `the same after ${lived.toLocaleString('en')} events`,
      unit: 'ms',
      ours: later.of('task'),
      reference: first.of('task'),
      beside: 'the same page after ten',
      goal: { by: 'ratio', wants: 'at most', goal: 1.2, stretch: 1.1 },
      notes: [
        ...(short ? [`${lived.toLocaleString('en')} events${short}`] : []),
        ...(rested ? [] : ['the page had not come to rest before it was measured']),
      ],
    })
    if (short || !rested) break
  }
  await close()
  return lines
}
