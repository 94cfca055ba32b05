/**
 * Acknowledged durable writes a second while a whole shop works: fifty clients with four commands in flight each, spread on
 * twenty jobs. Every write is a fastener tightened again, and the reading before it is kept, so that the jobs grow.
 * Beside it bare socket.io on bare SQLite: the same rows in shared transactions, the same answers, nothing else.
 */
import { join } from 'node:path'
import { v7 } from 'uuid'
import { demoPlan } from '../../shop/plans/demo'
import { type At, asked, connectMany } from '../harness/sockets'
import { interleaved, median } from '../harness/stats'
import { everyReading } from '../load/build'
import type { Figure } from './figure'

const CLIENTS = 50
const IN_FLIGHT = 4
const JOBS = 20
const SIZE = 60_000

export const manyJobs: Figure = {
  name: 'many-jobs',
  what: `acknowledged durable writes, ${CLIENTS} clients × ${IN_FLIGHT}, ${JOBS} jobs, retakes`,
  atMostSeconds: 240,
  async run({ rounds, quick, ending, host, say }) {
    const link = host()
    const folder = ending.folder()
    const aHand = quick ? 20 : 40
    const count = CLIENTS * IN_FLIGHT * aHand
    const readings = everyReading(demoPlan('orrath-q31'))
    const fresh = () => Array.from({ length: JOBS }, () => ({ commands: 10_000, bytes: SIZE }))
    const ours = await link.openOurs(join(folder, 'ours'), [{ commands: 0, retakes: 1 }])
    const [sample = ''] = ours.jobs
    const bare = { ...(await link.openBare(ours.id, sample, join(folder, 'bare.db'))), cookie: '' }

    async function arm(at: At) {
      const sockets = await connectMany(CLIENTS, at, ending)
      return async (jobs: readonly string[]) => {
        let sent = 0
        async function hand(socket: (typeof sockets)[number]) {
          for (let n = 0; n < aHand; n++) {
            const turn = sent++
            // Each job goes through its places in order and begins again.
            const reading = readings[Math.floor(turn / JOBS) % readings.length]
            await asked(socket, 'command', {
              stream: `job:${jobs[turn % JOBS]}`,
              command: { commandId: v7(), doneAt: Date.now(), clockOffsetMs: 0, ...reading },
            })
          }
        }
        const cpuBefore = await link.cpuMs()
        const begun = performance.now()
        await Promise.all(sockets.flatMap((socket) => Array.from({ length: IN_FLIGHT }, () => hand(socket))))
        const seconds = (performance.now() - begun) / 1000
        return { rate: count / seconds, cpuMs: ((await link.cpuMs()) - cpuBefore) / count }
      }
    }
    const mine = await arm(ours)
    const other = await arm(bare)
    const { ours: got, reference } = await interleaved(rounds, {
      // Fresh ones each round, so that every round asks the same.
      ours: async () => mine(await link.addJobs(ours.id, fresh())),
      reference: () => other(Array.from({ length: JOBS }, (_, n) => `bare-${n}`)),
    })
    say(`many-jobs: ours ${JSON.stringify(got)}, bare ${JSON.stringify(reference)}`)
    await link.closeOurs(ours.id)
    const cpu = (runs: typeof got) => median(runs.map(({ cpuMs }) => cpuMs)).toFixed(2)
    return [
      {
        figure: 'many-jobs',
        what: this.what,
        unit: 'a second',
        ours: median(got.map(({ rate }) => rate)),
        reference: median(reference.map(({ rate }) => rate)),
        beside:
          'bare socket.io on bare SQLite: the same rows, what waits in one transaction, the same answers',
        goal: { by: 'ours', wants: 'at least', goal: 5000, stretch: 8000 },
        notes: [
          `${count} writes a run on ${JOBS} jobs of ${SIZE / 1000} kB, ${count / JOBS} each; clients and server are two processes on this machine`,
          `processor time of the server process a write: ours ${cpu(got)} ms, bare ${cpu(reference)} ms`,
        ],
      },
    ]
  },
}
