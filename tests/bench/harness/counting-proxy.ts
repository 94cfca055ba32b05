/** A plain TCP relay on loopback that counts what passes: bytes on the wire, frames and headers included. */
import { type AddressInfo, connect, createServer, type Socket } from 'node:net'
import type { Ending } from './ending'

export interface CountingProxy {
  origin: string
  /** Bytes from the server so far. */
  down(): number
}

export async function countingProxy(target: string, ending: Ending): Promise<CountingProxy> {
  const { hostname, port } = new URL(target)
  const open = new Set<Socket>()
  let bytes = 0
  const server = createServer((near) => {
    const far = connect(Number(port), hostname)
    for (const socket of [near, far]) {
      open.add(socket)
      socket.setNoDelay(true)
      socket.on('close', () => open.delete(socket))
      socket.on('error', () => {
        near.destroy()
        far.destroy()
      })
    }
    near.pipe(far)
    far.on('data', (part) => {
      bytes += part.length
    })
    far.pipe(near)
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  ending.add(() => {
    for (const socket of open) socket.destroy()
    server.close()
  })
  return { origin: `http://127.0.0.1:${(server.address() as AddressInfo).port}`, down: () => bytes }
}

/** What some work brought down through a relay of its own. */
export async function counted<T>(target: string, ending: Ending, work: (origin: string) => Promise<T>) {
  const proxy = await countingProxy(target, ending)
  const got = await work(proxy.origin)
  return { got, bytes: proxy.down() }
}
