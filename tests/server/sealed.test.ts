/**
 * A second signer's PIN that waited without signal, sealed by the browser's own code: what the server makes of it, over
 * HTTP and over a socket, and that it is nowhere afterwards. PE10 to PE13, SS21 and SS22; the key of RFC 8017's OAEP.
 */
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { v7 } from 'uuid'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { secretsIn } from '../../server/backups/secrets'
import { makePinKey } from '../../server/people/pin-key'
import { checkFolder } from '../../server/proof/check'
import type { PlannedJob } from '../../shared/job/types'
import type { Answer, Fault } from '../../shared/protocol'
import type { SealedTerms } from '../../shared/sealed-pin'
import { sealPin } from '../../web/live/sealed-pins'
import { digestOf } from '../shop/acts'
import { silent } from '../shop/silent'
import { stepOne } from '../shop/yard'
import { browser, command, PINS } from './house'
import { makeWire } from './wire'

let wire: Awaited<ReturnType<typeof makeWire>>
let ana: Awaited<ReturnType<typeof wire.at>>
beforeAll(async () => {
  wire = await makeWire()
  ana = await wire.at('ana')
})
afterAll(() => wire.close())

const newFolder = () => mkdtempSync(join(tmpdir(), 'paintmark-sealed-'))
const folder = () => dirname(wire.house.rooms.web.folder)
const job = async () => (await wire.house.shop.desk.job('j1')) as PlannedJob
const key = async () => (await ana.page.get('/api/me')).json.pinKey as string
const setOf = async () => (await job()).steps.S2?.sets.step

/** Ana's S2, done and signed again: every test begins with it, and no second signature. */
async function signed() {
  if (await setOf()) {
    await send(command({ type: 'RestartRound', jointId: 'J2', position: 1, how: 'slackened' }))
    await send(command({ type: 'PutDownStep', stepId: 'S2' }))
  }
  const work = stepOne.map((entry) =>
    JSON.parse(JSON.stringify(entry).replaceAll('S1', 'S2').replaceAll('J1', 'J2')),
  )
  for (const entry of work) expect(await send(command(entry))).toMatchObject({ ok: true })
}

const send = (body: object, sealed?: string) =>
  ana.ask<Answer | Fault>('command', {
    stream: 'job:j1',
    command: body,
    ...(sealed === undefined ? {} : { sealed }),
  })

/** Bo's look at S2 on Ana's tablet as it stands now, with the PIN sealed to the server's key. */
async function look(pin: string = PINS.bo, but: Partial<SealedTerms> = {}, withKey?: string) {
  const { personId = 'bo', digest = digestOf(await job(), 'S2', 'step') } = but
  const body = command({
    type: 'SecondSignStep',
    stepId: 'S2',
    setId: 'step',
    signInId: ana.signInId,
    look: { personId, digest },
    doneAt: wire.house.shop.now(),
  }) as { commandId: string } & Record<string, unknown>
  const terms = {
    commandId: body.commandId,
    signInId: ana.signInId,
    jobId: 'j1',
    stepId: 'S2',
    setId: 'step',
  }
  return {
    body,
    sealed: await sealPin(pin, { ...terms, personId, digest, ...but }, withKey ?? (await key())),
  }
}
const flagged = (flag: string) => ({
  ok: true,
  events: [{ event: { type: 'LookNoted', personId: 'bo', stepId: 'S2', setId: 'step', flag } }],
})

