/**
 * What every npm script calls: `node server/setup/run.mjs <command> [arguments]`.
 *
 * Does first, and only, what is missing or stale (npm packages, builds, a browser for the tests),
 * saying each in a sentence on stderr, then the command itself. Needs no package of its own.
 */
import { existsSync } from 'node:fs'
import { pathToFileURL } from 'node:url'
import { ensureBrowser } from './browser.mjs'
import { ensureBuilt } from './build.mjs'
import { run } from './child.mjs'
import { COMMANDS, helpOnAll, onlyAsked } from './commands.mjs'
import { ensurePackages } from './install.mjs'
import { nodeTooOld } from './node-version.mjs'
import { inRepo } from './places.mjs'
import { Stop, say } from './say.mjs'
import { check, test } from './testing.mjs'

const [command = '', ...args] = process.argv.slice(2)

/** @type {Record<string, () => Promise<void>>} */
const commands = {
  demo: () => buildAndBecome('dist/server/demo.js', 'web', 'server'),
  start: () => buildAndBecome('dist/server/main.js', 'web', 'server'),
  backup: () => buildAndBecome('dist/server/backup.js', 'server'),
  restore: () => buildAndBecome('dist/server/restore.js', 'server'),
  pin: () => buildAndBecome('dist/server/pin.js', 'server'),
  rebuild: () => buildAndBecome('dist/server/rebuild.js', 'server'),
  verify: () => buildAndBecome('dist/server/verify.js', 'server'),
  bench: () => buildAndBecome('dist/bench/main.js', 'web', 'server', 'bench'),
  crowd: () => buildAndBecome('dist/bench/crowd.js', 'web', 'server', 'bench'),
  'keep-shop': () => buildAndBecome('dist/bench/keep-shop.js', 'server', 'bench'),
  sim: async () => {
    if (args.includes('--kill')) return buildAndBecome('dist/bench/kill.js', 'web', 'server', 'bench')
    if (!args.includes('--mutate')) return buildAndBecome('dist/sim/main.js', 'sim')
    await ensurePackages()
    process.exitCode = await run(
      process.execPath,
      [inRepo('tests/sim/mutate.mjs'), ...args.filter((word) => word !== '--mutate')],
      { stdout: true },
    )
  },
  pictures: async () => {
    await ensurePackages()
    process.env.CHROMIUM_PATH = await ensureBrowser()
    await buildAndBecome('dist/bench/pictures.js', 'web', 'server', 'bench')
  },
  check: async () => {
    await ensurePackages()
    process.exitCode = (await check()) === 0 ? 0 : 1
  },
  mutate: async () => {
    await ensurePackages()
    process.exitCode = await run(process.execPath, [inRepo('tests/mutate/run.mjs'), ...args], {
      stdout: true,
    })
  },
  test: async () => {
    process.exitCode = await test(args)
  },
}

/**
 * The built program runs in this very process: signals, streams, environment and exit code are its
 * own, with nothing in between that could lose them.
 * @param {string} entry
 * @param {Parameters<typeof ensureBuilt>} builds
 */
async function buildAndBecome(entry, ...builds) {
  await ensurePackages()
  await ensureBuilt(...builds)
  const file = inRepo(entry)
  if (!existsSync(file))
    throw new Stop(`${entry} was not built: its source is missing (see server/setup/entries.json).`)
  process.setSourceMapsEnabled(true)
  process.argv = [process.execPath, file, ...args]
  await import(pathToFileURL(file).href)
}

try {
  if (['--help', '-h'].includes(command)) {
    process.stdout.write(helpOnAll())
    process.exit(0)
  }
  const asked = Object.hasOwn(COMMANDS, command) ? onlyAsked(command, args) : undefined
  if (asked !== undefined) {
    process.stdout.write(asked)
    process.exit(0)
  }
  const tooOld = nodeTooOld(process.versions.node)
  if (tooOld) throw new Stop(tooOld)
  const wanted = Object.hasOwn(commands, command) ? commands[command] : undefined
  if (!wanted) throw new Stop(`Say what to do: ${Object.keys(commands).join(', ')}.`, 2)
  await wanted()
} catch (cause) {
  if (!(cause instanceof Stop)) throw cause
  say(cause.message)
  process.exitCode = cause.exitCode
}
