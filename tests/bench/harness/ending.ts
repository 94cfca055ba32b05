/**
 * Everything the bench starts ends with it: child processes, sockets, temporary folders. Whoever opens
 * something puts its end here; ends run in reverse, also when a figure fails or time runs out.
 */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

export interface Ending {
  add(end: () => unknown): void
  /** A temporary folder, gone at the end. */
  folder(): string
  run(): Promise<void>
}

export function makeEnding(): Ending {
  const ends: (() => unknown)[] = []
  const add = (end: () => unknown) => void ends.push(end)
  return {
    add,
    folder() {
      const made = mkdtempSync(join(tmpdir(), 'paintmark-bench-'))
      add(() => rmSync(made, { recursive: true, force: true }))
      return made
    },
    async run() {
      for (let end = ends.pop(); end; end = ends.pop()) {
        try {
          await end()
        } catch (error) {
          process.stderr.write(`Ending failed: ${error instanceof Error ? error.message : error}\n`)
        }
      }
    },
  }
}

/** Rejects when the work takes longer; the caller then ends what was opened. */
export function within<T>(ms: number, what: string, work: Promise<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(
      () => reject(new Error(`${what} took longer than ${Math.round(ms / 1000)} s and was given up.`)),
      ms,
    )
    work.then(resolve, reject).finally(() => clearTimeout(timer))
  })
}
