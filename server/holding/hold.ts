/**
 * One program at a time writes to a data folder. Whoever does holds a lock of the system's own, which goes with its
 * process however that ends, and says beside it who it is and where it can be asked (`talk.ts`).
 *
 * - `in-use` is the lock. It stays where it is: a lock file that is deleted can be held twice. No other code of this
 *   process may open it, since closing it there would let go of the lock.
 * - `in-use.json` says who holds it. What a killed program left there is not believed: only the lock counts.
 */
import { existsSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import Client from 'better-sqlite3'
import { fromDisk } from '../disk'
import { makeFolder } from '../folder'
import { Refused } from '../settings'
import { type Answers, ELSEWHERE, forgetElsewhere, listenForQuestions, type Questions } from './talk'

export const PROGRAMS = {
  server: 'The shop’s server',
  demonstration: 'A demonstration',
  rebuild: 'A rebuild',
  backup: 'A backup',
  restore: 'A restore',
  pin: 'Setting a PIN',
} as const
export type Program = keyof typeof PROGRAMS

export interface Holder {
  pid: number
  program: Program
  /** Where people reach it, once it listens. */
  address?: string
  /** Where other programs ask it: a path. */
  socket?: string
}

export interface Held {
  /** People reach it there from now on. */
  reachableAt(address: string): void
  /** Answers other programs from now on. */
  answer(answers: Answers): Promise<void>
  release(): void
}

const LOCK = 'in-use'
const HOLDER = 'in-use.json'
const SOCKET = 'in-use.sock'
/** Somebody who only looks holds it for a moment. */
const LOOKED_AT_MS = 500

/** Files of this room: a folder that holds no more than these is empty. */
export const isOfHolding = (name: string): boolean =>
  [LOCK, `${LOCK}-journal`, HOLDER, SOCKET, `${HOLDER}.new`].includes(name)

/** Takes the folder for this process, or is refused with who has it. `instead` is what to do then. */
export function takeFolder(folder: string, program: Program, instead: string): Held {
  makeFolder(folder)
  const lock = lockOf(folder, LOOKED_AT_MS)
  if (!lock) throw new Refused(heldSentence(folder, holderOf(folder), instead))
  const left = holderOf(folder)
  let holder: Holder = { pid: process.pid, program }
  let questions: Questions | undefined
  const say = (next: Holder) => {
    holder = next
    fromDisk(folder, () => {
      writeFileSync(join(folder, `${HOLDER}.new`), `${JSON.stringify(holder)}\n`, { mode: 0o600 })
      renameSync(join(folder, `${HOLDER}.new`), join(folder, HOLDER))
    })
  }
  function release() {
    process.off('exit', release)
    if (!lock?.open) return
    questions?.close()
    rmSync(join(folder, HOLDER), { force: true })
    lock.close()
  }
  try {
    forgetSocket(folder, left?.socket)
    say(holder)
  } catch (error) {
    lock.close()
    throw error
  }
  process.on('exit', release)
  return {
    reachableAt: (address) => say({ ...holder, address }),
    async answer(answers) {
      questions = await listenForQuestions(join(folder, SOCKET), answers)
      say({ ...holder, socket: questions.path })
    },
    release,
  }
}

/** Who holds the folder now; nothing where nobody does. Makes nothing. */
export function holderNow(folder: string): Partial<Holder> | undefined {
  if (!existsSync(join(folder, LOCK))) return undefined
  const lock = lockOf(folder, 0)
  lock?.close()
  return lock ? undefined : (holderOf(folder) ?? {})
}

/** Refused where somebody holds the folder; a look, which makes nothing. */
export function refuseHeld(folder: string, instead: string): void {
  const holder = holderNow(folder)
  if (holder) throw new Refused(heldSentence(folder, holder, instead))
}

export function heldSentence(folder: string, holder: Partial<Holder> | undefined, instead: string): string {
  const { pid, program, address } = holder ?? {}
  const who = program && Object.hasOwn(PROGRAMS, program) ? PROGRAMS[program] : 'Another program'
  const where = [pid === undefined ? '' : `process ${pid}`, address ?? ''].filter(Boolean).join(', ')
  return `${who}${where ? ` (${where})` : ''} runs on ${folder}. ${instead}`
}

/** Nothing when another process holds it. */
function lockOf(folder: string, waitMs: number): Client.Database | undefined {
  let lock: Client.Database | undefined
  try {
    return fromDisk(folder, () => {
      lock = new Client(join(folder, LOCK), { timeout: waitMs })
      lock.pragma('journal_mode = MEMORY')
      lock.pragma('locking_mode = EXCLUSIVE')
      lock.exec('begin exclusive')
      return lock
    })
  } catch (error) {
    lock?.close()
    if ((error as { code?: string }).code === 'SQLITE_BUSY') return undefined
    throw error
  }
}

function holderOf(folder: string): Holder | undefined {
  try {
    return JSON.parse(readFileSync(join(folder, HOLDER), 'utf8')) as Holder
  } catch {
    return undefined
  }
}

/** What a killed program left: its socket, and the folder that was made for it where the data folder's name is too long. */
function forgetSocket(folder: string, path: string | undefined) {
  rmSync(join(folder, SOCKET), { force: true })
  if (path && basename(path) === ELSEWHERE) forgetElsewhere(path)
}
