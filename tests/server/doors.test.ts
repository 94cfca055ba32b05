/** What comes to the server's doors over real connections, as no browser of ours sends it. */
import { request } from 'node:http'
import { connect } from 'node:net'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { command } from './house'
import { makeWire } from './wire'

let wire: Awaited<ReturnType<typeof makeWire>>
let cookie = ''
beforeAll(async () => {
  wire = await makeWire()
  const ana = await wire.at('ana')
  cookie = ana.page.jar.cookie
})
afterAll(() => wire.close())

/** Says this on a connection of its own and gives all that comes back. */
function say(lines: string[], body = ''): Promise<{ status: number; head: string; text: string }> {
  const { hostname, port } = new URL(wire.address)
  return new Promise((resolve, reject) => {
    const socket = connect(Number(port), hostname, () => socket.write(`${lines.join('\r\n')}\r\n\r\n${body}`))
    let answer = ''
    socket.setEncoding('utf8')
    socket.on('data', (data) => {
      answer += data
    })
    socket.on('error', reject)
    socket.on('close', () => {
      const [head = '', ...rest] = answer.split('\r\n\r\n')
      resolve({ status: Number(head.split(' ')[1]), head, text: rest.join('\r\n\r\n') })
    })
  })
}

const head = (line: string, ...more: string[]) => [
  `${line} HTTP/1.1`,
  `Host: ${new URL(wire.address).host}`,
  `Cookie: ${cookie}`,
  'Connection: close',
  ...more,
]
const chunked = (...pieces: string[]) =>
  [...pieces, ''].map((piece) => `${Buffer.byteLength(piece).toString(16)}\r\n${piece}\r\n`).join('')

