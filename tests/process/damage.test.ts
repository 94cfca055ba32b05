/** A server that is started on a damaged folder says so: at the console, and on the board to whoever watches it. */
import { io } from 'socket.io-client'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type DamageNotice, PROTOCOL_VERSION } from '../../shared/protocol'
import { fillShop, makeFolders, withSql } from '../server/evidence/shop'
import { inRepo, startProgram } from './program'

const folders = makeFolders()
let sound = ''
beforeAll(async () => {
  sound = folders.fresh()
  await fillShop(sound)
})
afterAll(() => folders.remove())

const start = (folder: string) =>
  startProgram([inRepo('dist', 'server', 'main.js')], { PORT: '0', DATA_DIR: folder, LOG_LEVEL: 'info' })

test('[EV12] a damaged engine and a false row are named at the console and on the board; the rest goes on', async () => {
  const folder = folders.fresh(sound)
  withSql(folder, (client) =>
    client.exec(`update event set body = replace(body, 'Somebody', 'Somebodx') where stream = 'job:j1' and version = 1;
      update summary set summary = replace(summary, 'Somebody', 'Nobody') where job_id = 'j2'`),
  )
  const server = start(folder)
  try {
    const [, address = ''] = await server.says(/^Paintmark runs at (\S+)$/m)
    await expect
      .poll(() => server.stderr(), { timeout: 60_000 })
      .toMatch(/DAMAGED: The row of E-2 on the board/)
    expect(server.stderr()).toMatch(/DAMAGED: Stream "job:j1" is damaged at version 1: its hash does not fit/)
    const signIn = await fetch(`${address}/api/sign-in`, {
      method: 'POST',
      headers: { origin: address },
      body: JSON.stringify({ personId: 'ana', pin: '4711' }),
    })
    expect(signIn.status).toBe(201)
    const cookie = signIn.headers.get('set-cookie')?.split(';')[0] ?? ''
    const socket = io(address, { transports: ['websocket'], extraHeaders: { cookie, origin: address } })
    const board = (await socket
      .timeout(20_000)
      .emitWithAck('watch', { room: 'board', protocol: PROTOCOL_VERSION })) as {
      damage: DamageNotice[]
    }
    socket.disconnect()
    expect(board.damage.map(({ sentence }) => sentence)).toEqual([
      'The record of E-1 is damaged: nothing more can be entered on it, and it must not be released. Write what you do on it on the paper job sheet.',
      'What stands here of E-2 may be false: it is not what its record says.',
    ])
  } finally {
    await server.stop()
  }
})

test('[EV12] on a sound folder nothing is said, and it ends in order while the check still runs', async () => {
  const folder = folders.fresh(sound)
  const server = start(folder)
  await server.says(/^Paintmark runs at (\S+)$/m)
  const { code, stderr } = await server.stop()
  expect([code, /DAMAGED|broke off/.test(stderr)]).toEqual([0, false])
  const again = start(folder)
  try {
    await expect.poll(() => again.stderr(), { timeout: 60_000 }).toContain('nothing is damaged')
    expect(again.stderr()).not.toContain('DAMAGED')
  } finally {
    await again.stop()
  }
})
