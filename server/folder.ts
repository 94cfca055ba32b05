/** A folder and those above it. One by one: asked to do it at once, Node 20 never returns where the system forbids it. */
import { existsSync, mkdirSync } from 'node:fs'
import { dirname } from 'node:path'
import { Refused } from './settings'

export function makeFolder(path: string): void {
  if (existsSync(path)) return
  if (dirname(path) !== path) makeFolder(dirname(path))
  try {
    mkdirSync(path, { mode: 0o700 })
  } catch (error) {
    if ((error as { code?: string }).code === 'EEXIST') return
    throw new Refused(
      `The folder ${path} cannot be made: ${(error as Error).message}. Choose another with DATA_DIR, or make it yourself.`,
    )
  }
}
