/**
 * `npm run bench`: the figures of ARCHITECTURE.md "Figures to hold", ours beside a bare reference from the
 * same run. Prints; judges nothing but its own table, and ends with 0 also where a goal is missed.
 *
 * `npm run bench -- commands pages` measures these figures alone. `--json` one JSON object; `--quick` fewer rounds
 * and smaller loads, for development; `--history` ten years of a busy shop, which takes minutes to write. `--spec <file>` scores labelled lines of print instead (`-v` lists the failures).
 */
import { readFileSync } from 'node:fs'
import { cpus, loadavg } from 'node:os'
import { parseArgs } from 'node:util'
import { scoreOf, scoreTable, specLinesOf } from '../published/spec-lines'
import { figures } from './figures'
import type { Bench } from './figures/figure'
import { makeEnding, within } from './harness/ending'
import { type HostLink, startHost } from './harness/host-link'
import { asJson, type Outcome, remarks, table } from './harness/table'

const ALL_AT_MOST_SECONDS = 3600

const { values: asked, positionals: names } = parseArgs({
  allowPositionals: true,
  options: {
    json: { type: 'boolean', default: false },
    quick: { type: 'boolean', default: false },
    history: { type: 'boolean', default: false },
    spec: { type: 'string' },
    verbose: { type: 'boolean', short: 'v', default: false },
  },
})
if (asked.spec !== undefined) {
  const score = scoreOf(specLinesOf(readFileSync(asked.spec, 'utf8')))
  process.stdout.write(`${scoreTable(score, asked.verbose)}\n`)
  process.exit(0)
}
const unknown = names.filter((name) => !figures.some((figure) => figure.name === name))
if (unknown.length > 0) {
  const known = figures.map(({ name }) => name).join(', ')
  process.stderr.write(`There is no figure ${unknown.join(', ')}. There are: ${known}.\n`)
  process.exit(2)
}

const say = (sentence: string) => process.stderr.write(`${sentence}\n`)
const whole = makeEnding()
const chosen = figures.filter(({ name }) => names.length === 0 || names.includes(name))
const rounds = asked.quick ? 3 : 5
const outcomes: Outcome[] = []
const loadBefore = loadavg()[0] ?? 0

async function stop(code: number) {
  await whole.run()
  process.exit(code)
}
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => void stop(1))
setTimeout(() => {
  say(`The bench took longer than ${ALL_AT_MOST_SECONDS} s and was given up.`)
  void stop(1)
}, ALL_AT_MOST_SECONDS * 1000).unref()

for (const figure of chosen) {
  say(`${figure.name}: ${figure.what}`)
  // A child of the whole, so that a signal ends what this figure opened.
  const ending = makeEnding()
  whole.add(() => ending.run())
  let host: HostLink | undefined
  const bench: Bench = {
    rounds,
    quick: asked.quick,
    history: asked.history,
    ending,
    host: () => {
      host ??= startHost(ending)
      return host
    },
    say,
  }
  try {
    outcomes.push(...(await within(figure.atMostSeconds * 1000, figure.name, figure.run(bench))))
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error)
    say(`${figure.name} failed: ${error instanceof Error ? error.stack : error}`)
    outcomes.push({ figure: figure.name, what: figure.what, why })
  }
  await ending.run()
}

const about = {
  rounds,
  quick: asked.quick,
  node: process.version,
  cpus: cpus().length,
  cpu: cpus()[0]?.model ?? 'unknown',
  /** Processes that wanted a processor, over the last minute; the bench itself keeps about two busy. */
  load: [loadBefore, loadavg()[0] ?? 0].map((load) => Number(load.toFixed(1))),
}
if (asked.json) process.stdout.write(`${asJson(outcomes, about)}\n`)
else {
  const how = `medians of ${rounds} interleaved runs, Node ${about.node}, ${about.cpus} × ${about.cpu}, load ${about.load.join(' before, ')} after`
  const quick = asked.quick
    ? '\nQuick: fewer rounds and smaller loads; good for development, not for a claim.'
    : ''
  process.stdout.write(`\n${table(outcomes)}\n\n${how}${quick}\n\n${remarks(outcomes)}\n`)
}
await stop(outcomes.some((outcome) => 'why' in outcome) ? 1 : 0)
