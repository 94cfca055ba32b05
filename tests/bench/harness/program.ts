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
  return { origin, startMs, memory: () => residentBytes(child), stop: () => stop(child) }
}

function stop(child: ChildProcess): Promise<void> {
  return new Promise((resolve) => {
    if (child.exitCode !== null || child.signalCode !== null) return resolve()
    child.once('exit', () => resolve())
    child.kill('SIGTERM')
    setTimeout(() => child.kill('SIGKILL'), 5000).unref()
  })
}

function residentBytes({ pid }: ChildProcess): number {
  const status = readFileSync(`/proc/${pid}/status`, 'utf8')
  const found = /^VmRSS:\s+(\d+) kB$/m.exec(status)
  if (!found) throw new Error('This system does not say how much memory a process holds.')
  return Number(found[1]) * 1024
}
