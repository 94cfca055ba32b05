/** One program a folder, and how others ask it: BX1 and BX2. */
import { fork } from 'node:child_process'
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { connect, createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, describe, expect, test } from 'vitest'
import {
  type Answers,
  askHolder,
  holderNow,
  isOfHolding,
  NobodyThere,
  refuseHeld,
  takeFolder,
} from '../../server/holding'
import { askOrTake } from '../../server/holding/ask-or-take'
import { Refused } from '../../server/settings'

const folders: string[] = []
const held: { release(): void }[] = []
function newFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'paintmark-holding-'))
  folders.push(folder)
  return folder
}
const take = (folder: string, program: 'server' | 'rebuild' = 'server') => {
  const taken = takeFolder(folder, program, 'Stop it first.')
  held.push(taken)
  return taken
}
afterEach(() => {
  for (const each of held.splice(0)) each.release()
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true })
})

describe('the lock', () => {
  test('[BX1] a second one is refused with who holds it, and where people reach it', () => {
    const folder = newFolder()
    const first = take(folder)
    first.reachableAt('http://127.0.0.1:4747')
    expect(() => take(folder, 'rebuild')).toThrow(
      `The shop’s server (process ${process.pid}, http://127.0.0.1:4747) runs on ${folder}. Stop it first.`,
    )
    expect(() => refuseHeld(folder, 'Open that.')).toThrow(/Open that\.$/)
    first.release()
    expect(holderNow(folder)).toBeUndefined()
    take(folder, 'rebuild')
  })

  test('[BX1] a look makes nothing, and takes nothing from whoever holds it', () => {
    const folder = newFolder()
    expect(holderNow(folder)).toBeUndefined()
    expect(readdirSync(folder)).toEqual([])
    take(folder)
    expect(holderNow(folder)).toMatchObject({ pid: process.pid, program: 'server' })
    expect(holderNow(folder)).toMatchObject({ pid: process.pid })
  })

  test('[BX1] what a killed program left counts for nothing: its word, its socket, its folder for that', async () => {
    const folder = newFolder()
    const own = mkdtempSync(join(tmpdir(), 'paintmark-'))
    folders.push(own)
    writeFileSync(join(own, 'paintmark-talk'), '')
    writeFileSync(join(folder, 'in-use'), '')
    writeFileSync(
      join(folder, 'in-use.json'),
      JSON.stringify({ pid: 1, program: 'server', socket: join(own, 'paintmark-talk') }),
    )
    const left = createServer().listen(join(folder, 'in-use.sock'))
    await new Promise((resolve) => left.once('listening', resolve))
    expect(holderNow(folder)).toBeUndefined()
    const next = take(folder)
    await next.answer({ who: async () => ({ pid: process.pid }) })
    expect(await askHolder(join(folder, 'in-use.sock'), { do: 'who' })).toEqual({ pid: process.pid })
    expect(existsSync(own)).toBe(false)
    left.close()
  })

  test('[BX1] whatever a killed program says its socket was, nothing of the folder goes', () => {
    const folder = newFolder()
    const elsewhere = newFolder()
    for (const each of [folder, elsewhere]) writeFileSync(join(each, 'paintmark.db'), 'precious')
    for (const socket of [
      join(folder, 'in-use.sock'),
      join(folder, 'paintmark.db'),
      join(folder, 'paintmark-talk'),
      join(elsewhere, 'paintmark-talk'),
    ]) {
      writeFileSync(join(folder, 'in-use.json'), JSON.stringify({ pid: 1, program: 'server', socket }))
      take(folder).release()
    }
    for (const each of [folder, elsewhere]) expect(readdirSync(each)).toContain('paintmark.db')
  })

  test('[BX1] it goes with its process, also when that is killed', async () => {
    const folder = newFolder()
    const script = join(newFolder(), 'hold.mjs')
    writeFileSync(
      script,
      `import Client from ${JSON.stringify(import.meta.resolve('better-sqlite3'))}
       const lock = new Client(process.argv[2], { timeout: 0 })
       lock.pragma('journal_mode = MEMORY'); lock.pragma('locking_mode = EXCLUSIVE'); lock.exec('begin exclusive')
       process.send('held'); setInterval(() => lock.open, 1000)`,
    )
    const child = fork(script, [join(folder, 'in-use')])
    try {
      await new Promise((resolve) => child.once('message', resolve))
      expect(holderNow(folder)).toEqual({})
      expect(() => take(folder)).toThrow(/^Another program runs on /)
    } finally {
      child.kill('SIGKILL')
      await new Promise((resolve) => child.once('exit', resolve))
    }
    expect(take(folder)).toBeDefined()
  })

  test('its files are not taken for a shop’s', () => {
    const folder = newFolder()
    take(folder)
    expect(readdirSync(folder).filter((name) => !isOfHolding(name))).toEqual([])
    expect(readdirSync(folder)).toContain('in-use')
  })
})

