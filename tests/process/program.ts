/**
 * A built program of Paintmark as a process of its own, on a data folder of its own.
 *
 * Every process started here is ended here, by its own id, at the latest by `stop`; nothing of it outlives a test.
 */
import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

const REPO = fileURLToPath(new URL('../..', import.meta.url))
/** As long as a program may take to say where it runs, on a machine that is busy. */
const READY_MS = 60_000
const END_MS = 20_000

export const inRepo = (...parts: string[]): string => join(REPO, ...parts)

export interface Ended {
  code: number | null
  signal: NodeJS.Signals | null
  stdout: string
  stderr: string
}

export interface Program {
  child: ChildProcess
  stdout(): string
  stderr(): string
  /** Waits until stdout holds a match. Rejects with all that was said when the program ends without it. */
  says(pattern: RegExp): Promise<RegExpMatchArray>
  ended: Promise<Ended>
  /** SIGTERM, and SIGKILL if that is not heard. */
  stop(): Promise<Ended>
}

type Environment = Record<string, string | undefined>

const SETTINGS = [
  'PORT',
  'HOST',
  'DATA_DIR',
  'BEHIND_PROXY',
  'LOG_LEVEL',
  'METRICS_TOKEN',
  'BACKUP_DIR',
  'BACKUP_PASSPHRASE',
  'BACKUP_PASSPHRASE_FILE',
]

/** `args` as node gets them; `input` is what is typed into it. The environment is ours without what a developer may have set for the server. */
export function startProgram(args: string[], env: Environment = {}, input?: string): Program {
  const rest = { ...process.env }
  for (const name of SETTINGS) delete rest[name]
  const child = spawn(process.execPath, args, {
    cwd: REPO,
    env: { ...rest, NODE_ENV: 'production', ...env },
    stdio: [input === undefined ? 'ignore' : 'pipe', 'pipe', 'pipe'],
  })
  child.stdin?.end(input)
  let stdout = ''
  let stderr = ''
  const listeners = new Set<() => void>()
  const heard = () => {
    for (const listener of listeners) listener()
  }
  child.stdout?.setEncoding('utf8').on('data', (text: string) => {
    stdout += text
    heard()
  })
  child.stderr?.setEncoding('utf8').on('data', (text: string) => {
    stderr += text
  })
  const ended = new Promise<Ended>((resolve, reject) => {
    child.once('error', reject)
    child.once('close', (code, signal) => {
      resolve({ code, signal, stdout, stderr })
      heard()
    })
  })
  const isOver = () => child.exitCode !== null || child.signalCode !== null
  return {
    child,
    stdout: () => stdout,
    stderr: () => stderr,
    says: (pattern) =>
      new Promise((resolve, reject) => {
        const fail = (why: string) => finish(() => reject(new Error(`${why}\n${stdout}\n${stderr}`)))
        const late = setTimeout(() => fail(`Nothing matched ${pattern} in ${READY_MS} ms.`), READY_MS)
        const look = () => {
          const match = stdout.match(pattern)
          if (match) finish(() => resolve(match))
          else if (isOver()) fail(`The program ended with ${child.exitCode ?? child.signalCode}.`)
        }
        function finish(how: () => void) {
          clearTimeout(late)
          listeners.delete(look)
          how()
        }
        listeners.add(look)
        look()
      }),
    ended,
    async stop() {
      if (!isOver()) child.kill('SIGTERM')
      const hard = setTimeout(() => child.kill('SIGKILL'), END_MS)
      const over = await ended
      clearTimeout(hard)
      return over
    },
  }
}

/** Runs a program to its end. */
export const runProgram = (args: string[], env: Environment = {}): Promise<Ended> => {
  const program = startProgram(args, env)
  const late = setTimeout(() => program.child.kill('SIGKILL'), READY_MS)
  return program.ended.finally(() => clearTimeout(late))
}

export interface DataFolder {
  path: string
  remove(): void
}

export function dataFolder(): DataFolder {
  const path = mkdtempSync(join(tmpdir(), 'paintmark-data-'))
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) }
}

export interface Person {
  id: string
  name: string
  pin: string
}

export interface Server {
  address: string
  /** The demonstration's; empty for a real shop. */
  people: Person[]
  folder: string
  program: Program
  /** What it printed for whoever opens the shop. */
  firstRunCode(): Promise<string>
  /** Ends it and removes its folder. */
  stop(): Promise<void>
}

/** What a server printed for whoever opens the shop. */
export const codeOf = async (program: Program): Promise<string> => {
  for (
    const end = Date.now() + READY_MS;
    Date.now() < end;
    await new Promise((next) => setTimeout(next, 20))
  ) {
    const [, code] = /to open one: ([\d ]+)$/m.exec(program.stderr()) ?? []
    if (code) return code
  }
  throw new Error(`No code was printed:\n${program.stderr()}`)
}

/** The built server on a free port of loopback: the demonstration's shop, or a real one without a shop yet. */
export async function startServer(what: 'demo' | 'main', env: Environment = {}): Promise<Server> {
  const folder = dataFolder()
  const program = startProgram([inRepo('dist', 'server', `${what}.js`)], {
    PORT: '0',
    DATA_DIR: folder.path,
    LOG_LEVEL: 'warn',
    ...env,
  })
  const stop = async () => {
    await program.stop()
    folder.remove()
  }
  try {
    const match =
      what === 'demo'
        ? (JSON.parse((await program.says(/^\{.*\}$/m))[0]) as { address: string; people: Person[] })
        : { address: (await program.says(/^Paintmark runs at (\S+)$/m))[1] as string, people: [] }
    return { ...match, folder: folder.path, program, firstRunCode: () => codeOf(program), stop }
  } catch (error) {
    await stop()
    throw error
  }
}
