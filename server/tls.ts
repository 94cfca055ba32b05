/**
 * The shop's own certificate, made at the first start beyond loopback: an authority that tablets trust once,
 * and a server certificate under it that is renewed when the addresses change or it nears its end.
 *
 * Browsers give a page without TLS neither a service worker nor their crypto, so there is no plain HTTP
 * beyond this machine unless a proxy in front is named on purpose.
 */
import { X509Certificate } from 'node:crypto'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { hostname, networkInterfaces } from 'node:os'
import { join } from 'node:path'
import { generate } from 'selfsigned'
import { makeFolder } from './folder'

const DAY_MS = 86_400_000
const AUTHORITY_DAYS = 3650
/** Tablets refuse longer ones, also from an authority they were told to trust. */
const SERVER_DAYS = 397
const RENEW_DAYS = 30

export interface ShopCertificate {
  key: string
  /** The server's certificate. */
  cert: string
  /** What tablets trust. */
  authority: string
  /** SHA-256 of the authority, as a tablet shows it. */
  fingerprint: string
}

export async function shopCertificate(
  dataFolder: string,
  host: string,
  now: number,
): Promise<ShopCertificate> {
  const folder = join(dataFolder, 'tls')
  makeFolder(folder)
  const file = (name: string) => join(folder, name)
  const read = (name: string) => readFileSync(file(name), 'utf8')
  const write = (name: string, text: string) => writeFileSync(file(name), text, { mode: 0o600 })

  if (!existsSync(file('authority.key'))) {
    const pair = await generate([{ name: 'commonName', value: 'Paintmark, this shop' }], {
      keyType: 'ec',
      algorithm: 'sha256',
      notBeforeDate: new Date(now - DAY_MS),
      notAfterDate: new Date(now + AUTHORITY_DAYS * DAY_MS),
      extensions: [
        { name: 'basicConstraints', cA: true, pathLenConstraint: 0, critical: true },
        { name: 'keyUsage', keyCertSign: true, cRLSign: true, critical: true },
      ],
    })
    write('authority.crt', pair.cert)
    write('authority.key', pair.private)
  }
  const names = namesOf(host)
  if (!existsSync(file('server.crt')) || !stillGood(read('server.crt'), names, now)) {
    const pair = await generate([{ name: 'commonName', value: hostname() }], {
      keyType: 'ec',
      algorithm: 'sha256',
      notBeforeDate: new Date(now - DAY_MS),
      notAfterDate: new Date(now + SERVER_DAYS * DAY_MS),
      ca: { key: read('authority.key'), cert: read('authority.crt') },
      extensions: [
        { name: 'basicConstraints', cA: false, critical: true },
        { name: 'keyUsage', digitalSignature: true, critical: true },
        { name: 'extKeyUsage', serverAuth: true },
        {
          name: 'subjectAltName',
          altNames: names.map((name) => (isIp(name) ? { type: 7, ip: name } : { type: 2, value: name })),
        },
      ],
    })
    write('server.key', pair.private)
    write('server.crt', pair.cert)
  }
  const authority = read('authority.crt')
  return {
    key: read('server.key'),
    cert: read('server.crt'),
    authority,
    fingerprint: new X509Certificate(authority).fingerprint256,
  }
}

const isIp = (name: string) => name.includes(':') || /^\d+(\.\d+){3}$/.test(name)

function namesOf(host: string): string[] {
  const addresses = Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .filter(({ address }) => !address.startsWith('fe80'))
    .map(({ address }) => address)
  const own = host === '0.0.0.0' || host === '::' ? [] : [host]
  return [...new Set([...own, hostname(), `${hostname()}.local`, 'localhost', ...addresses])].sort()
}

function stillGood(pem: string, names: string[], now: number): boolean {
  const certificate = new X509Certificate(pem)
  const covers = (name: string) =>
    isIp(name) ? certificate.checkIP(name) !== undefined : certificate.checkHost(name) !== undefined
  return Date.parse(certificate.validTo) - now > RENEW_DAYS * DAY_MS && names.every(covers)
}
