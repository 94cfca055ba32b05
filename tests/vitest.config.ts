/**
 * All tests run in Node, in three groups: `rooms` and `web` take what is there, `built` needs what the build
 * made (tests that drive a real Chromium or start the server as a process of its own).
 *
 * The Solid plugin gives tests of `web/` the reactive build of solid-js, not the one for server rendering. It
 * makes Node resolve packages as a browser would, so it is theirs alone: sockets have none there.
 */
import { fileURLToPath } from 'node:url'
import solid from 'vite-plugin-solid'
import { defineConfig } from 'vitest/config'

const needBuild = ['tests/{browser,process,sim}/**/*.test.{ts,tsx}']

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    environment: 'node',
    pool: 'forks',
    maxWorkers: 2,
    // Guards against what hangs, wide enough for a busy machine: no test asserts a time.
    testTimeout: 180_000,
    hookTimeout: 180_000,
    teardownTimeout: 20_000,
    projects: [
      {
        extends: true,
        test: {
          name: 'rooms',
          // Loaded once a process, not once a file: a third of the time went into loading the same rooms again.
          isolate: false,
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: [...needBuild, 'tests/web/**'],
        },
      },
      {
        extends: true,
        plugins: [solid({ hot: false })],
        test: {
          name: 'web',
          include: ['tests/web/**/*.test.{ts,tsx}'],
        },
      },
      {
        extends: true,
        test: {
          name: 'built',
          include: needBuild,
          globalSetup: ['tests/global-setup.ts'],
        },
      },
    ],
  },
})
