/** Has the build write `worker.js` beside the pages: with the list of what was built, and a name that changes with it. */
import { createHash } from 'node:crypto'
import type { Plugin } from 'vite'

export const WORKER = 'worker'

/** Beside what is built, in `public/`. */
const AS_THEY_ARE = ['/paintmark.svg', '/manifest.webmanifest']

export const buildWorker = (): Plugin => ({
  name: 'paintmark-worker',
  generateBundle: {
    order: 'post',
    handler(_, bundle) {
      const worker = bundle[`${WORKER}.js`]
      if (worker?.type !== 'chunk') throw new Error('The worker of the pages was not built.')
      const built = Object.keys(bundle).filter((name) => name !== worker.fileName && !name.startsWith('.'))
      const files = [...built.map((name) => `/${name}`), ...AS_THEY_ARE]
      const build = createHash('sha256').update(JSON.stringify(files)).digest('hex').slice(0, 12)
      worker.code = `const FILES=${JSON.stringify(files)},BUILD="${build}";${worker.code}`
    },
  },
})
