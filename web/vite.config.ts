/**
 * Builds the pages into `dist/web`. File names carry a hash of their content, so that the server may
 * let browsers keep them for good; the manifest says which page needs which. Compression is the
 * server's work.
 */
import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vite'
import solid from 'vite-plugin-solid'
import { chunks } from './chunks'
import { EARLY, earlyFiles } from './early/early-files'
import { shippedFonts } from './styles/shipped-fonts'
import { buildWorker, WORKER } from './worker/build-worker'

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url))

export default defineConfig({
  root: here('.'),
  plugins: [solid(), shippedFonts(), earlyFiles(), buildWorker()],
  build: {
    outDir: here('../dist/web'),
    emptyOutDir: true,
    target: 'es2022',
    manifest: true,
    // Small drawings may ride along; a font always stays a file of its own, to be kept and preloaded.
    assetsInlineLimit: (file, content) => !/\.woff2?$/.test(file) && content.length < 2048,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
    rolldownOptions: {
      input: {
        main: here('index.html'),
        [EARLY]: here('early/early.ts'),
        [WORKER]: here('worker/worker.ts'),
      },
      output: {
        // A browser asks for the worker by one name for good: what it was built from is inside.
        entryFileNames: ({ name }) => (name === WORKER ? '[name].js' : 'assets/[name]-[hash].js'),
        codeSplitting: { groups: chunks() },
      },
    },
  },
})
