/**
 * `npm run sim -- --kill 1000`: the built server and its programs, over real sockets on a real disk, killed at moments drawn
 * from a seed: at work, during a first run, a backup, a migration and a restore; see `phases.ts`.
 *
 *     npm run sim -- --kill 1000 --from=7    shops from seed 7 on
 *
 * The folder of a kill after which something was wrong is kept.
 */
import { parseArgs } from 'node:util'
import { PHASES } from './phases'
import { runKills, type Sum } from './run'

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { kill: { type: 'boolean', default: false }, from: { type: 'string', default: '1' } },
})

function wholeNumber(text: string, what: string): number {
  const number = Number(text)
  if (Number.isSafeInteger(number) && number > 0) return number
  process.stderr.write(`${what} is a whole number from 1, not "${text}".\n`)
  process.exit(2)
}

const kills = wholeNumber(positionals[0] ?? '100', 'How many')
const seed = wholeNumber(values.from, 'The first seed')
const say = (line: string) => process.stdout.write(`${line}\n`)
const failedOf = ({ phases }: Sum) => PHASES.reduce((all, phase) => all + phases[phase].failed, 0)
const TELL_EVERY = 50

const sum = await runKills({
  kills,
  seed,
  told(done, sum) {
    if (done % TELL_EVERY === 0) say(`${done} kills, ${failedOf(sum)} failed.`)
  },
  failed(phase, seed, wrong, kept) {
    say(`After a kill during ${phase} (seed ${seed}) something was wrong. All of it is kept in ${kept}.`)
    for (const line of wrong.slice(0, 8)) say(`  ${line}`)
    if (wrong.length > 8) say(`  and ${wrong.length - 8} more`)
  },
})
for (const phase of PHASES) {
  const { kills, failed } = sum.phases[phase]
  say(`${phase.padEnd(10)} ${String(kills).padStart(5)} kills, ${failed} failed`)
}
const failed = failedOf(sum)
say(
  `${sum.acknowledged} entries acknowledged; ${sum.cut} kills cut commands off from their answers. ${kills - failed} passed, ${failed} failed`,
)
process.exit(failed === 0 ? 0 : 1)
