/**
 * Starting the server as `npm start` runs it, to the line with its address: on a log of two million events,
 * and on an empty one. The file is in the page cache, as after a restart of the program, not of the box.
 */
import { rmSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { repoFolder } from '../../../server/repo-folder'
import { databaseIn } from '../../../server/settings'
import { startProgram } from '../harness/program'
import { interleaved, median } from '../harness/stats'
import { lengthenLog } from '../host/long-log'
import type { Figure } from './figure'

const EVENTS = 2_000_000
const EVENTS_QUICK = 100_000

export const start: Figure = {
  name: 'start',
  what: 'start on a log of 2 million events',
  atMostSeconds: 600,
  async run({ rounds, quick, ending, host, say }) {
    const link = host()
    const folder = ending.folder()
    const long = join(folder, 'long')
    const empty = join(folder, 'empty')
    const events = quick ? EVENTS_QUICK : EVENTS
    const ours = await link.openOurs(long, [{ commands: 10_000 }])
    await link.closeOurs(ours.id)
    const begun = performance.now()
    const jobs = await lengthenLog(databaseIn(long), ours.jobs[0] ?? '', events, say)
    const megabytes = Math.round(statSync(databaseIn(long)).size / 1e6)
    say(`${events.toLocaleString('en')} events in ${Math.round((performance.now() - begun) / 1000)} s`)

    const file = join(repoFolder(), 'dist', 'server', 'main.js')
    async function started(dataFolder: string): Promise<number> {
      const env = { PORT: '0', HOST: '127.0.0.1', DATA_DIR: dataFolder, LOG_LEVEL: 'error', BEHIND_PROXY: '' }
      const program = await startProgram(file, { env }, ending)
      const answer = await fetch(`${program.origin}/healthz`)
      if (!answer.ok) throw new Error(`/healthz answered ${answer.status}.`)
      await program.stop()
      return program.startMs / 1000
    }
    // The first start of an empty folder makes tables and a pepper; that is not what is asked.
    await started(empty)
    const got = await interleaved(rounds, { ours: () => started(long), reference: () => started(empty) })
    say(
      `start: ours ${got.ours.map((s) => s.toFixed(2)).join(' ')}, empty ${got.reference.map((s) => s.toFixed(2)).join(' ')}`,
    )
    rmSync(long, { recursive: true, force: true })
    return [
      {
        figure: 'start',
        what: `start with ${events.toLocaleString('en')} events in the log`,
        unit: 's',
        ours: median(got.ours),
        reference: median(got.reference),
        beside: 'the same program on an empty log; judged is the difference',
        goal: { by: 'difference', wants: 'at most', goal: 0.5, stretch: 0.2 },
        notes: [
          `${jobs.toLocaleString('en')} jobs, each with its summary; ${megabytes} MB; whole process, from its start to its address`,
        ],
      },
    ]
  },
}
