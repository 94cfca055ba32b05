/** A program as a process of its own: started, waited for until it says its address, measured, stopped. */
import { type ChildProcess, spawn } from 'node:child_process'
import { readFileSync } from 'node:fs'
import type { Ending } from './ending'

export interface Program {
  origin: string
  /** From the start to the line with the address. */
  startMs: number
  /** Resident memory now, in bytes. */
  memory(): number
  stop(): Promise<void>
}

const SAYS_ADDRESS = / runs at (https?:\/\/\S+)/

export async function startProgram(
  file: string,
  { env = {}, stdin }: { env?: Record<string, string>; stdin?: string },
  ending: Ending,
): Promise<Program> {
  const begun = performance.now()
  const child = spawn(process.execPath, [file], {
    stdio: ['pipe', 'pipe', 'ignore'],
    env: { ...process.env, ...env },
  })
  ending.add(() => stop(child))
  if (stdin !== undefined) child.stdin.write(`${stdin}\n`)
  const origin = await new Promise<string>((resolve, reject) => {
    let said = ''
    child.stdout.on('data', (part) => {
      said += part
      const found = SAYS_ADDRESS.exec(said)
      if (found?.[1]) resolve(found[1])
    })
    child.once('error', reject)
    child.once('exit', (code) => reject(new Error(`${file} ended with ${code} before it said its address.`)))
  })
  const startMs = performance.now() - begun
  return { origin, startMs, memory: () => memoryOf(child, 'VmRSS'), stop: () => stop(child) }
}

export interface Ran {
  seconds: number
  /** The most resident memory it held, in bytes. */
  peak: number
}

/** A program that does its work and ends. */
export async function runProgram(file: string, env: Record<string, string>, ending: Ending): Promise<Ran> {
  const begun = performance.now()
  const child = spawn(process.execPath, [file], { stdio: 'ignore', env: { ...process.env, ...env } })
  ending.add(() => stop(child))
  let peak = 0
  // The system keeps the peak as long as the process lives; looked at often, so that hardly anything comes after.
  const looking = setInterval(() => {
    if (child.exitCode === null) peak = Math.max(peak, memoryOf(child, 'VmHWM'))
  }, 20)
  const code = await new Promise((resolve, reject) => {
    child.once('error', reject)
    child.once('exit', resolve)
  }).finally(() => clearInterval(looking))
  if (code !== 0) throw new Error(`${file} ended with ${code}.`)
  return { seconds: (performance.now() - begun) / 1000, peak }
}

function stop(child: ChildProcess): Promise<void> {
  return new Promise((resolve) => {
    if (child.exitCode !== null || child.signalCode !== null) return resolve()
    child.once('exit', () => resolve())
    child.kill('SIGTERM')
    setTimeout(() => child.kill('SIGKILL'), 5000).unref()
  })
}

/** Resident memory now (`VmRSS`) or at most (`VmHWM`), in bytes. */
function memoryOf({ pid }: ChildProcess, name: 'VmRSS' | 'VmHWM'): number {
  const status = readFileSync(`/proc/${pid}/status`, 'utf8')
  const found = new RegExp(`^${name}:\\s+(\\d+) kB$`, 'm').exec(status)
  // A process that has just ended has no memory left to speak of.
  if (!found && !/^State:\s+Z/m.test(status))
    throw new Error('This system does not say how much memory a process holds.')
  return Number(found?.[1] ?? 0) * 1024
}