describe('questions', () => {
  const answers: Answers = {
    greet: async ({ name }, say) => {
      say('one moment')
      return { greeting: `hello ${name}` }
    },
    no: async () => {
      throw new Refused('Not today.')
    },
  }

  test('[BX2] an answer, what was said on the way, and a refusal in its own words', async () => {
    const folder = newFolder()
    await take(folder).answer(answers)
    const path = join(folder, 'in-use.sock')
    const said: string[] = []
    expect(await askHolder(path, { do: 'greet', name: 'Ana' }, (sentence) => said.push(sentence))).toEqual({
      greeting: 'hello Ana',
    })
    expect(said).toEqual(['one moment'])
    await expect(askHolder(path, { do: 'no' })).rejects.toThrow('Not today.')
    await expect(askHolder(path, { do: 'toString' })).rejects.toThrow(
      /does not know how to answer "toString"/,
    )
  })

  test('[BX2] only this account may ask, and what is no question stops nobody', async () => {
    const folder = newFolder()
    await take(folder).answer(answers)
    const path = join(folder, 'in-use.sock')
    expect(statSync(path).mode & 0o077).toBe(0)
    for (const nonsense of ['', 'not json\n', '"text"\n', 'null\n', `${'x'.repeat(70_000)}\n`])
      await new Promise<void>((resolve) => {
        const socket = connect(path, () => socket.end(nonsense))
        socket
          .on('error', () => undefined)
          .on('data', () => undefined)
          .once('close', () => resolve())
      })
    expect(await askHolder(path, { do: 'greet', name: 'Bo' })).toEqual({ greeting: 'hello Bo' })
  })

  test('[BX2] a folder whose name is too long for a socket has it elsewhere, and says where', async () => {
    const folder = join(newFolder(), 'x'.repeat(120))
    mkdirSync(folder)
    const taken = take(folder)
    await taken.answer(answers)
    const { socket = '' } = holderNow(folder) ?? {}
    expect(Buffer.byteLength(socket)).toBeLessThan(104)
    expect(socket.startsWith(folder)).toBe(false)
    expect(await askHolder(socket, { do: 'greet', name: 'Cy' })).toEqual({ greeting: 'hello Cy' })
    taken.release()
    expect(existsSync(socket)).toBe(false)
  })

  test('[BX2] a program asks whoever runs, holds the folder where nobody does, and waits where nobody answers yet', async () => {
    const folder = newFolder()
    const alone = await askOrTake(folder, 'backup', { do: 'greet' })
    expect(alone).toHaveProperty('held')
    await expect(askOrTake(folder, 'pin', { do: 'greet' })).rejects.toThrow(
      /^A backup \(process \d+\) runs on .* does not answer yet/,
    )
    if ('held' in alone) alone.held.release()
    await take(folder).answer(answers)
    expect(await askOrTake(folder, 'backup', { do: 'greet', name: 'Di' })).toEqual({
      answer: { greeting: 'hello Di' },
    })
    await expect(askHolder(join(folder, 'nobody'), { do: 'greet' })).rejects.toThrow(NobodyThere)
  })
})
