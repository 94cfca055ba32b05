/** A second signer's PIN that waits: apart from its entry, gone with the answer, and never shown as a signature before. */
import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import type { JobCommand } from '../../../shared/job/commands'
import type { PlannedJob } from '../../../shared/job/types'
import type { Answer, Fault, Me } from '../../../shared/protocol'
import { isSealedHere } from '../../../web/job/step/second-words'
import { openDeviceStore } from '../../../web/live/device-store'
import { commandIdOf, makeOutbox, type QueuedCommand, refusedIn } from '../../../web/live/outbox'
import { newReplica, receiveEvents, receiveState, withQueue } from '../../../web/live/replica'
import { openSealedPins, sealPin } from '../../../web/live/sealed-pins'
import { makeSealedSeconds } from '../../../web/live/sealed-seconds'
import { type Act, digestOf } from '../../shop/acts'
import { testShop } from '../../shop/shop'
import { headSigned } from '../../shop/stories'
import { claim, openServer, queued } from './one-job'

const HOUR = 3_600_000
beforeEach(() => vi.stubGlobal('indexedDB', new IDBFactory()))
afterEach(() => vi.unstubAllGlobals())

const onDisk = async (database: string, table: string) => (await openDeviceStore(database, table)).entries()

async function newKey() {
  const pair = await crypto.subtle.generateKey(
    { name: 'RSA-OAEP', modulusLength: 2048, publicExponent: Uint8Array.of(1, 0, 1), hash: 'SHA-256' },
    true,
    ['encrypt', 'decrypt'],
  )
  return Buffer.from(await crypto.subtle.exportKey('spki', pair.publicKey)).toString('base64')
}

describe('a sealed PIN on its device', () => {
  test('[PE11] lies under its command’s id in a store of its own, through a reload, until it is thrown away', async () => {
    const before = await openSealedPins('shop')
    await before.keep('c1', 'sealed 1')
    await before.keep('c2', 'sealed 2')
    const after = await openSealedPins('shop')
    expect(await after.of('c1')).toBe('sealed 1')
    expect(await (await openSealedPins('another')).of('c1')).toBeUndefined()
    await after.drop('c1')
    expect(await after.of('c1')).toBeUndefined()
    expect((await onDisk('paintmark-sealed-shop', 'pins')).map(([id]) => id)).toEqual(['c2'])
  })

  test('[PE11] whose entry is gone it goes too; what another page has just kept stays', async () => {
    let now = 0
    const pins = await openSealedPins('shop', () => now)
    await pins.keep('waits', 'a')
    await pins.keep('answered', 'b')
    now = 2 * HOUR
    await pins.keep('just now', 'c')
    await pins.sweep(new Set(['waits']))
    expect((await onDisk('paintmark-sealed-shop', 'pins')).map(([id]) => id).sort()).toEqual([
      'just now',
      'waits',
    ])
  })

  test('[PE10] twice the same is sealed differently', async () => {
    const terms = { commandId: 'c1', jobId: 'j1', stepId: 'head', personId: 'bo', digest: 'a'.repeat(64) }
    const key = await newKey()
    const [one, other] = [await sealPin('4711', terms, key), await sealPin('4711', terms, key)]
    expect(one).toMatch(/^[A-Za-z0-9+/]+=*$/)
    expect(other).not.toBe(one)
  })
})

describe('giving it', () => {
  const second = { stepId: 'head', setId: 'step', personId: 'bo', pin: '4711', content: 'what bo saw' }
  async function device(me: Partial<Me> | undefined, keeps = true) {
    const store = await openSealedPins('shop')
    if (!keeps) store.keep = () => Promise.reject(new DOMException('full', 'QuotaExceededError'))
    const sent: unknown[][] = []
    const kept: (string | undefined)[] = []
    const seconds = makeSealedSeconds({
      session: { me: () => me as Me | undefined, signInId: () => 's1' },
      sender: {
        sendToJob: async (...given) => {
          sent.push(given)
          kept.push(await store.of(given[2]?.commandId ?? ''))
          return { ok: true, version: 1, events: [] }
        },
      },
      pins: async () => ({ store, seal: sealPin }),
    })
    return { seconds, sent, kept }
  }

  test('[PE11] it is kept before its entry waits, and is no part of that', async () => {
    const { seconds, sent, kept } = await device({ pinKey: await newKey() })
    expect(seconds.offered()).toBe(true)
    expect(await seconds.give('j1', second)).toBeUndefined()
    await vi.waitFor(() => expect(kept).toEqual([expect.stringMatching(/^[A-Za-z0-9+/]{300,}/)]))
    expect(sent).toEqual([
      [
        'j1',
        {
          type: 'SecondSignStep',
          stepId: 'head',
          setId: 'step',
          look: {
            personId: 'bo',
            // printf %s 'what bo saw' | sha256sum
            digest: 'db2359fed14b2b7312699bdff929e50fe8963208e3fbc5e7a33b38380bcf5f08',
          },
        },
        { commandId: expect.stringMatching(/^[0-9a-f-]{36}$/) },
      ],
    ])
    expect(JSON.stringify(sent)).not.toContain('4711')
    expect(JSON.stringify(sent)).not.toContain(kept[0])
  })

  test('[PE11] where the device has no room nothing is sent, and it is said', async () => {
    const { seconds, sent } = await device({ pinKey: await newKey() }, false)
    expect(await seconds.give('j1', second)).toMatch(/could not keep the PIN/)
    expect(sent).toEqual([])
  })

  test('[PE10] it is not offered before the key was fetched, nor where the way is not safe', async () => {
    expect((await device(undefined)).seconds.offered()).toBe(false)
    const { seconds } = await device({ pinKey: await newKey() })
    vi.stubGlobal('crypto', {})
    expect(seconds.offered()).toBe(false)
  })
})

