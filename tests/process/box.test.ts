/**
 * The box as real programs: one server a folder, a backup under load and its restore, PINs at the machine, and whatever is
 * killed (SIGKILL) at any moment: a first run, a backup, a restore, a migration. Nothing acknowledged is lost, nobody is
 * locked out, and nothing that is half done passes for whole.
 */
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { v7 } from 'uuid'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { BO, openJob, PLAN, W1 } from '../shop/yard'
import { asBeforeMigrations } from './older'
import { codeOf, inRepo, type Program, runProgram, startProgram } from './program'

const built = (name: string): string => inRepo('dist', 'server', `${name}.js`)
const PASSPHRASE = 'four plain words here'

const folders: string[] = []
const running: Program[] = []
function newFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'paintmark-box-'))
  folders.push(folder)
  return folder
}
afterEach(async () => {
  for (const program of running.splice(0)) await killed(program)
})
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true })
})

const settings = (dataFolder: string, more: Record<string, string> = {}) => ({
  PORT: '0',
  DATA_DIR: dataFolder,
  LOG_LEVEL: 'error',
  ...more,
})

async function start(dataFolder: string, more: Record<string, string> = {}) {
  const program = startProgram([built('main')], settings(dataFolder, more))
  running.push(program)
  const [, address = ''] = await program.says(/^Paintmark runs at (\S+)$/m)
  return { program, address }
}

const runWith = (name: string, args: string[], dataFolder: string, more: Record<string, string> = {}) =>
  runProgram([built(name), ...args], settings(dataFolder, more))

async function killed(program: Program) {
  program.child.kill('SIGKILL')
  await program.ended
}

interface Reply {
  version: number
  events: { version: number; event: object }[]
  seq?: number
  sentence?: string
  code?: string
}

function browserAt(address: string) {
  let cookie = ''
  return async function ask(path: string, body?: object): Promise<{ status: number; json: Reply }> {
    const response = await fetch(`${address}${path}`, {
      method: body ? 'POST' : 'GET',
      headers: { origin: address, ...(cookie ? { cookie } : {}) },
      ...(body ? { body: JSON.stringify(body) } : {}),
    })
    cookie = response.headers.get('set-cookie')?.split(';')[0] ?? cookie
    return { status: response.status, json: (await response.json()) as Reply }
  }
}
type Ask = ReturnType<typeof browserAt>

async function must(asked: Promise<{ status: number; json: Reply }>): Promise<Reply> {
  const { status, json } = await asked
  if (status >= 300) throw new Error(json.sentence)
  return json
}

/** A shop with one job in it, its owner signed in. */
async function openShop(address: string, code: string): Promise<Ask> {
  const ask = browserAt(address)
  await must(ask('/api/first-run', { shopName: 'Box', name: 'Ana', initials: 'AN', pin: '4711', code }))
  for (const command of [
    { type: 'AddPerson', person: BO },
    { type: 'AddWrench', wrench: W1 },
    { type: 'AddPlan', plan: PLAN },
  ])
    await must(ask('/api/shop/commands', { ...command, commandId: v7() }))
  for (const command of openJob('job:a'))
    await must(ask('/api/jobs/a/commands', { ...command, commandId: v7() }))
  return ask
}

const note = (n: number) => ({ type: 'AddNote', text: `note ${n}`, commandId: v7() })
const backupsIn = (folder: string) => readdirSync(folder).filter((name) => !name.endsWith('.partial'))
const headsOf = (folder: string) => {
  const db = new Database(join(folder, 'paintmark.db'), { readonly: true })
  try {
    return db.prepare('select stream, version, hash from stream_head order by stream').all()
  } finally {
    db.close()
  }
}

