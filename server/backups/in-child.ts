/** Takes a backup in a process of its own (`child.ts`, as it was built). */
import { fork } from 'node:child_process'
import { join } from 'node:path'
import { repoFolder } from '../repo-folder'
import { Refused } from '../settings'
import type { Taken, TakeParts } from './take'

type Ended = { taken: Taken } | { refused: boolean; message: string }

export function takeInChild(parts: TakeParts, givenUp: AbortSignal): Promise<Taken> {
  return new Promise((resolve, reject) => {
    const child = fork(join(repoFolder(), 'dist', 'server', 'backup-child.js'), [], {
      // Its standard output is not this program's, which others may read.
      stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
      execArgv: [],
    })
    let ended: Ended | undefined
    const stop = () => void child.kill()
    givenUp.addEventListener('abort', stop, { once: true })
    child.once('message', (message) => {
      ended = message as Ended
    })
    child.once('error', reject)
    child.once('close', (code, signal) => {
      givenUp.removeEventListener('abort', stop)
      if (ended && 'taken' in ended) resolve(ended.taken)
      else if (givenUp.aborted) reject(new Refused('The server was stopped, and the backup with it.'))
      else if (ended?.refused) reject(new Refused(ended.message))
      else reject(new Error(ended?.message ?? `The backup ended before it was done (${signal ?? code}).`))
    })
    child.send(parts)
  })
}
