/**
 * Builds the simulation into one file of `dist/sim`: our own code as it is, with the reactive build of solid-js, and three
 * packages replaced. The sockets are the simulated network; ids come from the seed, on the clock of whoever makes them; a
 * PIN costs no second of hashing.
 */

import { defineConfig } from 'vite'
import solid from 'vite-plugin-solid'
import { entriesOf, inRepo } from '../../server/setup/places.mjs'

const here = (file: string) => inRepo('tests/sim', file)
const reactive = (file: string) => inRepo('node_modules/solid-js', file)

export default defineConfig({
  root: inRepo(),
  publicDir: false,
  plugins: [solid({ hot: false, solid: { generate: 'dom', hydratable: false } })],
  resolve: {
    alias: [
      { find: /^socket\.io-client$/, replacement: here('sockets.ts') },
      { find: /^socket\.io$/, replacement: here('sockets.ts') },
      { find: /^uuid$/, replacement: here('ids.ts') },
      { find: /^@node-rs\/argon2$/, replacement: here('pin-hash.ts') },
      { find: /^solid-js$/, replacement: reactive('dist/solid.js') },
      { find: /^solid-js\/web$/, replacement: reactive('web/dist/web.js') },
      { find: /^solid-js\/store$/, replacement: reactive('store/dist/store.js') },
    ],
  },
  build: {
    ssr: true,
    target: 'node20',
    outDir: inRepo('dist/sim'),
    emptyOutDir: true,
    sourcemap: true,
    minify: false,
    // Pages load some of their code late; here it is there at once, so that a seed always gives the same run.
    rolldownOptions: {
      input: entriesOf('sim'),
      output: { entryFileNames: '[name].js', codeSplitting: false },
    },
  },
})
