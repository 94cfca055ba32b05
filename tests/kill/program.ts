/** The built programs on a data folder, each started to be killed; and what is asked of a server over HTTP. */
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { inRepo, type Program, runProgram, startProgram } from '../process/program'

export const PASSPHRASE = 'four plain words here'

type Name = 'main' | 'backup' | 'restore' | 'verify'
const built = (name: Name) => inRepo('dist', 'server', `${name}.js`)
const settings = (dataFolder: string) => ({
  PORT: '0',
  DATA_DIR: dataFolder,
  LOG_LEVEL: 'error',
  BACKUP_PASSPHRASE: PASSPHRASE,
})

export const begin = (name: Name, dataFolder: string, ...args: string[]): Program =>
  startProgram([built(name), ...args], settings(dataFolder))
export const runToEnd = (name: Name, dataFolder: string, ...args: string[]) =>
  runProgram([built(name), ...args], settings(dataFolder))

export async function killed(program: Program): Promise<void> {
  program.child.kill('SIGKILL')
  await program.ended
}

export const addressOf = async (program: Program): Promise<string> =>
  (await program.says(/^Paintmark runs at (\S+)$/m))[1] as string

export const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms))

/** Ends of all streams, as they lie in a folder nobody writes to. */
export function headsIn(dataFolder: string): { stream: string; version: number; hash: string }[] {
  const db = new Database(join(dataFolder, 'paintmark.db'), { readonly: true })
  try {
    return db.prepare('select stream, version, hash from stream_head order by stream').all() as never
  } finally {
    db.close()
  }
}

/** What `npm run verify` says against a folder; nothing where it finds nothing. */
export async function faultsOf(dataFolder: string, backup?: string): Promise<string[]> {
  const { code, stdout, stderr } = await runToEnd('verify', dataFolder, ...(backup ? [backup] : []))
  return code === 0 && /^OK: /m.test(stdout) ? [] : [`verify ended with ${code}:\n${stdout}${stderr}`]
}

/** A browser's cookie jar and its requests. */
export function browserAt(address: () => string) {
  let cookie = ''
  return {
    cookie: () => cookie,
    async ask<T>(path: string, body?: object): Promise<{ status: number; json: T }> {
      const at = address()
      const response = await fetch(`${at}${path}`, {
        method: body ? 'POST' : 'GET',
        headers: { origin: at, ...(cookie ? { cookie } : {}) },
        ...(body ? { body: JSON.stringify(body) } : {}),
      })
      cookie = response.headers.get('set-cookie')?.split(';')[0] ?? cookie
      return { status: response.status, json: (await response.json()) as T }
    },
    async must<T>(path: string, body?: object): Promise<T> {
      const { status, json } = await this.ask<T & { sentence?: string }>(path, body)
      if (status >= 300) throw new Error(`${path}: ${status} ${json.sentence}`)
      return json
    },
  }
}
export type Browser = ReturnType<typeof browserAt>
