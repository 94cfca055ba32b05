/** The published checks alone, with one formula made wrong on its way into the test run; no file is touched. */
import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'
import { FORMULAS } from './formulas.mjs'

const formula = FORMULAS[Number(process.env.MUTATED)]

export default defineConfig({
  root: fileURLToPath(new URL('../..', import.meta.url)),
  plugins: [
    {
      name: 'one-formula-wrong',
      enforce: 'pre',
      transform: (code, id) =>
        formula && id.endsWith(`/${formula.file}`)
          ? code.replace(formula.find, () => formula.replace)
          : undefined,
    },
  ],
  test: { include: ['tests/published/**/*.test.ts'], bail: 1, pool: 'threads', maxWorkers: 2 },
})