describe('a shop with its server', () => {
  let dataFolder: string
  let ask: Ask
  let server: Awaited<ReturnType<typeof start>>
  const into = newFolder()
  beforeAll(async () => {
    dataFolder = join(newFolder(), 'shop')
    server = await start(dataFolder)
    running.pop()
    ask = await openShop(server.address, await codeOf(server.program))
  })
  afterAll(() => killed(server.program))

  test('[BX1] a second server, a rebuild and a restore on its folder are refused with its process and address', async () => {
    const who = new RegExp(
      `^The shop’s server \\(process ${server.program.child.pid}, ${server.address}\\) runs on ${dataFolder}\\. `,
    )
    for (const [name, args] of [
      ['main', []],
      ['rebuild', []],
      ['restore', [into]],
    ] as const) {
      const { code, stdout, stderr } = await runWith(name, [...args], dataFolder)
      expect([name, code, stdout]).toEqual([name, 1, ''])
      expect(stderr).toMatch(who)
      expect(stderr.trimEnd().split('\n')).toHaveLength(1)
    }
    expect((await ask('/api/me')).status).toBe(200)
  })

  test('[BX3][BX6] a backup under load, restored: every entry acknowledged before it is there, and the heads are the same', async () => {
    const acknowledged: { asked: number; answered: number; reply: Reply }[] = []
    let writing = true
    const writers = Array.from({ length: 8 }, async () => {
      for (let n = 0; writing; n++) {
        const asked = performance.now()
        const reply = await must(ask('/api/jobs/a/commands', note(n)))
        acknowledged.push({ asked, answered: performance.now(), reply })
      }
    })
    await expect.poll(() => acknowledged.length, { timeout: 20_000 }).toBeGreaterThan(25)
    const begun = performance.now()
    const made = await runWith('backup', [into], dataFolder, { BACKUP_PASSPHRASE: PASSPHRASE })
    const ended = performance.now()
    const before = acknowledged.length
    await expect.poll(() => acknowledged.length, { timeout: 20_000 }).toBeGreaterThan(before + 10)
    writing = false
    await Promise.all(writers)
    expect([made.code, made.stderr]).toEqual([0, ''])
    const [name = ''] = backupsIn(into)
    expect(made.stdout).toContain(join(into, name))
    // The server went on while the backup was made.
    expect(
      acknowledged.filter(({ asked, answered }) => asked > begun && answered < ended).length,
    ).toBeGreaterThan(0)

    const restored = join(newFolder(), 'again')
    const done = await runWith('restore', [join(into, name)], restored, { BACKUP_PASSPHRASE: PASSPHRASE })
    expect([done.code, done.stderr]).toEqual([0, ''])
    expect(done.stdout).toMatch(
      /Every file agrees with its manifest\.\nThe shop goes on after entry \d+ of its log, in the log’s epoch 2\./,
    )
    expect(headsOf(restored)).toEqual(headsOf(join(into, name)))
    const manifest = JSON.parse(readFileSync(join(into, name, 'manifest.json'), 'utf8')) as { seq: number }
    for (const { answered, reply } of acknowledged)
      if (answered < begun) expect(reply.seq).toBeLessThanOrEqual(manifest.seq)
    expect((await runWith('verify', [], restored)).stdout).toMatch(/^OK: /m)

    const again = await start(restored)
    const ana = browserAt(again.address)
    const people = (await ana('/api/people')).json as unknown as { id: string }[]
    await must(ana('/api/sign-in', { personId: people[0]?.id, pin: '4711' }))
    const { events } = await must(ana('/api/jobs/a/events'))
    for (const { reply } of acknowledged.filter(({ reply }) => (reply.seq ?? 0) <= manifest.seq))
      for (const entry of reply.events) expect(events[entry.version - 1]).toEqual(entry)
    expect((await ana('/api/me')).json).toMatchObject({ epoch: { number: 2, coveredSeq: manifest.seq } })
    expect((await ask('/api/me')).json).toMatchObject({ epoch: { number: 1, coveredSeq: manifest.seq } })
  })

  test('[PE9] a PIN set at the machine while the server runs: the person is signed out, the new one is right', async () => {
    const pin = startProgram([built('pin'), 'an'], settings(dataFolder), '98567\n98567\n')
    const { code, stdout } = await pin.ended
    expect([code, stdout]).toEqual([
      0,
      'The PIN of Ana is set, and Ana is signed out everywhere. Tell them who set it.\n',
    ])
    expect((await ask('/api/jobs/a/commands', note(0))).json.code).toBe('signed_out')
    const [ana] = (await ask('/api/people')).json as unknown as { id: string }[]
    expect((await ask('/api/sign-in', { personId: ana?.id, pin: '4711' })).status).toBe(401)
    expect((await ask('/api/sign-in', { personId: ana?.id, pin: '98567' })).status).toBe(201)
    const differ = await startProgram([built('pin'), 'Ana'], settings(dataFolder), '4711\n7063\n').ended
    expect([differ.code, differ.stderr]).toEqual([
      1,
      expect.stringMatching(/The two PINs differ\. No PIN was set/),
    ])
  })

  test('[BX1][BX11] killed and started again it goes on; without its pepper or its database it does not start', async () => {
    await killed(server.program)
    const copy = join(newFolder(), 'copy')
    cpSync(dataFolder, copy, { recursive: true, filter: (from) => !from.endsWith('.sock') })
    server = await start(dataFolder)
    running.pop()
    rmSync(join(copy, 'pepper'))
    const noPepper = await runWith('main', [], copy)
    expect([noPepper.code, noPepper.stdout]).toEqual([1, ''])
    expect(noPepper.stderr).toMatch(/pepper is missing, and without it no PIN that was set can be right/)
    expect(existsSync(join(copy, 'pepper'))).toBe(false)
    const anew = await startProgram([built('pin'), 'Ana', '--all-anew'], settings(copy), '8190\n8190\n').ended
    expect([anew.code, anew.stderr]).toEqual([0, expect.stringContaining('Every PIN is forgotten.')])
    expect(existsSync(join(copy, 'pepper'))).toBe(true)
    for (const name of readdirSync(copy)) if (name.startsWith('paintmark.db')) rmSync(join(copy, name))
    const left = readdirSync(copy).sort()
    const noLog = await runWith('main', [], copy)
    expect([noLog.code, noLog.stdout]).toEqual([1, ''])
    expect(noLog.stderr).toMatch(
      /^A shop was in .* but its database paintmark\.db is missing\. .*npm run restore/,
    )
    expect(readdirSync(copy).sort()).toEqual(left)
  })

  test('[BX8] killed while the tables are changed: the old ones or the new ones, with a backup of before beside them', async () => {
    await server.program.stop()
    const old = newFolder()
    asBeforeMigrations(dataFolder, old)
    const heads = headsOf(dataFolder)
    const cut = async (name: string, ms: number) => {
      const folder = join(newFolder(), name)
      cpSync(old, folder, { recursive: true })
      const program = startProgram([built('main')], settings(folder))
      await Promise.race([program.says(/runs at/), new Promise((next) => setTimeout(next, ms))])
      await killed(program)
      return folder
    }
    const begun = performance.now()
    const whole = await cut('whole', 20_000)
    const wholeMs = performance.now() - begun
    const [before = '', ...more] = readdirSync(join(whole, 'before-migration'))
    expect(more).toEqual([])
    expect(headsOf(join(whole, 'before-migration', before))).toEqual(heads)
    for (let n = 0; n < 2; n++) {
      const folder = await cut(`cut-${n}`, wholeMs * (0.6 + 0.25 * n))
      const again = await start(folder)
      await again.program.stop()
      expect(headsOf(folder)).toEqual(heads)
    }
    expect((await runWith('verify', [], whole)).stdout).toMatch(/^OK: /m)
  })

  test('[BX5] killed at any moment, a backup leaves none that is not whole, and the next one clears up', async () => {
    // Enough photos that a kill falls into each part of it.
    const kills = newFolder()
    for (let n = 0; n < 100; n++) {
      const bytes = Buffer.concat([Buffer.from([0xff, 0xd8, 0xff]), Buffer.alloc(50_000, n)])
      const sha256 = createHash('sha256').update(bytes).digest('hex')
      mkdirSync(join(dataFolder, 'photos', sha256.slice(0, 2)), { recursive: true })
      writeFileSync(join(dataFolder, 'photos', sha256.slice(0, 2), sha256), bytes)
    }
    const took = performance.now()
    expect((await runWith('backup', [kills], dataFolder)).code).toBe(0)
    const wholeMs = performance.now() - took
    for (let n = 0; n < 3; n++) {
      const program = startProgram([built('backup'), kills], settings(dataFolder))
      await new Promise((next) => setTimeout(next, wholeMs * (0.5 + (0.5 * n) / 3)))
      await killed(program)
    }
    // The first was not killed; of the others each that is there under its own name is whole.
    for (const name of backupsIn(kills).slice(1)) {
      const target = join(newFolder(), 'r')
      expect((await runWith('restore', [join(kills, name), '--without-secrets'], target)).code).toBe(0)
    }
    expect((await runWith('backup', [kills], dataFolder)).code).toBe(0)
    expect(readdirSync(kills).filter((name) => name.endsWith('.partial'))).toEqual([])

    const [name = ''] = backupsIn(kills)
    const restored = join(newFolder(), 'killed')
    for (let n = 0; n < 2; n++) {
      const program = startProgram([built('restore'), join(kills, name)], settings(restored))
      await new Promise((next) => setTimeout(next, wholeMs * (0.4 + 0.3 * n)))
      await killed(program)
      if (existsSync(join(restored, 'epoch.json')) && !existsSync(join(restored, 'restore.partial')))
        rmSync(restored, { recursive: true })
      else if (existsSync(restored) && readdirSync(restored).length > 2) {
        const { code, stderr } = await runWith('main', [], restored)
        expect([code, stderr]).toEqual([1, expect.stringMatching(/was cut short/)])
      }
    }
    expect((await runWith('restore', [join(kills, name)], restored)).code).toBe(0)
    expect(headsOf(restored)).toEqual(headsOf(join(kills, name)))
  })
})

