/**
 * What each npm command takes, and what it says when it is asked for help. Read before anything is installed, built,
 * opened or made, so that asking costs nothing.
 */
import { readFileSync } from 'node:fs'
import { inRepo } from './places.mjs'
import { Stop } from './say.mjs'

/**
 * @typedef {object} Command
 * @property {string} does in one line
 * @property {string} [takes] what stands after it
 * @property {number} [most] how many words it takes that are no options; none unless told
 * @property {string[]} [options] those it knows; any where a program behind it has its own
 * @property {boolean} [anyOptions]
 * @property {string[]} [settings] from the environment
 * @property {string} [more]
 */

const FOLDER = 'DATA_DIR          the shop’s data folder (data/shop unless told)'
const SERVER = [
  'PORT              the port',
  'HOST              the address it answers at; beyond this machine it speaks TLS (127.0.0.1 unless told)',
  'BEHIND_PROXY=1    a proxy in front speaks TLS',
  'LOG_LEVEL         silent, error, warn, info or debug',
  'METRICS_TOKEN     lets whoever sends it read /metrics from another machine',
]
const PASSPHRASE =
  'BACKUP_PASSPHRASE, or BACKUP_PASSPHRASE_FILE   what a backup’s secrets are encrypted under'

/** @type {Record<string, Command>} */
export const COMMANDS = {
  start: {
    does: 'Serves your own shop.',
    settings: [
      FOLDER,
      ...SERVER,
      'BACKUP_DIR        a folder, best on another disk, in which a backup is made every hour',
      PASSPHRASE,
    ],
  },
  demo: {
    does: 'Fills an invented shop, serves it, and prints its address and everybody’s PIN.',
    settings: ['DATA_DIR          its folder, emptied each time (data/demo unless told)', ...SERVER],
  },
  backup: {
    does: 'Makes one dated folder with all of the shop in it, while people work.',
    takes: 'FOLDER',
    most: 1,
    settings: [FOLDER, PASSPHRASE],
    more: 'Without a passphrase pepper and keys are left out: after a restore PINs are set anew.',
  },
  restore: {
    does: 'Fills an empty data folder with one backup, after checking every file of it.',
    takes: 'ONE_BACKUP [--without-secrets]',
    most: 1,
    options: ['--without-secrets'],
    settings: [FOLDER, PASSPHRASE],
  },
  pin: {
    does: 'Sets somebody’s PIN, asked on the terminal, and signs them out everywhere.',
    takes: 'NAME [--all-anew]',
    most: 8,
    options: ['--all-anew'],
    settings: [FOLDER],
    more: '--all-anew forgets every PIN first: for when the pepper is lost.',
  },
  verify: {
    does: 'Checks the shop’s data, or one backup, for all that is damaged, missing or false. Reads only.',
    takes: '[ONE_BACKUP] [--json]',
    most: 1,
    options: ['--json'],
    settings: [FOLDER],
  },
  rebuild: {
    does: 'Makes the tables again that are derived from the log. No server may run meanwhile.',
    settings: [FOLDER],
  },
  check: { does: 'Checks types, lint and format.' },
  test: {
    does: 'Runs every check and test, or the tests that are named.',
    takes: '[PATH…] [options of vitest]',
    most: Number.POSITIVE_INFINITY,
    anyOptions: true,
  },
  bench: {
    does: 'Prints the speed figures, each beside a bare reference from the same run.',
    takes: '[FIGURE…] [--json] [--quick] [--history] [--spec FILE [-v]]',
    most: Number.POSITIVE_INFINITY,
    options: ['--json', '--quick', '--history', '--spec', '--verbose', '-v'],
  },
  mutate: {
    does: 'Makes every formula wrong by one per cent, one at a time; the published checks must notice.',
    takes: '[WORD…]',
    most: Number.POSITIVE_INFINITY,
  },
  sim: {
    does: 'Plays mornings on the floor from seeds, with faults; nothing entered may be lost, twice or somebody else’s.',
    takes:
      '[RUNS [--from=SEED] [--processes=COUNT] | --seed=SEED | --kept | --mutate [WORD…] | --kill KILLS [--from=SEED]]',
    most: Number.POSITIVE_INFINITY,
    options: ['--from', '--seed', '--kept', '--first', '--processes', '--mutate', '--kill'],
    more: '--kill starts the built server and kills it, at work, at a first run, a backup, a migration and a restore.',
  },
  crowd: { does: 'Serves the demonstration’s shop with a full yard.', takes: '[ENGINES]', most: 1 },
  'keep-shop': { does: 'Keeps a shop as this build writes it, in tests/fixtures.', takes: 'NAME', most: 1 },
  pictures: { does: 'Takes the pictures of the README again.' },
}

export const version = () => JSON.parse(readFileSync(inRepo('package.json'), 'utf8')).version

const called = (/** @type {string} */ name) =>
  name === 'start' || name === 'test' ? `npm ${name}` : `npm run ${name}`

/** @param {string} name */
function usage(name) {
  const { takes } = /** @type {Command} */ (COMMANDS[name])
  return `${called(name)}${takes ? ` -- ${takes}` : ''}`
}

/** @param {string} name */
export function helpOn(name) {
  const { does, settings = [], more } = /** @type {Command} */ (COMMANDS[name])
  return [
    usage(name),
    does,
    ...(more ? [more] : []),
    ...(settings.length > 0 ? ['', 'From the environment:', ...settings.map((line) => `  ${line}`)] : []),
    '',
  ].join('\n')
}

export const helpOnAll = () =>
  `${Object.keys(COMMANDS)
    .map((name) => `${usage(name)}\n    ${COMMANDS[name]?.does}`)
    .join('\n')}\n`

/**
 * What is only asked about, as text for stdout; nothing where the command is to be run. Stops at words it does not take.
 * @param {string} name
 * @param {readonly string[]} args
 * @returns {string | undefined}
 */
export function onlyAsked(name, args) {
  if (args.includes('--help') || args.includes('-h')) return helpOn(name)
  if (args.includes('--version')) return `Paintmark ${version()}\n`
  const { most = 0, options = [], anyOptions = false } = /** @type {Command} */ (COMMANDS[name])
  const isOption = (/** @type {string} */ arg) => arg.startsWith('-') && arg !== '-'
  const help = `"${called(name)} -- --help" says what it takes.`
  const unknown = args.find(
    (arg) => isOption(arg) && !anyOptions && !options.includes(arg.split('=')[0] ?? ''),
  )
  if (unknown) throw new Stop(`${called(name)} does not know ${unknown}. ${help}`, 2)
  const words = args.filter((arg) => !isOption(arg))
  const extra = words[most]
  if (extra !== undefined) throw new Stop(`${called(name)} does not take "${extra}". ${help}`, 2)
  return undefined
}
