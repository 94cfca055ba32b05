/** What `npm run demo`, `verify` and `rebuild` promise, and what a server says when it is started wrong. */

import { readFileSync } from 'node:fs'
import { createServer } from 'node:net'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import {
  type DataFolder,
  dataFolder,
  type Ended,
  inRepo,
  runProgram,
  type Server,
  startProgram,
  startServer,
} from './program'

const built = (name: string): string => inRepo('dist', 'server', `${name}.js`)
const databaseOf = (folder: string) => new Database(join(folder, 'paintmark.db'))

describe('the demonstration', () => {
  let server: Server
  beforeAll(async () => {
    server = await startServer('demo')
  })
  afterAll(() => server?.stop())

  test('one JSON line on stdout, and nothing else there; people and PINs for reading on stderr', () => {
    const out = server.program.stdout()
    const lines = out.trimEnd().split('\n')
    expect(lines).toHaveLength(1)
    const announcement = JSON.parse(lines[0] ?? '') as { address: string; people: object[] }
    expect(Object.keys(announcement).sort()).toEqual(['address', 'people'])
    expect(announcement.address).toMatch(/^http:\/\/127\.0\.0\.1:\d+$/)
    expect(announcement.people.length).toBeGreaterThanOrEqual(7)
    for (const person of announcement.people) {
      expect(Object.keys(person).sort()).toEqual(['id', 'name', 'pin'])
      const { name, pin } = person as { name: string; pin: string }
      expect(server.program.stderr()).toMatch(new RegExp(`${name} +PIN ${pin}`))
    }
    expect(server.program.stderr()).toContain(announcement.address)
  })

  test('is healthy, and every PIN it printed signs its person in', async () => {
    const health = await fetch(`${server.address}/healthz`)
    expect(health.status).toBe(200)
    for (const { id, name, pin } of server.people) {
      const answer = await signInAt(server.address, id, pin)
      expect(answer.status, name).toBe(201)
      expect(await answer.json()).toMatchObject({ person: { id, name } })
    }
    const [first] = server.people
    expect((await signInAt(server.address, first?.id ?? '', '0000')).status).toBe(401)
  })

  test('npm calls it by one command, which passes signals on: SIGTERM ends it in order', async () => {
    const scripts = JSON.parse(readFileSync(inRepo('package.json'), 'utf8')).scripts as Record<string, string>
    const [node, file = '', ...args] = scripts.demo?.split(' ') ?? []
    expect(node).toBe('node')
    const folder = dataFolder()
    const program = startProgram([inRepo(file), ...args], { PORT: '0', DATA_DIR: folder.path })
    try {
      const [line] = await program.says(/^\{.*\}$/m)
      const { address } = JSON.parse(line) as { address: string }
      expect((await fetch(`${address}/healthz`)).status).toBe(200)
      program.child.kill('SIGTERM')
      const { code, signal, stdout } = await program.ended
      expect({ code, signal }).toEqual({ code: 0, signal: null })
      expect(stdout.trimEnd()).toBe(line)
      await expect(fetch(`${address}/healthz`)).rejects.toThrow()
    } finally {
      await program.stop()
      folder.remove()
    }
  })
})

