/**
 * Durable commands a second: fifty sockets, each sending its next reading when the last is answered; rules,
 * hash chain, summary and answers included. Beside it the same rows in a bare loop, a transaction each.
 *
 * A server is on for days, so both are measured once they run as they will go on running: V8 compiles what runs often in
 * the same process, and for the first ten thousand commands that is more than a fifth of all processor time. What the first
 * ones cost is told beside it.
 */

import { join } from 'node:path'
import { v7 } from 'uuid'
import { demoPlan } from '../../shop/plans/demo'
import { asked, connectMany } from '../harness/sockets'
import { type Arms, interleaved, median } from '../harness/stats'
import { everyReading } from '../load/build'
import type { Figure } from './figure'

const SOCKETS = 50
/** Rounds before the first that counts, of both. */
const WARM_UPS = 7

export const commands: Figure = {
  name: 'commands',
  what: 'durable commands, 50 sockets with ack, rules included',
  atMostSeconds: 180,
  async run({ rounds, quick, ending, host, say }) {
    const link = host()
    const folder = ending.folder()
    const jobsARound = quick ? 2 : 6
    const ours = await link.openOurs(join(folder, 'ours'), [])
    const sockets = await connectMany(SOCKETS, ours, ending)
    const readings = everyReading(demoPlan('orrath-q31'))
    let jobs: string[] = []
    let coldMs: number | undefined

    /** Socket k takes every fiftieth reading of each job in turn: nobody takes one twice. */
    async function hand(k: number) {
      const socket = sockets[k]
      if (!socket) return
      for (const job of jobs)
        for (let at = k; at < readings.length; at += SOCKETS)
          await asked(socket, 'command', {
            stream: `job:${job}`,
            command: { commandId: v7(), doneAt: Date.now(), clockOffsetMs: 0, ...readings[at] },
          })
    }

    const made = new Map<number, string[]>()
    const arms: Arms<{ rate: number; cpuMs: number }> = {
      async ours(round) {
        jobs = made.get(round) ?? (await link.addJobs(ours.id, fresh()))
        made.set(round, jobs)
        const count = jobs.length * readings.length
        const cpuBefore = await link.cpuMs()
        const begun = performance.now()
        await Promise.all(sockets.map((_, k) => hand(k)))
        const seconds = (performance.now() - begun) / 1000
        const cpuMs = ((await link.cpuMs()) - cpuBefore) / count
        coldMs ??= cpuMs
        return { rate: count / seconds, cpuMs }
      },
      // Its rows come from our round before: the same work, whoever goes first.
      async reference(round) {
        const rowsFrom = made.get(round) ?? made.get(round - 1) ?? []
        const { ms, cpuMs, commands } = await link.bareLoop(
          ours.id,
          rowsFrom,
          join(folder, `bare-${round}.db`),
        )
        return { rate: commands / (ms / 1000), cpuMs: cpuMs / commands }
      },
    }
    const { ours: mine, reference } = await interleaved(rounds, arms, quick ? 1 : WARM_UPS)
    const fresh1 = jobsARound * readings.length
    say(`commands: ours ${JSON.stringify(mine)}, bare ${JSON.stringify(reference)}`)
    const cpu = (runs: typeof mine) => median(runs.map(({ cpuMs }) => cpuMs))
    const flushMs = median(reference.map(({ rate, cpuMs }) => 1000 / rate - cpuMs)).toFixed(2)
    await link.closeOurs(ours.id)
    return [
      {
        figure: 'commands',
        what: this.what,
        unit: 'a second',
        ours: median(mine.map(({ rate }) => rate)),
        reference: median(reference.map(({ rate }) => rate)),
        beside:
          'a bare loop writing the same rows (event, head, answer, summary, reading), one transaction a command',
        goal: { by: 'ratio', wants: 'at least', goal: 1.5, stretch: 2 },
        notes: [
          `${fresh1} readings a run, over ${jobsARound} jobs one after another`,
          `the bare loop waits ${flushMs} ms a command for the disk; the slower the disk, the more one shared commit gains`,
        ],
      },
      {
        figure: 'commands',
        what: 'processor time a command',
        unit: 'ms',
        ours: cpu(mine),
        reference: cpu(reference),
        beside: 'the same bare loop',
        goal: { by: 'ratio', wants: 'at most', goal: 1.4, stretch: 1.1 },
        notes: [
          'user and system time of the server process: ours with sockets, rules, chain and rows, bare with rows',
          `ours takes ${coldMs?.toFixed(2)} ms in the first ${fresh1} after the start, while V8 compiles; they do not count, nor do the bare loop's`,
        ],
      },
    ]

    function fresh() {
      return Array.from({ length: jobsARound }, () => ({ commands: 0 }))
    }
  },
}
