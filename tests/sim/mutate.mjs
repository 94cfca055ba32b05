/**
 * `npm run sim -- --mutate`: each of `mutations.mjs` is built into a simulation of its own, which must fail. Prints each that is
 * not found, and ends with `N caught, N missed`; one that no longer applies is a failure too.
 *
 * With words behind it only those whose promise, name or file has one of them.
 */
import { spawnSync } from 'node:child_process'
import { mkdirSync, readFileSync, rmSync } from 'node:fs'
import { build } from 'vite'
import { inRepo } from '../../server/setup/places.mjs'
import { MUTATIONS } from './mutations.mjs'

/** Each is found within a few; the last are for bad luck. */
const RUNS = '150'

/** Inside the repository, where its packages and migrations are found. */
const folder = inRepo('dist/sim-wrong')

/** @param {import('./mutations.mjs').Mutation} mutation */
function wrongCode({ file, find, replace }) {
  return {
    name: 'one-promise-broken',
    enforce: /** @type {const} */ ('pre'),
    /** @type {(code: string, id: string) => string | undefined} */
    transform: (code, id) =>
      id.split('?')[0] === inRepo(file) ? code.replace(find, () => replace) : undefined,
  }
}

/** @param {readonly string[]} words */
async function mutate(words) {
  for (const { promise, name, file, find } of MUTATIONS) {
    const times = readFileSync(inRepo(file), 'utf8').split(find).length - 1
    if (times !== 1)
      throw new Error(
        `${promise}, ${name}: ${JSON.stringify(find)} stands ${times} times in ${file}; it must once.`,
      )
  }
  const chosen = MUTATIONS.filter(
    ({ promise, name, file }) =>
      words.length === 0 || words.some((word) => `${promise} ${name} ${file}`.includes(word)),
  )
  let missed = 0
  for (const mutation of chosen) {
    mkdirSync(folder, { recursive: true })
    await build({
      configFile: inRepo('tests/sim/vite.config.ts'),
      logLevel: 'error',
      plugins: [wrongCode(mutation)],
      build: { outDir: folder, emptyOutDir: true },
    })
    const { status, stdout } = spawnSync(process.execPath, [`${folder}/main.js`, RUNS, '--first'], {
      encoding: 'utf8',
      timeout: 600_000,
    })
    // Often by another promise than the one it was made for: what is lost may first be seen waiting.
    const by = /^ {2}(\[SM\d+\] .*)$/m.exec(stdout)?.[1] ?? stdout.trim().split('\n').at(-1)
    const found = status === 1 && by?.startsWith('[SM')
    if (!found) missed += 1
    process.stdout.write(`${found ? 'caught' : 'missed'}: ${mutation.promise} ${mutation.name}: ${by}\n`)
  }
  rmSync(folder, { recursive: true, force: true })
  process.stdout.write(`${chosen.length - missed} caught, ${missed} missed\n`)
  return missed === 0 && chosen.length > 0 ? 0 : 1
}

process.exitCode = await mutate(process.argv.slice(2))
