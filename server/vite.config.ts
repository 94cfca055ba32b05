/**
 * Builds what runs in Node: the server's entries, or the bench with `--mode bench`.
 *
 * Only our own code is bundled; packages stay in node_modules and are loaded from there. The list of
 * entries is `setup/entries.json`.
 */
import { defineConfig } from 'vite'
import { entriesOf, inRepo } from './setup/places.mjs'

export default defineConfig(({ mode }) => {
  const build = mode === 'bench' ? 'bench' : 'server'
  return {
    root: inRepo(),
    publicDir: false,
    build: {
      ssr: true,
      target: 'node20',
      outDir: inRepo('dist', build),
      emptyOutDir: true,
      sourcemap: true,
      minify: false,
      rolldownOptions: {
        input: entriesOf(build),
        output: { entryFileNames: '[name].js', chunkFileNames: 'parts/[name]-[hash].js' },
      },
    },
  }
})
