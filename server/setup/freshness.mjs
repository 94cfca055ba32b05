/**
 * Is what was made earlier still good? Answers by content, never by clock.
 *
 * `fingerprint` hashes names and contents of the sources; a stamp keeps that hash and the files made
 * from it. A stamp is good only while the hash is the same and every file it names is still there.
 * Check-outs, copies and touched files therefore rebuild nothing; one changed byte does.
 */
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'

const leftOut = new Set(['node_modules', 'dist', '.git', '.DS_Store'])

/**
 * Every file at or under `path` (relative to `root`), sorted, with forward slashes. Missing paths give none.
 * @param {string} root
 * @param {string} path
 * @returns {string[]}
 */
export function filesUnder(root, path) {
  const full = join(root, path)
  if (!existsSync(full)) return []
  if (!statSync(full).isDirectory()) return [path]
  return readdirSync(full, { withFileTypes: true })
    .filter((entry) => !leftOut.has(entry.name))
    .flatMap((entry) => {
      const child = path === '.' ? entry.name : `${path}/${entry.name}`
      if (entry.isDirectory()) return filesUnder(root, child)
      return entry.isFile() ? [child] : []
    })
    .sort()
}

/**
 * One hash over the names and contents of all sources.
 * @param {string} root
 * @param {readonly string[]} sources files and folders, relative to `root`
 */
export function fingerprint(root, sources) {
  const all = createHash('sha256')
  for (const file of [...new Set(sources.flatMap((source) => filesUnder(root, source)))].sort()) {
    const content = createHash('sha256')
      .update(readFileSync(join(root, file)))
      .digest('hex')
    all.update(`${file}\0${content}\n`)
  }
  return all.digest('hex')
}

/** @typedef {{ sources: string, made: string[] }} Stamp */

/**
 * A stamp that cannot be read is no stamp: the work is done again.
 * @param {string} stampFile
 * @returns {Stamp | undefined}
 */
export function readStamp(stampFile) {
  try {
    const stamp = JSON.parse(readFileSync(stampFile, 'utf8'))
    return typeof stamp.sources === 'string' && Array.isArray(stamp.made) ? stamp : undefined
  } catch {
    return undefined
  }
}

/**
 * @param {string} stampFile
 * @param {Stamp} stamp
 */
export function writeStamp(stampFile, stamp) {
  mkdirSync(dirname(stampFile), { recursive: true })
  writeFileSync(stampFile, `${JSON.stringify(stamp, undefined, 2)}\n`)
}

/**
 * @param {string} root
 * @param {string} stampFile
 * @param {string} sources the fingerprint as of now
 */
export function isFresh(root, stampFile, sources) {
  const stamp = readStamp(stampFile)
  if (!stamp || stamp.sources !== sources) return false
  return stamp.made.every((file) => existsSync(join(root, file)))
}

/**
 * Runs `make` unless what it made before is still good; says which by its answer.
 * The stamp goes first and comes back last, so that an interrupted run counts as not done; the
 * hash is of before, so that a source edited meanwhile counts as changed.
 *
 * @param {{ root: string, stampFile: string, sources: readonly string[], outFolder: string }} what
 * @param {() => Promise<void> | void} make
 * @returns {Promise<'made' | 'fresh'>}
 */
export async function makeIfStale({ root, stampFile, sources, outFolder }, make) {
  const before = fingerprint(root, sources)
  if (isFresh(root, stampFile, before)) return 'fresh'
  rmSync(stampFile, { force: true })
  await make()
  writeStamp(stampFile, { sources: before, made: filesMade(root, outFolder) })
  return 'made'
}

/**
 * Output folders often lie in `dist`, which the walk leaves out only below its starting point.
 * @param {string} root
 * @param {string} outFolder
 */
function filesMade(root, outFolder) {
  const files = filesUnder(root, outFolder)
  if (files.length === 0) throw new Error(`Nothing was written to ${outFolder}.`)
  return files
}
