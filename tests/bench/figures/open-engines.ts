/**
 * Engines worked in turn: a reading on each of so many open engines, one after another and round again, so that whatever is
 * kept of the last few only is of no use. Through the front door and the desk in the server process, without sockets; the
 * tenth engine stands beside the three-hundredth.
 */
import { join } from 'node:path'
import { repoFolder } from '../../../server/repo-folder'
import { databaseIn } from '../../../server/settings'
import type { Line } from '../harness/line'
import { runProgram } from '../harness/program'
import { inTurn, median } from '../harness/stats'
import { copiesOf, entriesOf, lengthenLog } from '../host/long-log'
import type { Figure } from './figure'

const OPEN = [10, 101, 300, 1000]
/** As far along as half a build. */
const COMMANDS = 200
/** Timed, after every engine was worked at once. */
const TIMED = 200

export const openEngines: Figure = {
  name: 'open-engines',
  what: 'a command while many engines are worked in turn',
  atMostSeconds: 400,
  async run({ rounds, quick, ending, host, say }) {
    const link = host()
    const dataFolder = join(ending.folder(), 'ours')
    const sizes = quick ? OPEN.slice(0, 3) : OPEN
    const pattern = await link.openOurs(dataFolder, [{ commands: COMMANDS }])
    const [job = ''] = pattern.jobs
    await link.closeOurs(pattern.id)
    const file = databaseIn(dataFolder)
    const most = Math.max(...sizes)
    const { events } = await lengthenLog(
      file,
      [{ job, entries: await entriesOf(file, job), copies: most }],
      say,
    )
    await runProgram(join(repoFolder(), 'dist', 'server', 'rebuild.js'), { DATA_DIR: dataFolder }, ending)
    const ours = await link.openOurs(dataFolder, [])
    const ids = copiesOf(job, most)
    const got = await inTurn(rounds, sizes, (size) =>
      link.workInTurn(ours.id, ids.slice(0, size), size, TIMED),
    )
    say(`open-engines: ${JSON.stringify([...got])}`)
    await link.closeOurs(ours.id)
    const of = (size: number, name: 'p50' | 'cpuMs') => median((got.get(size) ?? []).map((run) => run[name]))
    const first = sizes[0] as number
    return sizes.slice(1).flatMap((size): Line[] => {
      const line = (name: 'p50' | 'cpuMs', what: string): Line => ({
        figure: 'open-engines',
        what: `${what}, ${size.toLocaleString('en')} open engines in turn`,
        unit: 'ms',
        ours: of(size, name),
        reference: of(first, name),
        beside: `${first} open engines in turn, in the same shop`,
        goal: { by: 'ratio', wants: 'at most', goal: 1.5, stretch: 1.1 },
        ...(name === 'p50'
          ? {
              notes: [
                `${TIMED} commands a run, one at a time; each engine has ${Math.round(events / most)} entries before it`,
              ],
            }
          : {}),
      })
      return [line('p50', 'a command, p50'), line('cpuMs', 'processor time a command')]
    })
  },
}