describe('the key', () => {
  test('[PE13] is made when a device first asks, is its owner’s alone, one of a backup’s secrets, and stays', async () => {
    expect((await browser(wire.house.app).get('/api/me')).json).not.toHaveProperty('pinKey')
    const first = await key()
    expect(statSync(join(folder(), 'pins.key')).mode & 0o777).toBe(0o600)
    expect(Object.keys(secretsIn(folder()))).toContain('pins.key')
    expect(await makePinKey(folder(), silent).public()).toBe(first)
    expect(await key()).toBe(first)
  })

  test('[PE13] missing or damaged it is made anew, and opens nothing that was sealed before', async () => {
    const own = newFolder()
    const before = makePinKey(own, silent)
    const terms = { commandId: v7(), jobId: 'j1', stepId: 'S2', personId: 'bo', digest: 'a'.repeat(64) }
    const sealed = await sealPin('4711', terms, (await before.public()) as string)
    expect(before.open(sealed, terms)).toBe('4711')
    for (const spoil of [
      () => rmSync(join(own, 'pins.key')),
      () => writeFileSync(join(own, 'pins.key'), 'no key'),
    ]) {
      spoil()
      const after = makePinKey(own, silent)
      expect(after.open(sealed, terms)).toBeUndefined()
      expect(await after.public()).toMatch(/^[A-Za-z0-9+/]{500,}=*$/)
      expect(after.open(sealed, terms)).toBeUndefined()
    }
    rmSync(own, { recursive: true })
  })
})

