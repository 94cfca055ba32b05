/**
 * Checks the data folder while the shop is open, as `npm run verify` does: in a program of its own, of the lowest priority,
 * so that commands wait for nothing. It reads only; the server writes on meanwhile.
 */
import { spawn } from 'node:child_process'
import { constants, setPriority } from 'node:os'
import { join } from 'node:path'
import type { Log } from '../desk'
import { repoFolder } from '../repo-folder'
import type { Report } from './report'

/** What it holds at most in memory, in MB: one engine at a time. */
const HEAP_MB = 200

export interface BackgroundCheck {
  /** Ends it if it still runs. */
  close(): void
}

export function checkInBackground(parts: {
  dataFolder: string
  log: Log
  done: (report: Report) => void
  entry?: string
}): BackgroundCheck {
  const { dataFolder, log, done, entry = join(repoFolder(), 'dist', 'server', 'verify.js') } = parts
  const child = spawn(process.execPath, [`--max-old-space-size=${HEAP_MB}`, entry, '--json'], {
    env: { ...process.env, DATA_DIR: dataFolder },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  let closed = false
  let stdout = ''
  let stderr = ''
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    stdout += text
  })
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    stderr = (stderr + text).slice(-2000)
  })
  child.once('spawn', () => lower(child.pid))
  child.once('error', (err) => log.error({ err }, 'The check of the data folder could not be started.'))
  child.once('close', () => {
    if (closed) return
    const report = reportIn(stdout)
    if (report) done(report)
    else log.error({ stderr }, 'The check of the data folder broke off. Run "npm run verify".')
  })
  return {
    close() {
      closed = true
      child.kill()
    },
  }
}

/** Where the system lets it; without, it takes its share like any other. */
function lower(pid: number | undefined) {
  try {
    if (pid !== undefined) setPriority(pid, constants.priority.PRIORITY_LOW)
  } catch {
    // Not allowed here, or over already.
  }
}

function reportIn(text: string): Report | undefined {
  try {
    return JSON.parse(text) as Report
  } catch {
    return undefined
  }
}
