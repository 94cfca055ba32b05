/**
 * The shop's own certificate, made at the first start beyond loopback: an authority that tablets trust once, and a server
 * certificate under it that is renewed when the addresses change or it nears its end.
 *
 * The authority too is renewed: the next one is made half a year before it takes over, and `/trust` shows both meanwhile. One of
 * an older folder, which could speak for any name, works on for that half year.
 *
 * Browsers give a page without TLS neither a service worker nor their crypto, so there is no plain HTTP
 * beyond this machine unless a proxy in front is named on purpose.
 */
import { createPrivateKey, X509Certificate } from 'node:crypto'
import { existsSync, readFileSync, rmSync } from 'node:fs'
import { isIP } from 'node:net'
import { hostname, networkInterfaces } from 'node:os'
import { join } from 'node:path'
import type { Pair } from './certificates'
import { writeWhole } from './files'
import { makeFolder } from './folder'

const DAY_MS = 86_400_000
const AUTHORITY_DAYS = 5 * 365
/** So long before it takes over the next authority is there to be trusted. */
const AHEAD_DAYS = 180
/** Tablets refuse longer ones, also from an authority they were told to trust. */
const SERVER_DAYS = 397
const RENEW_DAYS = 30

/** What tablets trust, in PEM, with its SHA-256 as they show it. */
export interface Authority {
  authority: string
  fingerprint: string
}

export interface ShopCertificate extends Authority {
  key: string
  /** The server's certificate. */
  cert: string
  /** The authority that takes over, and when. */
  next?: Authority & { from: number }
}

export async function shopCertificate(
  dataFolder: string,
  host: string,
  now: number,
): Promise<ShopCertificate> {
  // Its libraries are loaded where they are needed.
  const { fingerprintOf, makeAuthority, makeServerCertificate, permittedBy } = await import('./certificates')
  const folder = join(dataFolder, 'tls')
  makeFolder(folder)
  const file = (name: string, kind: 'crt' | 'key') => join(folder, `${name}.${kind}`)
  const has = (name: string) => existsSync(file(name, 'crt')) && existsSync(file(name, 'key'))
  const read = (name: string): Pair => ({
    cert: readFileSync(file(name, 'crt'), 'utf8'),
    key: readFileSync(file(name, 'key'), 'utf8'),
  })
  const write = (name: string, { cert, key }: Pair) => {
    writeWhole(file(name, 'key'), key)
    writeWhole(file(name, 'crt'), cert)
  }
  const remove = (name: string) => {
    for (const kind of ['crt', 'key'] as const) rmSync(file(name, kind), { force: true })
  }
  const newAuthority = () => makeAuthority(own, now - DAY_MS, now + AUTHORITY_DAYS * DAY_MS)

  const own = ownNames(host)
  // Named on purpose: one that may not speak for it is of no use.
  const mustPermit = everywhere(host) ? [] : [host]
  if (!has('authority') || !mustPermit.every(permittedBy(read('authority').cert).permits)) {
    write('authority', await newAuthority())
    remove(NEXT)
  }
  if (has(NEXT)) {
    if (daysLeft(read('authority').cert, now) < RENEW_DAYS || takesOver(read(NEXT).cert) <= now) {
      write('authority', read(NEXT))
      remove(NEXT)
    }
  } else if (
    daysLeft(read('authority').cert, now) < RENEW_DAYS + AHEAD_DAYS ||
    !permittedBy(read('authority').cert).bound
  ) {
    const isOver = daysLeft(read('authority').cert, now) < RENEW_DAYS
    write(isOver ? 'authority' : NEXT, await newAuthority())
  }

  const authority = read('authority')
  const { permits } = permittedBy(authority.cert)
  const names = [...new Set([...own, `${hostname()}.local`, 'localhost', ...machineAddresses()])]
    .filter(permits)
    .sort()
  if (!has('server') || !stillGood(read('server'), authority.cert, names, now)) {
    const until = Math.min(
      now + SERVER_DAYS * DAY_MS,
      Date.parse(new X509Certificate(authority.cert).validTo),
    )
    write('server', await makeServerCertificate(authority, hostname(), names, now - DAY_MS, until))
  }
  const next = has(NEXT) ? read(NEXT).cert : undefined
  return {
    ...read('server'),
    authority: authority.cert,
    fingerprint: fingerprintOf(authority.cert),
    ...(next ? { next: { authority: next, fingerprint: fingerprintOf(next), from: takesOver(next) } } : {}),
  }
}

const NEXT = 'next-authority'

const daysLeft = (pem: string, now: number): number =>
  (Date.parse(new X509Certificate(pem).validTo) - now) / DAY_MS

const takesOver = (next: string): number =>
  Date.parse(new X509Certificate(next).validFrom) + (1 + AHEAD_DAYS) * DAY_MS

const everywhere = (host: string): boolean => host === '0.0.0.0' || host === '::'

/** What the authority is bound to beside the names and addresses that are any network's own. */
const ownNames = (host: string): string[] => [
  ...(everywhere(host) ? [] : [host]),
  hostname(),
  ...machineAddresses().filter((address) => isIP(address) === 4),
]

const machineAddresses = (): string[] =>
  Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .filter(({ address }) => !address.startsWith('fe80'))
    .map(({ address }) => address)

function stillGood({ cert, key }: Pair, authority: string, names: string[], now: number): boolean {
  const certificate = new X509Certificate(cert)
  const covers = (name: string) =>
    isIP(name) ? certificate.checkIP(name) !== undefined : certificate.checkHost(name) !== undefined
  return (
    daysLeft(cert, now) > Math.min(RENEW_DAYS, daysLeft(authority, now) - 1) &&
    certificate.checkPrivateKey(createPrivateKey(key)) &&
    certificate.verify(new X509Certificate(authority).publicKey) &&
    names.every(covers)
  )
}
