/** This program's version, as `package.json` has it. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { repoFolder } from './repo-folder'

let version: string | undefined

export function programVersion(): string {
  version ??= (JSON.parse(readFileSync(join(repoFolder(), 'package.json'), 'utf8')) as { version: string })
    .version
  return version
}
