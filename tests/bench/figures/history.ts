/**
 * Ten years of a busy shop behind it: the program as `npm start` runs it on a log of released engines, beside the same shop
 * with the same engines in work and no history. Start, the board's first load, opening an engine, a command; and making
 * the tables again from the log. The file is in the page cache, as after a restart of the program, not of the box.
 */
import { statSync } from 'node:fs'
import { join } from 'node:path'
import { v7 } from 'uuid'
import { repoFolder } from '../../../server/repo-folder'
import { databaseIn } from '../../../server/settings'
import { demoPlan } from '../../shop/plans/demo'
import { counted } from '../harness/counting-proxy'
import { makeEnding } from '../harness/ending'
import type { Line } from '../harness/line'
import { runProgram, startProgram } from '../harness/program'
import { asked, connect, watchRoom } from '../harness/sockets'
import { interleaved, median } from '../harness/stats'
import { lengthenLog } from '../host/long-log'
import { everyReading } from '../load/build'
import { releasedEngine } from '../load/released'
import type { Figure } from './figure'

const EVENTS = 2_000_000
const EVENTS_ORDINARY = 100_000
const OPEN = 40
const YEARS_MS = 10 * 365.25 * 86_400_000
const TAPS = 40

export const history: Figure = {
  name: 'history',
  what: 'ten years of a busy shop',
  atMostSeconds: 1200,
  async run({ rounds, history, ending, host, say }) {
    const link = host()
    const folder = ending.folder()
    const events = history ? EVENTS : EVENTS_ORDINARY
    const filled = async (name: string) => {
      const dataFolder = join(folder, name)
      const specs = Array.from({ length: OPEN }, (_, n) => ({ commands: (n * 37) % 160 }))
      const ours = await link.openOurs(dataFolder, specs)
      await link.closeOurs(ours.id)
      return ours
    }
    const long = await filled('long')
    const short = await filled('short')
    const entries = await releasedEngine()
    const copies = Math.ceil(events / entries.length)
    const begun = performance.now()
    // The last one came in as the pattern did, the first ten years before it.
    const earlier = (n: number) => Math.round(((copies - 1 - n) / copies) * YEARS_MS)
    const file = databaseIn(long.dataFolder)
    const written = await lengthenLog(file, [{ job: 'past', entries, copies, earlier }], say)
    const seconds = (performance.now() - begun) / 1000
    const about = `${copies.toLocaleString('en')} released engines, ${written.events.toLocaleString('en')} events, ${Math.round(statSync(file).size / 1e6)} MB, written in ${seconds.toFixed(0)} s; ${OPEN} engines in work`
    say(about)
    const programs = join(repoFolder(), 'dist', 'server')
    const rebuilt = await runProgram(join(programs, 'rebuild.js'), { DATA_DIR: long.dataFolder }, ending)
    say(`rebuild: ${JSON.stringify(rebuilt)}`)

    const readings = everyReading(demoPlan('orrath-q31'))
    async function worked({ dataFolder, cookie, jobs }: typeof long, round: number) {
      const run = makeEnding()
      ending.add(() => run.run())
      try {
        const env = {
          PORT: '0',
          HOST: '127.0.0.1',
          DATA_DIR: dataFolder,
          LOG_LEVEL: 'error',
          BEHIND_PROXY: '',
        }
        const program = await startProgram(join(programs, 'main.js'), { env }, run)
        const health = await fetch(`${program.origin}/healthz`)
        if (!health.ok) throw new Error(`/healthz answered ${health.status}.`)
        // Another engine each round, none of them read since the start.
        const job = jobs[round % jobs.length] ?? ''
        const board = await counted(program.origin, run, async (origin) => {
          const socket = await connect({ origin, cookie }, run)
          const from = performance.now()
          const answer = await watchRoom(socket, 'board')
          return { ms: performance.now() - from, rows: (answer.summaries as unknown[]).length }
        })
        // What has left the shop, as the page asks for it afterwards.
        const left = await counted(program.origin, run, async (origin) => {
          const answer = await fetch(`${origin}/api/board?left`, { headers: { cookie } })
          return ((await answer.json()) as { summaries: unknown[] }).summaries.length
        })
        const socket = await connect({ origin: program.origin, cookie }, run)
        const from = performance.now()
        await watchRoom(socket, `job:${job}`)
        const openMs = performance.now() - from
        const taps: number[] = []
        for (let tap = 0; tap < TAPS; tap++) {
          const command = { commandId: v7(), doneAt: Date.now(), clockOffsetMs: 0, ...readings[tap] }
          const sent = performance.now()
          await asked(socket, 'command', { stream: `job:${job}`, command })
          taps.push(performance.now() - sent)
        }
        return {
          startS: program.startMs / 1000,
          boardMs: board.got.ms,
          boardKB: board.bytes / 1000,
          rows: board.got.rows,
          left: left.got,
          leftKB: left.bytes / 1000,
          openMs,
          tapMs: median(taps),
        }
      } finally {
        await run.run()
      }
    }
    const got = await interleaved(rounds, {
      ours: (round) => worked(long, round),
      reference: (round) => worked(short, round),
    })
    say(`history: with ${JSON.stringify(got.ours)}, without ${JSON.stringify(got.reference)}`)
    type Measured = (typeof got.ours)[number]
    const line = (
      name: keyof Measured,
      what: string,
      unit: string,
      goal: Line['goal'] = { by: 'ratio', wants: 'at most', goal: 1.3, stretch: 1.1 },
    ): Line => ({
      figure: 'history',
      what: `${what}, after ${events.toLocaleString('en')} events`,
      unit,
      ours: median(got.ours.map((run) => run[name])),
      reference: median(got.reference.map((run) => run[name])),
      beside: 'the same shop with the same engines in work and no history',
      goal,
    })
    const middle = (runs: Measured[], name: keyof Measured) => median(runs.map((run) => run[name]))
    return [
      {
        ...line('startS', 'start', 's', { by: 'difference', wants: 'at most', goal: 0.5, stretch: 0.2 }),
        notes: [about, 'whole process, from its start to its address'],
      },
      {
        ...line('boardMs', 'the board’s first load', 'ms'),
        notes: [
          `${middle(got.ours, 'rows')} engines came; without history ${middle(got.reference, 'rows')}`,
          `afterwards, by itself, the ${middle(got.ours, 'left')} that left the shop in the last six weeks: ${middle(got.ours, 'leftKB').toFixed(1)} kB`,
        ],
      },
      line('boardKB', 'the board’s first load', 'kB'),
      line('openMs', 'opening an engine not in memory', 'ms'),
      {
        ...line('tapMs', 'a command, p50', 'ms'),
        notes: [`${TAPS} readings, one after another, over a socket`],
      },
      {
        figure: 'history',
        what: `making the tables again from ${events.toLocaleString('en')} events, peak memory`,
        unit: 'MB',
        ours: rebuilt.peak / 1e6,
        goal: { by: 'ours', wants: 'at most', goal: 200, stretch: 150 },
        notes: ['resident memory of `npm run rebuild`, in millions of bytes; once, not in rounds'],
      },
      {
        figure: 'history',
        what: `making the tables again from ${events.toLocaleString('en')} events`,
        unit: 's',
        ours: rebuilt.seconds,
      },
    ]
  },
}
