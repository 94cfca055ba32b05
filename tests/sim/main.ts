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
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { repoFolder } from '../../server/repo-folder'
import { takeOverBrowserGlobals } from './browser'
import { killPage } from './floor'
import { allPairs, run } from './schedule'
import { takeOverGlobals } from './world'

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    seed: { type: 'string' },
    from: { type: 'string', default: '1' },
    kept: { type: 'boolean', default: false },
    /** Ends with the first that fails, and keeps none: for what is broken on purpose. */
    first: { type: 'boolean', default: false },
  },
})
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

takeOverGlobals()
takeOverBrowserGlobals(killPage)
const say = (line: string) => process.stdout.write(`${line}\n`)
const met = new Set<string>()
const totals = { runs: 0, entries: 0, faults: 0 }
const failed: number[] = []
for (const seed of seeds()) {
  const { wrong, story, pairs, entries, faults } = await run(seed)
  totals.runs += 1
  totals.entries += entries
  totals.faults += faults
  for (const pair of pairs) met.add(pair)
  if (values.seed !== undefined) say(story.join('\n'))
  if (wrong.length === 0) continue
  failed.push(seed)
  say(`Seed ${seed} failed. Again: npm run sim -- --seed=${seed}`)
  for (const line of wrong.slice(0, 8)) say(`  ${line}`)
  if (wrong.length > 8) say(`  and ${wrong.length - 8} more`)
  if (values.first) break
}

const all = allPairs()
const missed = all.filter((pair) => !met.has(pair))
const percent = ((100 * (all.length - missed.length)) / all.length).toFixed(1)
say(`${totals.runs} runs, ${totals.entries} entries, ${totals.faults} faults.`)
say(`${all.length - missed.length} of ${all.length} pairs of fault × entry came to pass (${percent} %).`)
if (missed.length > 0 && missed.length <= 40) say(`Not: ${missed.join('; ')}`)
say(`${totals.runs - failed.length} passed, ${failed.length} failed`)
const isNew = failed.some((seed) => !kept.includes(seed))
if (isNew && !values.first) {
  const all = [...new Set([...kept, ...failed])].sort((a, b) => a - b)
  writeFileSync(keptFile, `[${all.join(', ')}]\n`)
  say('Kept in tests/sim/seeds.json.')
}
process.exit(failed.length === 0 ? 0 : 1)
