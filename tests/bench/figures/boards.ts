/**
 * Tap to every board: from sending a command to the arrival of its summary at the last of 50 and of 200
 * watching sockets. Beside it a bare durable commit and a bare broadcast of the same bytes. Both are measured warm, as
 * `commands.ts` says why.
 */

import { join } from 'node:path'
import { v7 } from 'uuid'
import { demoPlan } from '../../shop/plans/demo'
import type { Line } from '../harness/line'
import { asked, connect, connectMany, lookOn, watchRoom } from '../harness/sockets'
import { interleaved, median, percentile } from '../harness/stats'
import { everyReading } from '../load/build'
import type { Bench, Figure } from './figure'

/** Rounds before the first that counts, of both. */
const WARM_UPS = 5
/** Half built, so that a server runs all of what a day brings before the first tap. */
const WARM_JOBS = Array.from({ length: 20 }, () => ({ commands: 200 }))

async function withBoards(bench: Bench, boards: number): Promise<Line[]> {
  const { rounds, quick, ending, host, say } = bench
  // No more than a job has room for: every tap is a fresh reading, none a retake.
  const taps = quick ? 60 : 200
  const link = host()
  const folder = ending.folder()
  const readings = everyReading(demoPlan('orrath-q31'))
  const ours = await link.openOurs(join(folder, 'ours'), [{ commands: 0, retakes: 1 }])
  const [copied = ''] = ours.jobs
  const bare = { ...(await link.openBare(ours.id, copied, join(folder, 'bare.db'))), cookie: '' }

  async function arm(at: { origin: string; cookie: string }) {
    const watching = await connectMany(boards, at, ending)
    for (const socket of watching) await watchRoom(socket, 'board')
    const sender = await connect(at, ending)
    const look = lookOn(watching)
    let version = 0
    let job = ''
    return async () => {
      const times: number[] = []
      if (at !== bare) {
        job = (await link.addJobs(ours.id, [{ commands: 0 }]))[0] ?? ''
        version = (await link.plainJob(ours.id, job)).version
        look.forget()
      }
      const cpuBefore = await link.cpuMs()
      for (let tap = 0; tap < taps; tap++) {
        const reading = readings[tap]
        version += 1
        const command = { commandId: v7(), doneAt: Date.now(), clockOffsetMs: 0, ...reading }
        const everywhere = look.all(version)
        const begun = performance.now()
        const answered = asked(sender, 'command', { stream: `job:${job}`, command })
        times.push((await everywhere) - begun)
        const got = (await answered).version
        if (got !== version) throw new Error(`A tap led to version ${got}; ${version} was waited for.`)
        // Real taps are not back to back; also keeps the sender under the gateway's bound of messages.
        await new Promise((resolve) => setTimeout(resolve, 5))
      }
      const cpuMs = ((await link.cpuMs()) - cpuBefore) / taps
      return { p50: percentile(times, 0.5), p99: percentile(times, 0.99), cpuMs }
    }
  }

  const mine = await arm(ours)
  const other = await arm(bare)
  if (!quick) await link.addJobs(ours.id, WARM_JOBS)
  const { ours: got, reference } = await interleaved(
    rounds,
    { ours: mine, reference: other },
    quick ? 1 : WARM_UPS,
  )
  say(`boards ${boards}: ours ${JSON.stringify(got)}, bare ${JSON.stringify(reference)}`)
  await link.closeOurs(ours.id)
  const cpu = (runs: typeof got) => median(runs.map(({ cpuMs }) => cpuMs)).toFixed(2)
  const line = (name: 'p50' | 'p99', goal: number, stretch: number): Line => ({
    figure: 'boards',
    what: `tap to every one of ${boards} boards, ${name}`,
    unit: 'ms',
    ours: median(got.map((run) => run[name])),
    reference: median(reference.map((run) => run[name])),
    beside: 'a bare durable commit of the same rows, then a bare socket.io broadcast of the same bytes',
    goal: { by: 'ratio', wants: 'at most', goal, stretch },
    notes: [
      `${taps} taps a run, one after another, each run on a fresh job, ${quick ? 1 : WARM_UPS} runs of both before`,
      `processor time of the server process a tap: ours ${cpu(got)} ms, bare ${cpu(reference)} ms`,
    ],
  })
  return [line('p50', 1.2, 1.1), boards > 50 ? line('p99', 1.2, 1) : line('p99', 1.5, 1.2)]
}

const boards = (count: number): Figure => ({
  name: `boards-${count}`,
  what: `tap to every one of ${count} boards`,
  atMostSeconds: 300,
  run: (bench) => withBoards(bench, count),
})

export const boards50 = boards(50)
export const boards200 = boards(200)