describe('what was sealed', () => {
  test('[PE10] opens for the very entry, and for no other command, sign-in, job, step, set, person or digest', async () => {
    const own = newFolder()
    const server = makePinKey(own, silent)
    const publicKey = (await server.public()) as string
    const terms: SealedTerms = {
      commandId: v7(),
      signInId: v7(),
      jobId: 'j1',
      stepId: 'S2',
      setId: 'step',
      personId: 'bo',
      digest: 'a'.repeat(64),
    }
    for (const pin of ['0000', '123456789012'])
      expect(server.open(await sealPin(pin, terms, publicKey), terms)).toBe(pin)
    const sealed = await sealPin('4711', terms, publicKey)
    for (const name of Object.keys(terms))
      expect([name, server.open(sealed, { ...terms, [name]: `${terms[name as 'stepId']}x` })]).toEqual([
        name,
        undefined,
      ])
    const bytes = Buffer.from(sealed, 'base64')
    expect(bytes).toHaveLength(384)
    const odd = [
      bytes.subarray(0, 383),
      bytes.subarray(1),
      Buffer.concat([bytes, Buffer.of(0)]),
      Buffer.from(bytes.map((byte, at) => (at === 200 ? byte ^ 1 : byte))),
      Buffer.alloc(384),
      Buffer.alloc(0),
    ]
    for (const one of odd) expect(server.open(one.toString('base64'), terms)).toBeUndefined()
    // Twice the same is never the same: nobody can try PINs against what lies on a device.
    expect(await sealPin('4711', terms, publicKey)).not.toBe(sealed)
    rmSync(own, { recursive: true })
  })

  test('[SS21] right: it is the second person’s signature, from when they looked; a resend, with the PIN or without, is the same', async () => {
    await signed()
    const { body, sealed } = await look()
    wire.house.pass(8 * 3_600_000)
    const answer = await send(body, sealed)
    expect(answer).toMatchObject({
      ok: true,
      events: [{ event: { type: 'StepSecondSigned', by: 'bo', through: 'sealed', doneAt: body.doneAt } }],
    })
    expect(await send(body, sealed)).toEqual(answer)
    expect(await send(body)).toEqual(answer)
    const { version } = answer as { version: number }
    expect((await job()).version).toBe(version)
  })

  test('[SS22] wrong: a flagged look by whoever has the tablet, once however often it is sent, and one try only [PE12]', async () => {
    await signed()
    const { body, sealed } = await look('0000')
    const answer = await send(body, sealed)
    expect(answer).toMatchObject(flagged('wrong_pin'))
    expect(answer).toMatchObject({ events: [{ event: { by: 'ana' } }] })
    for (let n = 0; n < 5; n++) expect(await send(body, sealed)).toEqual(answer)
    expect(await setOf()).toMatchObject({ first: { by: 'ana' }, look: { personId: 'bo', flag: 'wrong_pin' } })
    // Five tries would have to wait by now.
    expect(
      (await browser(wire.house.app).post('/api/sign-in', { personId: 'bo', pin: PINS.bo })).status,
    ).toBe(201)
  })

  test('[PE10] [SS22] without its PIN, cut short, sealed to another key or for another entry: a flagged look', async () => {
    await signed()
    const own = newFolder()
    const other = (await makePinKey(own, silent).public()) as string
    rmSync(own, { recursive: true })
    const plain = await look()
    const replayed = await look()
    const tries = [
      { ...plain, sealed: undefined },
      { ...(await look()), sealed: plain.sealed.slice(0, 400) },
      await look(PINS.bo, {}, other),
      { ...replayed, sealed: plain.sealed },
      await look(PINS.bo, { signInId: 'another' }),
    ]
    for (const { body, sealed } of tries)
      expect(await send(body, sealed)).toMatchObject(flagged('pin_unreadable'))
    expect(await setOf()).not.toHaveProperty('second')
  })

  test('[PE10] from another device it is not taken, and with a sign-in of its own it opens as nothing', async () => {
    await signed()
    const { body, sealed } = await look()
    const bo = await wire.at('bo')
    const there = (sent: object) => bo.ask('command', { stream: 'job:j1', command: sent, sealed })
    expect(await there(body)).toMatchObject({ ok: false, code: 'not_this_device' })
    const { signInId: _, ...bare } = body
    expect(await there({ ...bare, commandId: v7() })).toMatchObject(flagged('pin_unreadable'))
    expect(await send(body, sealed)).toMatchObject({ ok: true, events: [{ event: { by: 'bo' } }] })
  })

  test('[SS21] changed by somebody else meanwhile: a flagged look', async () => {
    await signed()
    const { body, sealed } = await look()
    await signed()
    expect(await send(body, sealed)).toMatchObject(flagged('changed'))
  })

  test('[PE12] after wrong PINs it waits, is not lost, and counts when the wait is over', async () => {
    await signed()
    const page = browser(wire.house.app)
    for (let n = 0; n < 3; n++) await page.post('/api/sign-in', { personId: 'bo', pin: '0000' })
    const { body, sealed } = await look()
    expect(await send(body, sealed)).toMatchObject({ ok: false, code: 'pin_waits' })
    expect(await wire.house.shop.desk.isAnswered(body.commandId)).toBe(false)
    wire.house.pass(10 * 60_000)
    expect(await send(body, sealed)).toMatchObject({
      ok: true,
      events: [{ event: { type: 'StepSecondSigned' } }],
    })
  })

  test('[PE11] over HTTP it stands beside the command too; in the command it is no message', async () => {
    await signed()
    const { body, sealed } = await look()
    const odd = await ana.page.post('/api/jobs/j1/commands', { ...body, sealed: 'not base64!' })
    expect([odd.status, odd.json.path]).toEqual([400, '/sealed'])
    expect(await send({ ...body, sealed })).toMatchObject({ ok: false, code: 'bad_message' })
    const answer = await ana.page.post('/api/jobs/j1/commands', { ...body, sealed })
    expect([answer.status, answer.json.events[0].event.by]).toEqual([201, 'bo'])
    expect(await send(body)).toMatchObject({ ok: true, version: answer.json.version })
  })

  test('[PE1] [PE11] neither PIN nor what was sealed is anywhere in the data folder, and the folder verifies', async () => {
    await signed()
    const { body, sealed } = await look()
    expect(await send(body, sealed)).toMatchObject({ ok: true, events: [{ event: { by: 'bo' } }] })
    const files = readdirSync(folder(), { recursive: true, encoding: 'utf8' }).filter((name) =>
      statSync(join(folder(), name)).isFile(),
    )
    expect(files).toContain('paintmark.db-wal')
    for (const name of files) {
      const bytes = readFileSync(join(folder(), name))
      expect([name, bytes.includes(PINS.bo), bytes.includes(sealed.slice(0, 40))]).toEqual([
        name,
        false,
        false,
      ])
    }
    // The last entries carry no mark before a second has passed.
    const { faults } = await checkFolder({ folder: folder() })
    expect(faults.filter(({ kind }) => kind !== 'marks')).toEqual([])
  })
})