describe('settings that are wrong', () => {
  let folder: DataFolder
  beforeAll(() => {
    folder = dataFolder()
  })
  afterAll(() => folder.remove())

  /** One sentence, no stack, nothing on stdout, exit 1. */
  function refused({ code, stdout, stderr }: Ended, sentence: RegExp) {
    expect(stderr).toMatch(sentence)
    expect(stderr.trimEnd().split('\n')).toHaveLength(1)
    expect(stdout).toBe('')
    expect(code).toBe(1)
  }

  test.each([
    ['PORT', 'http', /^PORT is "http"\. Give a whole number from 1 to 65535/],
    ['PORT', '70000', /^PORT is "70000"\. Give a whole number from 1 to 65535/],
    ['PORT', '-1', /^PORT is "-1"\./],
    ['HOST', 'not a host', /^HOST is "not a host", which is not an address\./],
    ['HOST', '192.0.2.1', /^HOST is "192\.0\.2\.1", which is not an address of this machine\./],
    ['LOG_LEVEL', 'loud', /^LOG_LEVEL is "loud"\. Give one of /],
    ['BEHIND_PROXY', 'yes', /^BEHIND_PROXY is "yes"\. Give 1 for yes/],
  ])('%s=%s is refused with a sentence', async (name, value, sentence) => {
    const env = { PORT: '0', DATA_DIR: folder.path, LOG_LEVEL: 'warn', [name]: value }
    refused(await runProgram([built('main')], env), sentence)
  })

  test('a taken port is a sentence that names it and another to take', async () => {
    const holder = createServer()
    await new Promise<void>((resolve) => holder.listen(0, '127.0.0.1', resolve))
    const { port } = holder.address() as { port: number }
    try {
      const env = { PORT: `${port}`, DATA_DIR: folder.path, LOG_LEVEL: 'warn' }
      refused(
        await runProgram([built('main')], env),
        new RegExp(`^Port ${port} on 127\\.0\\.0\\.1 is taken, .*PORT=\\d+\\.$`, 'm'),
      )
    } finally {
      await new Promise((resolve) => holder.close(resolve))
    }
  })

  test('beyond loopback it speaks TLS only, and says what to trust', async () => {
    const server = await startServer('main', { HOST: '0.0.0.0' })
    try {
      expect(server.address).toMatch(/^https:\/\//)
      await expect.poll(() => server.program.stderr()).toMatch(/fingerprint: [0-9A-F:]{95}/)
      const { port } = new URL(server.address)
      const plain = await fetch(`http://127.0.0.1:${port}/healthz`)
      expect([plain.status, await plain.text()]).toEqual([400, expect.stringContaining('https://')])
    } finally {
      await server.stop()
    }
  })

  test('the demonstration deletes nothing that is not its own', async () => {
    const real = await startServer('main')
    try {
      await real.program.stop()
      const demo = await runProgram([built('demo')], { PORT: '0', DATA_DIR: real.folder })
      refused(
        demo,
        /holds something that is not the demonstration's.*Choose an empty folder with DATA_DIR\.$/m,
      )
      const db = databaseOf(real.folder)
      expect(db.prepare('select count(*) as n from event').get()).toBeDefined()
      db.close()
    } finally {
      await real.stop()
    }
  })

  test('[DM2] the real shop does not open the demonstration’s folder, and leaves it as it is', async () => {
    const demo = await startServer('demo')
    try {
      const cookie = (await signInAt(demo.address, 'bram', pinOf(demo, 'bram'))).headers.get('set-cookie')
      expect(cookie).toMatch(/^paintmark_demo=/)
      await demo.program.stop()
      const count = () => {
        const db = databaseOf(demo.folder)
        const { n } = db.prepare('select count(*) as n from event').get() as { n: number }
        db.close()
        return n
      }
      const before = count()
      refused(
        await runProgram([built('main')], { PORT: '0', DATA_DIR: demo.folder }),
        /^\S+ is the demonstration's: everything in it is invented.*DATA_DIR, or start "npm run demo"\.$/m,
      )
      expect(count()).toBe(before)
    } finally {
      await demo.stop()
    }
  })

  test('[DM1] a second demonstration on the same folder is refused; the first one’s log stays', async () => {
    const demo = await startServer('demo')
    try {
      refused(
        await runProgram([built('demo')], { PORT: '0', DATA_DIR: demo.folder }),
        /^A demonstration \(process \d+, http:\S+\) runs on \S+\. Look for its window/m,
      )
      expect((await signInAt(demo.address, 'bram', pinOf(demo, 'bram'))).status).toBe(201)
    } finally {
      await demo.stop()
    }
  })

  test.each(['verify', 'rebuild'])('%s without a log says where it looked', async (name) => {
    const empty = dataFolder()
    try {
      refused(
        await runProgram([built(name)], { DATA_DIR: empty.path }),
        /^There is no log at .*paintmark\.db to /,
      )
    } finally {
      empty.remove()
    }
  })
})

describe('verify and rebuild', () => {
  let server: Server
  beforeAll(async () => {
    server = await startServer('demo')
    await server.program.stop()
  })
  afterAll(() => server?.stop())

  const verify = () => runProgram([built('verify')], { DATA_DIR: server.folder })
  const rebuild = () => runProgram([built('rebuild')], { DATA_DIR: server.folder })
  const sql = <T>(query: string, ...values: unknown[]): T[] => {
    const db = databaseOf(server.folder)
    try {
      const statement = db.prepare(query)
      if (statement.reader) return statement.all(...values) as T[]
      statement.run(...values)
      return []
    } finally {
      db.close()
    }
  }
  let restore: (() => void)[] = []
  afterEach(() => {
    for (const back of restore.reverse()) back()
    restore = []
  })

  test('a sound log: every stream is named, and it ends with 0', async () => {
    const { code, stdout } = await verify()
    expect(stdout).toMatch(/^ok {6}job:e-101: \d+ entries$/m)
    expect(stdout).toMatch(/^ok {6}shop: \d+ entries$/m)
    expect(stdout).toMatch(/^OK: \d+ streams, \d+ entries, every chain holds\.$/m)
    expect(stdout).toMatch(/^release E-108-R1: entries 1 to \d+, head [0-9a-f]{64}: compare it with/m)
    const [counted] = sql<{ n: number }>('select count(*) as n from event')
    expect(stdout).toContain(`${counted?.n} entries, every chain holds.`)
    expect(code).toBe(0)
  })

  test('[EV6] with nothing but faults or none, --json says the same to a program', async () => {
    const { code, stdout } = await runProgram([built('verify'), '--json'], { DATA_DIR: server.folder })
    const report = JSON.parse(stdout) as { faults: object[]; events: number; marked: { entries: number } }
    expect([code, report.faults]).toEqual([0, []])
    expect(report.marked.entries).toBe(report.events)
    const odd = await runProgram([built('verify'), 'one', 'two'], { DATA_DIR: server.folder })
    expect([odd.code, odd.stderr]).toEqual([
      1,
      expect.stringMatching(/^Name nothing, to verify the data folder/),
    ])
  })

  test('one byte of one event changed: the stream and the version are named, and it ends with 1', async () => {
    const [row] = sql<{ seq: number; version: number; body: string }>(
      "select seq, version, body from event where stream = 'job:e-101' and body like '%ReadingTaken%' order by seq desc limit 1",
    )
    if (!row) throw new Error('The demonstration has no reading on E-101.')
    const at = row.body.search(/\d(?=[^\d]*$)/)
    const digit = row.body[at] === '1' ? '2' : '1'
    const changed = row.body.slice(0, at) + digit + row.body.slice(at + 1)
    expect(changed).toHaveLength(row.body.length)
    restore.push(() => void sql('update event set body = ? where seq = ?', row.body, row.seq))
    sql('update event set body = ? where seq = ?', changed, row.seq)

    const { code, stdout } = await verify()
    const broken = stdout.split('\n').filter((line) => line.startsWith('BROKEN'))
    expect(broken).toHaveLength(1)
    expect(broken[0]).toContain('job:e-101')
    expect(broken[0]).toMatch(new RegExp(`\\b${row.version}\\b`))
    expect(stdout).toMatch(/^DAMAGED: /m)
    expect(stdout).toMatch(/^ok {6}job:e-105: /m)
    expect(code).toBe(1)
  })

  test('a whole stream taken out leaves its places missing', async () => {
    const events = sql<Record<string, unknown>>("select * from event where stream = 'job:e-102'")
    const heads = sql<Record<string, unknown>>("select * from stream_head where stream = 'job:e-102'")
    expect(events.length).toBeGreaterThan(0)
    const put = (table: string, rows: Record<string, unknown>[]) => {
      for (const row of rows) {
        const names = Object.keys(row)
        sql(`insert into ${table} (${names}) values (${names.map(() => '?')})`, ...Object.values(row))
      }
    }
    restore.push(() => {
      put('event', events)
      put('stream_head', heads)
    })
    sql("delete from event where stream = 'job:e-102'")
    sql("delete from stream_head where stream = 'job:e-102'")
    const { code, stdout } = await verify()
    expect(stdout).toMatch(
      new RegExp(`^MISSING ${events.length} entries of the log are missing, places`, 'm'),
    )
    expect(stdout).toMatch(/^VIEW {4}Board or readings have rows of E-102, of which the log has no entry/m)
    expect(code).toBe(1)
  })

  test('rebuild makes summary and reading again from the log, row for row', async () => {
    const summaries = () => sql('select * from summary order by job_id')
    const readings = () => sql('select * from reading order by job_id, reading_id')
    const before = { summaries: summaries(), readings: readings() }
    expect(before.summaries.length).toBeGreaterThanOrEqual(4)
    expect(before.readings.length).toBeGreaterThan(100)
    sql('delete from summary')
    sql('delete from reading')
    const { code, stdout } = await rebuild()
    expect(stdout).toBe(
      `Made again from the log: ${before.summaries.length} jobs, ${before.readings.length} readings.\n`,
    )
    expect(code).toBe(0)
    expect({ summaries: summaries(), readings: readings() }).toEqual(before)
    // A row that the log knows nothing of goes.
    sql("update summary set summary = '{}' where job_id = 'e-101'")
    await rebuild()
    expect(summaries()).toEqual(before.summaries)
  })
})

function pinOf({ people }: Server, personId: string): string {
  const person = people.find(({ id }) => id === personId)
  if (!person) throw new Error(`The demonstration has nobody called ${personId}.`)
  return person.pin
}

function signInAt(address: string, personId: string, pin: string): Promise<Response> {
  return fetch(`${address}/api/sign-in`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ personId, pin }),
  })
}
