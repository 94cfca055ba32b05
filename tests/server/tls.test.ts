/** The shop's own certificate: what it may speak for, how it is renewed, and what is said to whoever comes without TLS. */
import { webcrypto, X509Certificate } from 'node:crypto'
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { request as plainRequest } from 'node:http'
import { Agent, request } from 'node:https'
import { type AddressInfo, connect as connectPlain } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { connect, createServer } from 'node:tls'
import * as x509 from '@peculiar/x509'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { makeServerCertificate, type Pair } from '../../server/certificates'
import { openDoor } from '../../server/serve'
import { shopCertificate } from '../../server/tls'
import { silent } from '../shop/silent'
import { makeHouse } from './house'

const DAY = 86_400_000
const NOW = Date.now()

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'paintmark-tls-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

const at = (days: number, host = '10.0.0.7') => shopCertificate(folder, host, NOW + days * DAY)
const inFolder = (name: string) => readFileSync(join(folder, 'tls', name), 'utf8')
const authorityHere = (): Pair => ({ cert: inFolder('authority.crt'), key: inFolder('authority.key') })

/** OpenSSL's words for a name outside an authority's constraints. */
const OUTSIDE = 'permitted subtree violation'

/** What a client that trusts `ca` says of a server that shows this certificate as `name`. */
async function trusts(ca: string, { cert, key }: Pair, name: string): Promise<true | string> {
  const server = createServer({ cert, key }, (socket) => socket.end())
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const { port } = server.address() as AddressInfo
  try {
    return await new Promise((resolve) => {
      const client = connect({ host: '127.0.0.1', port, ca, servername: name }, () => {
        client.end()
        resolve(true)
      })
      client.on('error', ({ message }) => resolve(message))
    })
  } finally {
    server.close()
  }
}

