/** What the environment may set, and what is refused with a sentence. */

import { X509Certificate } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { makeFolder } from '../../server/folder'
import { Refused, readSettings } from '../../server/settings'
import { shopCertificate } from '../../server/tls'

const defaults = { port: 4747, dataFolder: 'data' }
const read = (env: Record<string, string>) => readSettings(env, defaults)

test('without an environment: loopback, plain HTTP, the default port and folder', () => {
  expect(read({})).toMatchObject({
    port: 4747,
    host: '127.0.0.1',
    dataFolder: 'data',
    tls: false,
    behindProxy: false,
  })
})

test('beyond loopback it is TLS, unless a proxy is named on purpose', () => {
  for (const HOST of ['localhost', '127.0.0.1', '127.9.9.9', '::1'])
    expect([HOST, read({ HOST }).tls]).toEqual([HOST, false])
  for (const HOST of ['0.0.0.0', '::', '192.0.2.7', 'shop.example'])
    expect([HOST, read({ HOST }).tls]).toEqual([HOST, true])
  expect(read({ HOST: '0.0.0.0', BEHIND_PROXY: '1' })).toMatchObject({ tls: false, behindProxy: true })
})

test('what is wrong is refused, naming it', () => {
  const wrong: Record<string, string>[] = [
    { PORT: 'abc' },
    { PORT: '-1' },
    { PORT: '65536' },
    { PORT: '1e3' },
    { HOST: 'a b' },
    { BEHIND_PROXY: 'yes' },
    { LOG_LEVEL: 'loud' },
  ]
  for (const env of wrong) {
    const [[name, value] = []] = Object.entries(env)
    expect(() => read(env)).toThrow(Refused)
    expect(() => read(env)).toThrow(`${name} is "${value}"`)
  }
  expect(read({ PORT: '0' }).port).toBe(0)
})

test('a folder the system forbids is refused, and does not hang', () => {
  expect(() => makeFolder('/proc/paintmark/shop')).toThrow(/cannot be made/)
})

test('the shop’s certificate: an authority tablets can trust, a server under it, kept from start to start', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'paintmark-tls-'))
  try {
    const now = Date.now()
    const certificate = await shopCertificate(folder, '192.0.2.7', now)
    const server = new X509Certificate(certificate.cert)
    const authority = new X509Certificate(certificate.authority)
    expect([authority.ca, server.ca]).toEqual([true, false])
    expect(server.verify(authority.publicKey)).toBe(true)
    expect([server.checkIP('192.0.2.7'), server.checkIP('127.0.0.1'), server.checkHost('localhost')]).toEqual(
      ['192.0.2.7', '127.0.0.1', 'localhost'],
    )
    expect((await shopCertificate(folder, '192.0.2.7', now)).cert).toBe(certificate.cert)
    const moved = await shopCertificate(folder, '192.0.2.8', now)
    expect(moved.fingerprint).toBe(certificate.fingerprint)
    expect(new X509Certificate(moved.cert).checkIP('192.0.2.8')).toBe('192.0.2.8')
    expect((await shopCertificate(folder, '192.0.2.8', now + 380 * 86_400_000)).cert).not.toBe(moved.cert)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
})
