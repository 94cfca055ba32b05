/**
 * Builds with Vite what is stale: the pages (`dist/web`), the server (`dist/server`), the bench
 * (`dist/bench`). Each has its own stamp in `dist/.stamps`.
 */
import { existsSync, mkdirSync } from 'node:fs'
import { run } from './child.mjs'
import { makeIfStale } from './freshness.mjs'
import { entriesOf, inRepo, repo } from './places.mjs'
import { Stop, say } from './say.mjs'

const common = ['shared', 'server/setup', 'package.json', 'package-lock.json', 'tsconfig.json']

const builds = {
  web: {
    what: 'the pages',
    config: 'web/vite.config.ts',
    sources: ['web', ...common],
    there: () => existsSync(inRepo('web/index.html')),
  },
  server: {
    what: 'the server',
    config: 'server/vite.config.ts',
    sources: ['server', 'seed', 'drizzle', ...common],
    there: () => Object.keys(entriesOf('server')).length > 0,
  },
  bench: {
    what: 'the bench',
    config: 'server/vite.config.ts',
    sources: ['tests', 'server', 'seed', 'drizzle', ...common],
    there: () => Object.keys(entriesOf('bench')).length > 0,
  },
  sim: {
    what: 'the simulation',
    config: 'tests/sim/vite.config.ts',
    sources: ['tests/sim', 'tests/shop', 'tests/web/live', 'server', 'web', 'drizzle', ...common],
    there: () => Object.keys(entriesOf('sim')).length > 0,
  },
}

/** @param {...keyof typeof builds} names */
export async function ensureBuilt(...names) {
  for (const name of names) {
    const { what, config, sources, there } = builds[name]
    if (!there()) {
      say(`There is nothing to build for ${what} yet.`)
      continue
    }
    const outFolder = `dist/${name}`
    await makeIfStale(
      { root: repo, stampFile: inRepo(`dist/.stamps/${name}.json`), sources, outFolder },
      async () => {
        say(`Building ${what}.`)
        mkdirSync(inRepo('dist'), { recursive: true })
        const args = [
          'build',
          '--config',
          config,
          '--mode',
          name === 'bench' ? 'bench' : 'production',
          '--logLevel',
          'warn',
        ]
        const code = await run(inRepo('node_modules/.bin/vite'), args)
        if (code !== 0) throw new Stop(`Building ${what} failed; the lines above say where.`)
      },
    )
  }
}