describe('the shop’s authority', () => {
  test('[BX13] tablets trust it, a server stands under it, and both stay from start to start', async () => {
    const first = await at(0)
    const [server, authority] = [first.cert, first.authority].map((pem) => new X509Certificate(pem))
    expect([authority?.ca, server?.ca]).toEqual([true, false])
    expect([
      server?.checkIP('10.0.0.7'),
      server?.checkIP('127.0.0.1'),
      server?.checkHost('localhost'),
    ]).toEqual(['10.0.0.7', '127.0.0.1', 'localhost'])
    expect(await trusts(first.authority, first, 'localhost')).toBe(true)
    expect(await at(1)).toEqual(first)
    const moved = await at(1, '10.0.0.8')
    expect(moved.fingerprint).toBe(first.fingerprint)
    expect(new X509Certificate(moved.cert).checkIP('10.0.0.8')).toBe('10.0.0.8')
    const later = await at(380, '10.0.0.8')
    expect([later.cert === moved.cert, later.fingerprint]).toEqual([false, first.fingerprint])
  })

  test('[BX13] speaks for the shop’s names and networks and for no other', async () => {
    const { authority } = await at(0, 'yard.example')
    const forged = (name: string) =>
      makeServerCertificate(authorityHere(), 'forged', [name], NOW - DAY, NOW + 30 * DAY)
    for (const name of ['yard.example', 'bench.local', 'localhost'])
      expect([name, await trusts(authority, await forged(name), name)]).toEqual([name, true])
    for (const name of ['bank.example', 'example', 'notlocal', 'yard.example.net'])
      expect([name, await trusts(authority, await forged(name), name)]).toEqual([name, OUTSIDE])
    const ofAddress = async (address: string) => {
      const pair = await forged(address)
      return trusts(authority, pair, 'localhost')
    }
    // An address that is permitted fails on the name asked for alone.
    expect(await ofAddress('192.168.1.20')).toMatch(/does not match certificate's altnames/)
    expect(await ofAddress('fd00::1')).toMatch(/does not match certificate's altnames/)
    expect(await ofAddress('198.51.100.1')).toBe(OUTSIDE)
    expect(await ofAddress('2001:db8::1')).toBe(OUTSIDE)
  })

  test('[BX13] one that may not speak for the address named in HOST gives way at once', async () => {
    const first = await at(0)
    const moved = await at(1, '198.51.100.7')
    expect(moved.fingerprint).not.toBe(first.fingerprint)
    expect(new X509Certificate(moved.cert).checkIP('198.51.100.7')).toBe('198.51.100.7')
    expect((await at(2, '198.51.100.7')).fingerprint).toBe(moved.fingerprint)
  })

  test('[BX13] is renewed: the next one is there half a year before it takes over', async () => {
    const first = await at(0)
    const ends = (Date.parse(new X509Certificate(first.authority).validTo) - NOW) / DAY
    expect((await at(ends - 211)).next).toBeUndefined()
    const announced = await at(ends - 209)
    expect(announced.fingerprint).toBe(first.fingerprint)
    const { fingerprint, from } = announced.next ?? {}
    expect((from ?? 0) / DAY).toBeCloseTo(NOW / DAY + ends - 209 + 180, 2)
    expect((await at(ends - 60)).next?.fingerprint).toBe(fingerprint)
    const over = await at(ends - 28)
    expect([over.fingerprint, over.next]).toEqual([fingerprint, undefined])
    expect(new X509Certificate(over.cert).verify(new X509Certificate(over.authority).publicKey)).toBe(true)
    expect(readdirSync(join(folder, 'tls')).sort()).toEqual([
      'authority.crt',
      'authority.key',
      'server.crt',
      'server.key',
    ])
    // The server's own certificate ends with its authority at the latest.
    expect(Date.parse(new X509Certificate(announced.cert).validTo)).toBeLessThanOrEqual(
      Date.parse(new X509Certificate(first.authority).validTo),
    )
  })

  test('[BX13] one that ended while nobody looked is replaced at once', async () => {
    const first = await at(0)
    const late = await at(6 * 365)
    expect([late.fingerprint === first.fingerprint, late.next]).toEqual([false, undefined])
  })

  test('[BX13] one of an older folder, bound to nothing, works on while tablets learn the next', async () => {
    const old = await unbound()
    mkdirSync(join(folder, 'tls'))
    writeFileSync(join(folder, 'tls', 'authority.crt'), old.cert)
    writeFileSync(join(folder, 'tls', 'authority.key'), old.key)
    const now = await at(0)
    expect([now.authority, now.next === undefined]).toEqual([old.cert, false])
    expect(await trusts(old.cert, now, 'localhost')).toBe(true)
    const later = await at(181)
    expect([later.fingerprint, later.next]).toEqual([now.next?.fingerprint, undefined])
    expect(new X509Certificate(later.cert).verify(new X509Certificate(later.authority).publicKey)).toBe(true)
  })

  test('[BX13] a start that was cut short between two files is mended by the next', async () => {
    await at(0)
    const other = await at(0, '198.51.100.7')
    writeFileSync(join(folder, 'tls', 'server.key'), (await unbound()).key)
    const mended = await at(0, '198.51.100.7')
    expect(mended.cert).not.toBe(other.cert)
    expect(await trusts(mended.authority, mended, 'localhost')).toBe(true)
  })
})

/** As the shop's first builds made it. */
async function unbound(): Promise<Pair> {
  const keys = await webcrypto.subtle.generateKey({ name: 'ECDSA', namedCurve: 'P-256' }, true, [
    'sign',
    'verify',
  ])
  const cert = await x509.X509CertificateGenerator.createSelfSigned({
    name: 'CN="Paintmark, this shop"',
    notBefore: new Date(NOW - DAY),
    notAfter: new Date(NOW + 3650 * DAY),
    signingAlgorithm: { name: 'ECDSA', hash: 'SHA-256' },
    keys,
    extensions: [
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign, true),
    ],
  })
  const der = await webcrypto.subtle.exportKey('pkcs8', keys.privateKey)
  return { cert: cert.toString('pem'), key: x509.PemConverter.encode(der, 'PRIVATE KEY') }
}

describe('the port that speaks TLS', () => {
  test('[WI13] serves over TLS, and tells plain HTTP the right address in a sentence; silence and noise stop nothing', async () => {
    const house = await makeHouse()
    const settings = { host: '127.0.0.1', port: 0, tls: true, behindProxy: false, dataFolder: folder }
    const door = await openDoor({ ...settings, logLevel: 'silent' })
    const serving = await door.serve(house.shop, { cookieName: 'paintmark', log: silent })
    try {
      const { port } = new URL(serving.address)
      const agent = new Agent({ ca: inFolder('authority.crt') })
      const over = (ask: typeof request | typeof plainRequest, path: string, headers = {}, more = {}) =>
        new Promise<{ status: number | undefined; text: string }>((resolve, reject) => {
          const sent = ask({ host: '127.0.0.1', port, path, headers, ...more }, (answer) => {
            let text = ''
            answer.on('data', (data) => {
              text += data
            })
            answer.on('end', () => resolve({ status: answer.statusCode, text }))
          })
          sent.on('error', reject)
          sent.end(headers && 'content-length' in headers ? 'x' : undefined)
        })
      const silentOne = connectPlain(Number(port), '127.0.0.1')
      const noise = connectPlain(Number(port), '127.0.0.1', () =>
        noise.write(Buffer.from([0, 1, 2, 255, 10])),
      )
      noise.on('error', () => undefined)
      await new Promise((resolve) => noise.once('close', resolve).resume())

      expect(await over(request, '/healthz', {}, { agent })).toMatchObject({ status: 200 })
      expect((await over(request, '/trust', {}, { agent })).text).toContain('paintmark-shop.crt')
      expect((await over(request, '/trust/paintmark-shop.crt', {}, { agent })).text).toBe(
        inFolder('authority.crt'),
      )
      expect((await over(request, '/trust/paintmark-shop-next.crt', {}, { agent })).status).toBe(404)

      const plain = await over(plainRequest, '/jobs/1', { host: `bench.local:${port}` })
      expect([plain.status, JSON.parse(plain.text)]).toEqual([
        400,
        {
          ok: false,
          code: 'https_needed',
          sentence: `This port speaks HTTPS alone. Ask at https://bench.local:${port}.`,
        },
      ])
      const page = await over(plainRequest, '/', { accept: 'text/html', host: `bench.local:${port}` })
      expect(page.text).toContain(`<a href="https://bench.local:${port}">`)
      const odd = await over(plainRequest, '/', { accept: 'text/html', host: '"><script>' })
      expect([odd.text.includes('<script>'), odd.text.includes(`href="${serving.address}"`)]).toEqual([
        false,
        true,
      ])
      expect(
        (await over(plainRequest, '/api/sign-in', { 'content-length': 1 }, { method: 'POST' })).status,
      ).toBe(400)
      expect(await over(request, '/healthz', {}, { agent })).toMatchObject({ status: 200 })
      silentOne.destroy()
    } finally {
      await serving.close()
      await house.close()
    }
  })
})