test('[PE8][BX11] killed at any moment of a first run: no shop, or one whose founder has a PIN', async () => {
  let opened = 0
  let notYet = 0
  for (let n = 0; n < 3; n++) {
    const dataFolder = join(newFolder(), 'shop')
    const { program, address } = await start(dataFolder)
    const code = await codeOf(program)
    const body = { shopName: 'Box', name: 'Ana', initials: 'AN', pin: '4711', code }
    const asked = browserAt(address)('/api/first-run', body).catch(() => undefined)
    await new Promise((next) => setTimeout(next, n * 40))
    await killed(program)
    await asked
    const db = new Database(join(dataFolder, 'paintmark.db'), { readonly: true })
    const founders = db
      .prepare(
        "select json_extract(body, '$.event.person.id') from event where json_extract(body, '$.event.type') = 'PersonAdded'",
      )
      .pluck()
      .all()
    const pins = db.prepare('select person_id from credential').pluck().all()
    db.close()
    expect(pins).toEqual(founders)
    if (founders.length > 0) opened++
    else {
      notYet++
      const again = await start(dataFolder)
      await must(browserAt(again.address)('/api/first-run', { ...body, code: await codeOf(again.program) }))
      await killed(again.program)
    }
  }
  expect(opened + notYet).toBe(3)
})

