/**
 * Where things stand in the repository, and the one list of what is built for Node.
 *
 * The entries themselves are in `entries.json`, so that Vite's configuration reads the same list.
 * An entry whose file does not exist is left out of the build.
 */
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

export const repo = fileURLToPath(new URL('../..', import.meta.url))

/** @param {...string} parts */
export const inRepo = (...parts) => join(repo, ...parts)

/** @typedef {'server' | 'bench' | 'sim'} NodeBuild */

/**
 * Entry name to source file, of those that exist.
 * @param {NodeBuild} build
 * @returns {Record<string, string>}
 */
export function entriesOf(build) {
  const all = JSON.parse(readFileSync(inRepo('server/setup/entries.json'), 'utf8'))
  return Object.fromEntries(Object.entries(all[build]).filter(([, file]) => existsSync(inRepo(file))))
}
