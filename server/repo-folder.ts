/**
 * Where the repository stands, for what is read from it at run time: migrations, pages, plan files.
 *
 * Found by walking up from the running module, so that it is the same from `server/`, from a built file
 * and from any part the bundler cuts off it, whatever the working directory is.
 */
import { existsSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

export function repoFolder(moduleUrl: string = import.meta.url): string {
  const start = dirname(fileURLToPath(moduleUrl))
  for (let folder = start; ; folder = dirname(folder)) {
    if (existsSync(join(folder, 'package.json')) && existsSync(join(folder, 'drizzle'))) return folder
    if (folder === dirname(folder)) {
      throw new Error(
        `No folder above ${start} holds package.json and drizzle/. Run Paintmark from its repository.`,
      )
    }
  }
}
