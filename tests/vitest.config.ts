/**
 * All tests run in Node, in two groups: `rooms` takes what is there, `built` needs what the build made
 * (tests that drive a real Chromium or start the server as a process of its own).
 *
 * The Solid plugin is here so that tests of `web/` get the reactive build of solid-js, not the one for
 * server rendering.
 */
import { fileURLToPath } from 'node:url'
import solid from 'vite-plugin-solid'
import { defineConfig } from 'vitest/config'

const needBuild = ['tests/{browser,process}/**/*.test.{ts,tsx}']

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  plugins: [solid({ hot: false })],
  test: {
    environment: 'node',
    pool: 'forks',
    maxWorkers: 2,
    teardownTimeout: 20_000,
    projects: [
      {
        extends: true,
        test: {
          name: 'rooms',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: needBuild,
          testTimeout: 30_000,
          hookTimeout: 30_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'built',
          include: needBuild,
          globalSetup: ['tests/global-setup.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
})
