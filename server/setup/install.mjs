/**
 * npm packages: installed when missing or other than package-lock.json asks, and proven to load.
 *
 * better-sqlite3 is native: npm may compile it with python3, make and g++, or hold its install script
 * back, or keep one built for another Node. So after every change it is opened once; if that fails it is
 * built from source. The stamp lies in node_modules and goes with it.
 */
import { createHash } from 'node:crypto'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { onPath, run, works } from './child.mjs'
import { aptInstall } from './debian.mjs'
import { inRepo } from './places.mjs'
import { Stop, say } from './say.mjs'

const tools = { python3: 'python3', make: 'make', 'g++': 'g++' }
const stampFile = inRepo('node_modules/.paintmark-installed.json')

/** @typedef {{ packages: Record<string, { version?: string, optional?: boolean }> }} Lock */

/**
 * Whether everything the lock asks for is there in that version. Optional packages are for other
 * machines as often as for this one, so they may be missing, but not differ.
 * @param {Lock} lock package-lock.json
 * @param {Lock} installed node_modules/.package-lock.json, npm's own note of what it installed
 */
export function installedMatchesLock(lock, installed) {
  return Object.entries(lock.packages).every(([path, wanted]) => {
    if (path === '') return true
    const present = installed.packages[path]
    return present ? present.version === wanted.version : wanted.optional === true
  })
}

export async function ensurePackages() {
  const lockText = readFileSync(inRepo('package-lock.json'), 'utf8')
  const stamp = JSON.stringify({
    lock: createHash('sha256').update(lockText).digest('hex'),
    abi: process.versions.modules,
    machine: `${process.platform}-${process.arch}`,
  })
  if (existsSync(stampFile) && readFileSync(stampFile, 'utf8') === stamp) return

  const note = inRepo('node_modules/.package-lock.json')
  const there = existsSync(note)
  if (!there || !installedMatchesLock(JSON.parse(lockText), JSON.parse(readFileSync(note, 'utf8')))) {
    say(
      there
        ? 'Installing the npm packages again, because package-lock.json asks for others.'
        : 'Installing the npm packages; the first time takes a minute or two.',
    )
    await npmCi()
  }
  await ensureSqliteLoads()
  writeFileSync(stampFile, stamp)
}

async function npmCi() {
  // Building needs the development packages too, also where NODE_ENV says production.
  const args = ['ci', '--include=dev', '--no-progress']
  let code = await npm(args)
  if (code !== 0 && (await installMissingTools())) code = await npm(args)
  if (code !== 0) throw new Stop(`The npm packages could not be installed. ${whatIsMissing()}`)
}

async function ensureSqliteLoads() {
  if (sqliteLoads()) return
  say('Building better-sqlite3 for this machine, because it does not load yet.')
  await installMissingTools()
  // The first way respects what npm is told about install scripts; the second asks the package itself.
  await npm(['rebuild', 'better-sqlite3'], { npm_config_build_from_source: 'true' })
  if (!sqliteLoads()) await npm(['run', 'build-release', '--prefix', 'node_modules/better-sqlite3'])
  if (!sqliteLoads()) throw new Stop(`better-sqlite3 does not load on this machine. ${whatIsMissing()}`)
}

function sqliteLoads() {
  const probe = "const D = require('better-sqlite3'); new D(':memory:').prepare('select 1').get()"
  return works(process.execPath, ['-e', probe])
}

/**
 * @param {readonly string[]} args
 * @param {NodeJS.ProcessEnv} [more]
 */
async function npm(args, more = {}) {
  if (!onPath('npm'))
    throw new Stop('npm is not on PATH. Install npm (it comes with Node) and run the command again.')
  return run('npm', args, { env: { ...process.env, ...headersOfThisNode(), ...more } })
}

/**
 * Node's headers when they lie beside this Node and are of its version: the compiler then need not
 * fetch them.
 */
function headersOfThisNode() {
  const setting = 'npm_package_config_node_gyp_nodedir'
  const prefix = dirname(dirname(process.execPath))
  const file = join(prefix, 'include/node/node_version.h')
  if (process.env[setting] || process.env.npm_config_nodedir || !existsSync(file)) return {}
  const header = readFileSync(file, 'utf8')
  const version = ['MAJOR', 'MINOR', 'PATCH'].map(
    (part) => header.match(new RegExp(`#define NODE_${part}_VERSION (\\d+)`))?.[1],
  )
  return version.join('.') === process.versions.node ? { [setting]: prefix } : {}
}

const missingTools = () => Object.entries(tools).flatMap(([tool, name]) => (onPath(tool) ? [] : [name]))

/** @returns {Promise<boolean>} whether tools were missing and are there now */
async function installMissingTools() {
  const missing = missingTools()
  return missing.length > 0 && (await aptInstall(missing))
}

function whatIsMissing() {
  const missing = missingTools()
  return missing.length > 0
    ? `Missing here: ${missing.join(', ')}. Install the Debian packages python3 make g++ and run the command again.`
    : 'python3, make and g++ are here; the lines above say what went wrong.'
}
