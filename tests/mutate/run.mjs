/**
 * `npm run mutate`: every formula of the list is made wrong by one per cent, one at a time, and the published checks must
 * notice. Prints each that they do not, and ends with `N caught, N missed`; anything missed is a failure.
 *
 * With words behind it only formulas whose name or file has one of them. Takes some minutes: a command of its own.
 */
import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { inRepo } from '../../server/setup/places.mjs'
import { FORMULAS } from './formulas.mjs'

/** @param {string} [index] */
const published = (index) =>
  spawnSync(
    process.execPath,
    [
      inRepo('node_modules/vitest/vitest.mjs'),
      'run',
      '--config',
      inRepo('tests/mutate/vitest.config.ts'),
      '--reporter=dot',
    ],
    { cwd: inRepo('.'), encoding: 'utf8', env: { ...process.env, MUTATED: index ?? 'none' } },
  )

/** @param {readonly string[]} words */
export function mutate(words) {
  for (const { name, file, find } of FORMULAS) {
    const times = readFileSync(inRepo(file), 'utf8').split(find).length - 1
    if (times !== 1)
      throw new Error(`${name}: ${JSON.stringify(find)} stands ${times} times in ${file}; it must once.`)
  }
  if (published().status !== 0)
    throw new Error('The published checks fail with nothing wrong. Run npm test first.')
  const chosen = FORMULAS.map((formula, index) => ({ ...formula, index })).filter(
    ({ name, file }) => words.length === 0 || words.some((word) => `${file} ${name}`.includes(word)),
  )
  const missed = chosen.filter(({ index }) => published(String(index)).status === 0)
  for (const { name, file, find, replace } of missed)
    process.stdout.write(`missed: ${name} (${file}): ${find.trim()} → ${replace.trim()}\n`)
  process.stdout.write(`${chosen.length - missed.length} caught, ${missed.length} missed\n`)
  return missed.length === 0 && chosen.length > 0 ? 0 : 1
}

process.exitCode = mutate(process.argv.slice(2))