describe('a request with no body, or with one that does not say its length', () => {
  test('[WI4] no body is answered in a sentence, whatever the method', async () => {
    for (const method of ['POST', 'PUT', 'DELETE', 'PATCH', 'OPTIONS', 'PROPFIND'])
      for (const path of [
        '/api/jobs/j1/commands',
        '/api/shop/commands',
        '/api/sign-in',
        `/api/photos/${'a'.repeat(64)}`,
        '/api/none',
        '/',
      ])
        for (const length of [[], ['Content-Length: 0'], ['Transfer-Encoding: chunked']]) {
          const { status, text } = await say(
            head(`${method} ${path}`, ...length),
            length[0]?.startsWith('T') ? chunked() : '',
          )
          expect([method, path, length[0], status, text]).toEqual([
            method,
            path,
            length[0],
            expect.toSatisfy((status) => status >= 400 && status < 500),
            expect.stringMatching(/"sentence":"\w.+\."/),
          ])
        }
  })

  test('[WI4] a chunked command works as any other, and one that is too long is 413', async () => {
    const claim = JSON.stringify(command({ type: 'ClaimStep', stepId: 'S1' }))
    const at = head('POST /api/jobs/j1/commands', 'Transfer-Encoding: chunked')
    const good = await say(at, chunked(claim.slice(0, 20), claim.slice(20)))
    expect([good.status, good.text]).toEqual([201, expect.stringContaining('StepClaimed')])
    const long = await say(at, chunked(...Array.from({ length: 70 }, () => 'x'.repeat(1024))))
    expect([long.status, long.text]).toEqual([413, expect.stringContaining('longer than 64 kB')])
    const told = await say(head('POST /api/jobs/j1/commands', 'Content-Length: 70000'), 'x'.repeat(70_000))
    expect(told.status).toBe(413)
  })

  test('[WI9] what is not HTTP, or not as this server takes it, is answered with 4xx and stops nothing', async () => {
    for (const lines of [
      ['nonsense'],
      ['GET / HTTP/9.9', 'Host: x'],
      head('GET /', 'Content-Length: x'),
      head('POST /api/sign-in', 'Content-Length: 3', 'Transfer-Encoding: chunked'),
      head('TRACE /'),
      head('TRACK /'),
      ['GET / HTTP/1.1', 'Host: a b', 'Connection: close'],
      ['GET / HTTP/1.1', 'Connection: close'],
      ['GET http://%/ HTTP/1.1', 'Host: x', 'Connection: close'],
      head('GET //'),
      head('GET /%'),
      head(`GET /${'x'.repeat(20_000)}`),
    ]) {
      const { status, head: said } = await say(lines)
      expect([lines[0]?.slice(0, 40), status, said.slice(0, 60)]).toEqual([
        lines[0]?.slice(0, 40),
        expect.toSatisfy((status) => status >= 400 && status < 500),
        expect.any(String),
      ])
    }
    expect((await say(['nonsense'])).text).toMatch(/"sentence":"The server could not read this request/)
    expect((await say(head(`GET /${'x'.repeat(20_000)}`))).text).toMatch(
      /"sentence":"The request’s head is longer/,
    )
    expect((await say(head('GET /healthz'))).status).toBe(200)
  })
})

describe('figures for whoever watches the box', () => {
  const figures = (text: string) =>
    new Map(
      [...text.matchAll(/^(\w+(?:\{[^}]*\})?) (\S+)$/gm)].map(([, name, value]) => [name, Number(value)]),
    )

  test('[WI14] this machine reads them; each line is as the format has it, and they name nobody', async () => {
    const { status, head: said, text } = await say(head('GET /metrics'))
    expect([status, said]).toEqual([200, expect.stringContaining('text/plain; version=0.0.4')])
    const body = text.replace(/^[0-9a-f]+\r\n|\r\n0\r\n\r\n$/g, '')
    for (const line of body.trimEnd().split('\n'))
      expect(line).toMatch(/^(?:# (?:HELP|TYPE) [a-z_]+ .+|[a-z_]+(?:\{[a-z]+="\w+"\})? -?\d[\d.e+-]*)$/)
    expect(body).not.toMatch(/Ana|Test Yard|\/tmp/)
    const found = figures(body)
    expect([found.get('paintmark_healthy'), found.get('paintmark_sockets')]).toEqual([1, 1])
    expect(found.get('paintmark_engines')).toBe(1)
    const before = found.get('paintmark_commands_total{answer="written"}') ?? 0
    const claim = JSON.stringify(command({ type: 'ClaimStep', stepId: 'S2' }))
    await say(head('POST /api/jobs/j1/commands', `Content-Length: ${claim.length}`), claim)
    const after = figures((await say(head('GET /metrics'))).text)
    expect(after.get('paintmark_commands_total{answer="written"}')).toBe(before + 1)
    expect(after.get('paintmark_http_requests_total{status="4xx"}')).toBeGreaterThan(10)
  })

  test('[WI14] behind a proxy, where all calls come from this machine, the token is needed', async () => {
    const token = '0123456789abcdef'
    const proxied = await makeWire({ web: { loopbackOnly: false, behindProxy: true, metricsToken: token } })
    try {
      const ask = async (authorization?: string) =>
        (await fetch(`${proxied.address}/metrics`, authorization ? { headers: { authorization } } : {}))
          .status
      expect(await ask()).toBe(403)
      expect(await ask('Bearer wrong')).toBe(403)
      expect(await ask(`Bearer ${token}`)).toBe(200)
    } finally {
      await proxied.close()
    }
  })

  test('[WI3] a proxy that does not pass Host on is told so where it is refused', async () => {
    const proxied = await makeWire({ web: { loopbackOnly: false, behindProxy: true } })
    try {
      const origin = 'https://yard.example'
      const refused = await fetch(`${proxied.address}/api/sign-out`, { method: 'POST', headers: { origin } })
      const { sentence } = (await refused.json()) as { sentence: string }
      expect([refused.status, sentence]).toEqual([
        403,
        `The page is at ${origin}, but the proxy asked this server as ${new URL(proxied.address).host}. The proxy must pass the header Host on as the browser sent it, and for sockets Upgrade and Connection too; README shows how.`,
      ])
      const { hostname, port } = new URL(proxied.address)
      const passed = await new Promise<number | undefined>((resolve, reject) =>
        request(
          {
            hostname,
            port,
            path: '/api/sign-out',
            method: 'POST',
            headers: { origin, host: 'yard.example' },
          },
          ({ statusCode }) => resolve(statusCode),
        )
          .on('error', reject)
          .end(),
      )
      expect(passed).toBe(200)
    } finally {
      await proxied.close()
    }
  })
})
