/** What the environment may set, and what is refused with a sentence. */
import { expect, test } from 'vitest'
import { makeFolder } from '../../server/folder'
import { Refused, readSettings } from '../../server/settings'

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
  expect(() => read({ METRICS_TOKEN: 'short' })).toThrow(/METRICS_TOKEN .*shorter than 16/)
  expect(read({ METRICS_TOKEN: ' 0123456789abcdef ' }).metricsToken).toBe('0123456789abcdef')
  expect(read({ PORT: '0' }).port).toBe(0)
})

test('a folder the system forbids is refused, and does not hang', () => {
  expect(() => makeFolder('/proc/paintmark/shop')).toThrow(/cannot be made/)
})
