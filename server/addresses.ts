/** Which addresses this machine answers to. */
import { networkInterfaces } from 'node:os'

export const isLoopback = (host: string): boolean =>
  host === 'localhost' || host === '::1' || /^127(\.\d{1,3}){3}$/.test(host)

/** Every address of this machine that tablets could use; without loopback. */
export function outsideAddresses(): string[] {
  return Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .filter(({ internal, address }) => !internal && !address.startsWith('fe80'))
    .map(({ address }) => address)
    .sort()
}

export function addressOf(scheme: 'http' | 'https', host: string, port: number): string {
  const everywhere = host === '0.0.0.0' || host === '::'
  const shown = everywhere ? (outsideAddresses()[0] ?? 'localhost') : host
  return `${scheme}://${shown.includes(':') ? `[${shown}]` : shown}:${port}`
}