describe('the answer', () => {
  const entry = (id: string): QueuedCommand => ({
    stream: 'job:j1',
    command: {
      commandId: id,
      doneAt: 1,
      type: 'SecondSignStep',
      stepId: 'head',
      look: { personId: 'bo', digest: 'a'.repeat(64) },
    },
    by: 'ana',
  })
  const told = { code: 'wrong_pin', sentence: 'The PIN was wrong.' }
  const taken: Answer = { ok: true, version: 1, events: [] }

  test('[SS22] taken as a look and no signature, the entry stays with its sentence until somebody has read it', async () => {
    const outbox = makeOutbox({
      send: async () => taken,
      unmet: ({ command }) => (command.commandId === 'c1' ? told : undefined),
    })
    await outbox.add(entry('c1'))
    await outbox.add(entry('c2'))
    expect(refusedIn(outbox.entries(), 'job:j1')).toEqual([{ ...entry('c1'), refused: told }])
    outbox.dismiss('c1')
    expect(outbox.entries()).toEqual([])
  })

  test('[PE12] one whose PIN has to wait lets the others go first, and is sent again', async () => {
    const waits: Fault = { ok: false, code: 'pin_waits', sentence: 'Wait.' }
    const sent: string[] = []
    let over = false
    const outbox = makeOutbox({
      async send(queued) {
        sent.push(commandIdOf(queued))
        return commandIdOf(queued) === 'c1' && !over ? waits : taken
      },
      wait: async () => undefined,
    })
    const first = outbox.add(entry('c1'))
    await outbox.add(entry('c2'))
    over = true
    expect(await first).toEqual(taken)
    expect(sent.indexOf('c2')).toBeLessThan(sent.lastIndexOf('c1'))
    expect(outbox.entries()).toEqual([])
  })
})

describe('what the device shows', () => {
  const server = openServer()
  const acts = headSigned().flat(9) as Act[]
  let replica = receiveState(newReplica('j1', testShop), server.job())
  const enter = (command: JobCommand, by: string, commandId?: string) => {
    const context = server.context(by, commandId)
    replica = withQueue(replica, [...replica.pending, queued(command, context)])
    return context
  }

  test('[SS20] [SS21] [SS23] a look on its own entries that wait, with the digest that the server comes to', () => {
    const waiting = acts.map(({ command, by }) => ({ command, context: enter(command, by) }))
    const digest = digestOf(replica.job as PlannedJob, 'head', 'step')
    const second: JobCommand = {
      type: 'SecondSignStep',
      stepId: 'head',
      setId: 'step',
      look: { personId: 'bo', digest },
    }
    enter(second, 'ana')
    expect(replica.job.steps.head?.sets.step).toMatchObject({
      first: { by: 'ana' },
      look: { personId: 'bo' },
    })
    expect(replica.job.steps.head?.sets.step).not.toHaveProperty('second')
    expect(isSealedHere(replica.pending, 'head', 'step')).toBe(true)
    expect(isSealedHere(replica.pending, 'caps', 'step')).toBe(false)

    // Others went on elsewhere meanwhile, and the clock of this device was put right.
    server.submit(claim(), server.context('bo'))
    for (const { command, context } of waiting)
      expect(server.submit(command, { ...context, doneAt: context.doneAt + 7 * HOUR })).toMatchObject({
        ok: true,
      })
    expect(digestOf(server.job() as PlannedJob, 'head', 'step')).toBe(digest)

    replica = withQueue(receiveEvents(replica, server.after(2)), [])
    expect(isSealedHere(replica.pending, 'head', 'step')).toBe(false)
  })
})