describe('a start that fails', () => {
  test('[BX11] leaves nothing behind', async () => {
    const holder = createServer()
    await new Promise<void>((resolve) => holder.listen(0, '127.0.0.1', resolve))
    const { port } = holder.address() as { port: number }
    const dataFolder = join(newFolder(), 'shop')
    try {
      const taken = await runWith('main', [], dataFolder, { PORT: `${port}`, HOST: '127.0.0.1' })
      expect([taken.code, taken.stderr]).toEqual([
        1,
        expect.stringMatching(/^Port \d+ on 127\.0\.0\.1 is taken/),
      ])
      expect(existsSync(dataFolder)).toBe(false)
      const nowhere = await runWith('main', [], dataFolder, { HOST: '192.0.2.1' })
      expect([nowhere.code, existsSync(dataFolder)]).toEqual([1, false])
    } finally {
      await new Promise((resolve) => holder.close(resolve))
    }
  })

  test('[BX5][BX11] a disk that takes no more: each says so, and leaves nothing half done', async () => {
    const dataFolder = join(newFolder(), 'shop')
    const { program, address } = await start(dataFolder)
    await openShop(address, await codeOf(program))
    await program.stop()
    const into = newFolder()
    expect((await runWith('backup', [into], dataFolder)).code).toBe(0)
    const [name = ''] = readdirSync(into)
    /** No file of it may grow beyond 25 kB. */
    const cramped = (what: string, folder: string, ...args: string[]) =>
      spawnSync('sh', ['-c', 'ulimit -f 50; exec "$@"', 'sh', process.execPath, built(what), ...args], {
        encoding: 'utf8',
        env: { ...process.env, ...settings(folder) },
        timeout: 60_000,
      })
    const empty = newFolder()
    const backup = cramped('backup', dataFolder, empty)
    expect([backup.status, backup.stderr]).toEqual([
      1,
      expect.stringMatching(/^No backup was made\. Nothing can be written in /),
    ])
    expect(readdirSync(empty)).toEqual([])
    const target = newFolder()
    const restore = cramped('restore', target, join(into, name))
    expect([restore.status, restore.stderr]).toEqual([
      1,
      expect.stringMatching(/^Nothing was restored\. Nothing can be written in /),
    ])
    expect(readdirSync(target)).toEqual(['in-use'])
    const first = newFolder()
    const begun = cramped('main', first)
    expect([begun.status, begun.stdout, begun.stderr]).toEqual([
      1,
      '',
      expect.stringMatching(/^The database .* could not be opened: /),
    ])
    expect(readdirSync(first)).toEqual(['in-use'])
  })

  test('[BX12] help, version and words it does not know make and change nothing', () => {
    const dataFolder = join(newFolder(), 'shop')
    const npm = (...args: string[]) =>
      spawnSync(process.execPath, [inRepo('server/setup/run.mjs'), ...args], {
        encoding: 'utf8',
        env: { ...process.env, DATA_DIR: dataFolder },
        timeout: 20_000,
      })
    const help = npm('start', '--help')
    expect([help.status, help.stderr]).toEqual([0, ''])
    expect(help.stdout).toMatch(/^npm start\nServes your own shop\.\n\nFrom the environment:\n {2}DATA_DIR /)
    const unknown = npm('start', '--prot=1')
    expect([unknown.status, unknown.stdout, unknown.stderr]).toEqual([
      2,
      '',
      'npm start does not know --prot=1. "npm start -- --help" says what it takes.\n',
    ])
    expect(existsSync(dataFolder)).toBe(false)
  })
})
