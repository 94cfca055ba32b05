/**
 * `npm run mutate`: every formula of the list is made wrong by one per cent, one at a time, and the published checks must
 * notice. Prints each that they do not, and ends with `N caught, N missed`; anything missed is a failure.
 *
 * With words behind it only formulas whose name or file has one of them. One process reads the code once: for each formula
 * only its own file is read again, wrong, on its way into the tests (no file is touched). What failed last runs first, the first
 * failure ends a formula's run, and only what passed every published check is missed.
 */
import { readFileSync } from 'node:fs'
import { createVitest } from 'vitest/node'
import { inRepo } from '../../server/setup/places.mjs'
import { FORMULAS } from './formulas.mjs'

/** @type {import('./formulas.mjs').Formula | undefined} */
let wrong

/** @type {import('vite').Plugin} */
const oneFormulaWrong = {
  name: 'one-formula-wrong',
  enforce: 'pre',
  transform: (code, id) =>
    wrong && id.endsWith(`/${wrong.file}`) ? code.replace(wrong.find, () => wrong?.replace ?? '') : undefined,
}

/** @param {readonly string[]} words */
export async function mutate(words) {
  for (const { name, file, find } of FORMULAS) {
    const times = readFileSync(inRepo(file), 'utf8').split(find).length - 1
    if (times !== 1)
      throw new Error(`${name}: ${JSON.stringify(find)} stands ${times} times in ${file}; it must once.`)
  }
  const chosen = FORMULAS.filter(
    ({ name, file }) => words.length === 0 || words.some((word) => `${file} ${name}`.includes(word)),
  )
  const vitest = await createVitest(
    'test',
    {
      root: inRepo('.'),
      config: false,
      watch: false,
      include: ['tests/published/**/*.test.ts'],
      bail: 1,
      pool: 'threads',
      maxWorkers: 2,
      reporters: [{}],
    },
    { plugins: [oneFormulaWrong] },
  )
  try {
    await vitest.standalone()
    const published = await vitest.globTestSpecifications()
    const passes = async () => {
      const { testModules, unhandledErrors } = await vitest.runTestSpecifications(published, true)
      return unhandledErrors.length === 0 && testModules.every((module) => module.ok())
    }
    if (published.length === 0 || !(await passes()))
      throw new Error('The published checks fail with nothing wrong. Run npm test first.')
    let missed = 0
    for (const formula of chosen) {
      wrong = formula
      vitest.invalidateFile(inRepo(formula.file))
      if (await passes()) {
        missed += 1
        process.stdout.write(
          `missed: ${formula.name} (${formula.file}): ${formula.find.trim()} → ${formula.replace.trim()}\n`,
        )
      }
      wrong = undefined
      vitest.invalidateFile(inRepo(formula.file))
    }
    process.stdout.write(`${chosen.length - missed} caught, ${missed} missed\n`)
    return missed === 0 && chosen.length > 0 ? 0 : 1
  } finally {
    await vitest.close()
  }
}

// The checks that failed as they should have set it as well.
process.exitCode = await mutate(process.argv.slice(2))
