/**
 * Resident memory of the server as `npm start` runs it, with twenty jobs in memory and two hundred boards
 * watching, after some work. Beside it a process of nothing but socket.io and SQLite, with as many sockets.
 */

import { join } from 'node:path'
import { v7 } from 'uuid'
import { repoFolder } from '../../../server/repo-folder'
import { demoPlan } from '../../shop/plans/demo'
import { makeEnding } from '../harness/ending'
import { type Program, startProgram } from '../harness/program'
import { type At, asked, connect, connectMany, watchRoom } from '../harness/sockets'
import { interleaved, median } from '../harness/stats'
import { everyReading } from '../load/build'
import type { Figure } from './figure'

const JOBS = 20
const SIZE = 60_000
const BOARDS = 200
const TAPS = 100
const SETTLE_MS = 1500

export const memory: Figure = {
  name: 'memory',
  what: `server memory, ${JOBS} jobs and ${BOARDS} boards`,
  atMostSeconds: 240,
  async run({ rounds, ending, host, say }) {
    const link = host()
    const folder = ending.folder()
    const dataFolder = join(folder, 'ours')
    const ours = await link.openOurs(
      dataFolder,
      Array.from({ length: JOBS }, () => ({ commands: 10_000, bytes: SIZE })),
    )
    const [extra = ''] = await link.addJobs(ours.id, [{ commands: 0, retakes: 1 }])
    const sample = await link.sampleRows(ours.id, extra)
    const { bytes } = await link.plainJob(ours.id, ours.jobs[0] ?? '')
    await link.closeOurs(ours.id)
    const dist = join(repoFolder(), 'dist')
    const env = { PORT: '0', HOST: '127.0.0.1', DATA_DIR: dataFolder, LOG_LEVEL: 'error', BEHIND_PROXY: '' }
    const readings = everyReading(demoPlan('orrath-q31'))

    async function measured(
      start: (ending: ReturnType<typeof makeEnding>) => Promise<Program>,
      at: Omit<At, 'origin'>,
    ) {
      const run = makeEnding()
      ending.add(() => run.run())
      try {
        const program = await start(run)
        const { origin } = program
        const steps = [program.memory()]
        const look = () => steps.push(program.memory())
        const boards = await connectMany(BOARDS, { origin, ...at }, run)
        for (const board of boards) await watchRoom(board, 'board')
        look()
        const sender = await connect({ origin, ...at }, run)
        if (at.cookie) for (const job of ours.jobs) await watchRoom(sender, `job:${job}`)
        look()
        for (let tap = 0; tap < TAPS; tap++) {
          const command = { commandId: v7(), doneAt: Date.now(), clockOffsetMs: 0, ...readings[tap] }
          await asked(sender, 'command', { stream: `job:${ours.jobs[tap % JOBS]}`, command })
          await new Promise((resolve) => setTimeout(resolve, 5))
        }
        await new Promise((resolve) => setTimeout(resolve, SETTLE_MS))
        look()
        return steps.map((bytes) => bytes / 1e6)
      } finally {
        await run.run()
      }
    }

    const got = await interleaved(rounds, {
      ours: () =>
        measured((run) => startProgram(join(dist, 'server', 'main.js'), { env }, run), {
          cookie: ours.cookie,
        }),
      reference: (round) => {
        const stdin = JSON.stringify({ ...sample, file: join(folder, `bare-${round}.db`) })
        return measured((run) => startProgram(join(dist, 'bench', 'bare.js'), { stdin }, run), { cookie: '' })
      },
    })
    const last = (runs: number[][]) => median(runs.map((steps) => steps.at(-1) ?? 0))
    const way = (runs: number[][]) =>
      [0, 1, 2, 3].map((step) => Math.round(median(runs.map((steps) => steps[step] ?? 0)))).join(', ')
    say(`memory: ours ${JSON.stringify(got.ours)}, bare ${JSON.stringify(got.reference)}`)
    return [
      {
        figure: 'memory',
        what: this.what,
        unit: 'MB',
        ours: last(got.ours),
        reference: last(got.reference),
        beside: `a process of only socket.io and SQLite with ${BOARDS} sockets and the same ${TAPS} taps`,
        goal: { by: 'ours', wants: 'at most', goal: 160, stretch: 140 },
        notes: [
          'resident memory of the server process as `npm start` runs it, in millions of bytes',
          `started, boards watching, jobs read, after the taps: ours ${way(got.ours)} MB; bare ${way(got.reference)} MB`,
          `each job ${Math.round(bytes / 1000)} kB as JSON`,
        ],
      },
    ]
  },
}
