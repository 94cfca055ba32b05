/**
 * `npm run sim`: mornings on the floor, each drawn from a seed; see `schedule.ts`.
 *
 *     npm run sim -- 10000           seeds 1 to 10000, then which fault met which entry
 *     npm run sim -- 10000 --from=7  the same from seed 7
 *     npm run sim -- --seed=7        one, with its story
 *     npm run sim -- --kept          those that failed once, kept in `tests/sim/seeds.json`
 *
 * A seed gives the same run as long as the code is the same. One that fails is kept.
 */
import { fork } from 'node:child_process'
import { once } from 'node:events'
import { readFileSync, writeFileSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { repoFolder } from '../../server/repo-folder'
import { takeOverBrowserGlobals } from './browser'
import { killPage, reloadPage } from './floor'
import { allPairs, type Outcome, run } from './schedule'
import { takeOverGlobals } from './world'

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    seed: { type: 'string' },
    from: { type: 'string', default: '1' },
    kept: { type: 'boolean', default: false },
    /** Ends with the first that fails, and keeps none: for what is broken on purpose. */
    first: { type: 'boolean', default: false },
    /** Side by side; as many as the machine has cores unless told. */
    processes: { type: 'string', default: `${availableParallelism()}` },
    /** Of such a process: which of how many it is. */
    share: { type: 'string' },
  },
})
/** The machine's own, before it is taken away. */
const now = performance.now.bind(performance)
const keptFile = join(repoFolder(), 'tests', 'sim', 'seeds.json')
const kept = JSON.parse(readFileSync(keptFile, 'utf8')) as number[]

function wholeNumber(text: string, what: string): number {
  const number = Number(text)
  if (Number.isSafeInteger(number) && number > 0) return number
  process.stderr.write(`${what} is a whole number from 1, not "${text}".\n`)
  process.exit(2)
}

function seeds(): number[] {
  if (values.seed !== undefined) return [wholeNumber(values.seed, 'A seed')]
  if (values.kept) return kept
  const count = wholeNumber(positionals[0] ?? '200', 'How many')
  const from = wholeNumber(values.from, 'The first seed')
  return Array.from({ length: count }, (_, index) => from + index)
}

const say = (line: string) => process.stdout.write(`${line}\n`)
const met = new Set<string>()
const totals = { runs: 0, entries: 0, faults: 0 }
const failed: number[] = []

/** False where no more are to be run. */
function take({ seed, wrong, story, pairs, entries, faults }: Outcome): boolean {
  totals.runs += 1
  totals.entries += entries
  totals.faults += faults
  for (const pair of pairs) met.add(pair)
  if (values.seed !== undefined) say(story.join('\n'))
  if (wrong.length === 0) return true
  failed.push(seed)
  say(`Seed ${seed} failed. Again: npm run sim -- --seed=${seed}`)
  for (const line of wrong.slice(0, 8)) say(`  ${line}`)
  if (wrong.length > 8) say(`  and ${wrong.length - 8} more`)
  return !values.first
}

async function runHere(
  all: readonly number[],
  told: (outcome: Outcome) => boolean | Promise<boolean>,
): Promise<void> {
  takeOverGlobals()
  takeOverBrowserGlobals({ kill: killPage, reload: reloadPage })
  for (const seed of all) if (!(await told(await run(seed)))) return
}

/** In processes of their own, each with every so many-th seed. */
async function runBeside(count: number): Promise<void> {
  const children = Array.from({ length: count }, (_, index) =>
    fork(process.argv[1] as string, [...process.argv.slice(2), `--share=${index}/${count}`]),
  )
  const ends = children.map(async (child) => {
    child.on('message', (outcome) => {
      if (!take(outcome as Outcome)) for (const other of children) other.kill()
    })
    const [code] = await once(child, 'exit')
    if (code !== 0 && !(values.first && failed.length > 0)) throw new Error(`A process ended with ${code}.`)
  })
  await Promise.all(ends)
}

if (values.share !== undefined) {
  const [index = 0, count = 1] = values.share.split('/').map(Number)
  const mine = seeds().filter((_, place) => place % count === index)
  const tell = (outcome: Outcome) =>
    new Promise<true>((resolve) => void process.send?.({ ...outcome, story: [] }, () => resolve(true)))
  await runHere(mine, tell)
  process.exit(0)
}

const begun = now()
const processes = Math.min(
  wholeNumber(values.processes, 'How many processes'),
  Math.ceil(seeds().length / 50),
)
if (processes > 1) await runBeside(processes)
else await runHere(seeds(), take)
const tookS = (now() - begun) / 1000

const pairs = allPairs()
const missed = pairs.filter((pair) => !met.has(pair))
const percent = ((100 * (pairs.length - missed.length)) / pairs.length).toFixed(1)
say(`${totals.runs} runs, ${totals.entries} entries, ${totals.faults} faults, in ${Math.round(tookS)} s.`)
say(`${pairs.length - missed.length} of ${pairs.length} pairs of fault × entry came to pass (${percent} %).`)
if (missed.length > 0 && missed.length <= 40) say(`Not: ${missed.join('; ')}`)
say(`${totals.runs - failed.length} passed, ${failed.length} failed`)
const isNew = failed.some((seed) => !kept.includes(seed))
if (isNew && !values.first) {
  const all = [...new Set([...kept, ...failed])].sort((a, b) => a - b)
  writeFileSync(keptFile, `[${all.join(', ')}]\n`)
  say('Kept in tests/sim/seeds.json.')
}
process.exit(failed.length === 0 ? 0 : 1)
