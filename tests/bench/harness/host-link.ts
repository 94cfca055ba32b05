/** Starts the server process of the bench and calls into it. One call at a time is all the bench needs. */
import { fork } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import type { HostCalls } from '../host/calls'
import type { Ending } from './ending'

export type HostLink = {
  [Name in keyof HostCalls]: (
    ...args: Parameters<HostCalls[Name]>
  ) => Promise<Awaited<ReturnType<HostCalls[Name]>>>
}

interface Reply {
  id: number
  result?: unknown
  error?: string
}

export function startHost(ending: Ending): HostLink {
  const child = fork(new URL('./host.js', entryUrl()), [], { stdio: ['ignore', 'inherit', 'inherit', 'ipc'] })
  const waiting = new Map<number, { resolve(value: unknown): void; reject(error: Error): void }>()
  let last = 0
  child.on('message', ({ id, result, error }: Reply) => {
    const call = waiting.get(id)
    waiting.delete(id)
    if (error === undefined) call?.resolve(result)
    else call?.reject(new Error(error))
  })
  const gone = (why: string) => {
    for (const { reject } of waiting.values()) reject(new Error(why))
    waiting.clear()
  }
  child.on('exit', (code, signal) => gone(`The server process ended early (${signal ?? code}).`))
  ending.add(
    () =>
      new Promise<void>((resolve) => {
        if (child.exitCode !== null || child.signalCode !== null) return resolve()
        child.once('exit', () => resolve())
        child.disconnect()
        setTimeout(() => child.kill('SIGKILL'), 3000).unref()
      }),
  )
  const call = (name: string, args: unknown[]) =>
    new Promise((resolve, reject) => {
      if (!child.connected) return reject(new Error('The server process is not there.'))
      last += 1
      waiting.set(last, { resolve, reject })
      child.send({ id: last, name, args })
    })
  return new Proxy({} as HostLink, {
    // Not a promise itself: `await host` must give the host.
    get: (_, name) => (name === 'then' ? undefined : (...args: unknown[]) => call(String(name), args)),
  })
}

/** The folder of the built entries; this module may lie in a part the bundler cut off. */
export const entryUrl = (): URL => new URL(`file://${process.argv[1] ?? fileURLToPath(import.meta.url)}`)
