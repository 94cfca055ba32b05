/** The device counts its entries in two places, and tells of those that the shop never got. */
import { createRoot } from 'solid-js'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import type { EntriesCounted, EntriesMissing } from '../../../shared/protocol'
import { makeEntryCount } from '../../../web/live/entry-count'
import { makeLostEntries } from '../../../web/live/lost-entries'
import type { QueuedCommand } from '../../../web/live/outbox'
import { lostWords } from '../../../web/live/unheld'

/** A browser's cookies and its storage, each of which may be cleared without the other. */
let cookies = new Map<string, string>()
let stored = new Map<string, string>()
beforeEach(() => {
  cookies = new Map()
  stored = new Map()
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => stored.get(key) ?? null,
    setItem: (key: string, value: string) => void stored.set(key, value),
  })
  vi.stubGlobal('document', {
    get cookie() {
      return [...cookies].map(([name, value]) => `${name}=${value}`).join('; ')
    },
    set cookie(text: string) {
      const [pair = ''] = text.split(';')
      const [name = '', value = ''] = pair.split('=')
      if (text.includes('max-age=0;')) cookies.delete(name)
      else cookies.set(name, value)
    },
  })
})
afterEach(() => void vi.unstubAllGlobals())

const SHOP = '0123456789abcdef'
const countOf = (key: string | undefined = SHOP) => makeEntryCount(() => key)

describe('the count', () => {
  test('from 1, on through a reload, and for each shop its own', () => {
    expect([countOf().next(), countOf().next(), countOf('another-shop-').next()]).toEqual([1, 2, 1])
    expect(countOf().next()).toBe(3)
    expect(makeEntryCount(() => undefined).next()).toBeUndefined()
  })

  test.each([
    ['all that pages keep is gone', () => stored.clear()],
    ['the cookies are gone', () => cookies.clear()],
    ['one of them is nonsense', () => stored.set(`paintmark-count-${SHOP}`, 'NaN.-7')],
  ])('%s: it goes on', (_, happens) => {
    const count = countOf()
    count.next()
    count.next()
    count.settle(1)
    happens()
    expect(countOf().now()).toEqual({ upTo: 2, since: 1 })
    expect(countOf().next()).toBe(3)
  })

  test('of many shops at one address, as of a demonstration’s runs, only the last few have a cookie', () => {
    for (let run = 0; run < 9; run++) countOf(`run-${run}`).next()
    expect([...cookies.keys()]).toEqual([5, 6, 7, 8].map((run) => `paintmark-count-run-${run}`))
    expect(countOf('run-0').next()).toBe(2)
  })

  test('settled no further than it goes, and never back; refusals up to there are forgotten', () => {
    const count = countOf()
    for (let n = 0; n < 4; n++) count.next()
    count.refused(2)
    count.refused(4)
    count.refused(undefined)
    count.settle(3)
    count.settle(1)
    expect([count.now(), count.refusals()]).toEqual([{ upTo: 4, since: 3 }, [4]])
    count.settle(99)
    expect(count.now()).toEqual({ upTo: 4, since: 4 })
  })
})

describe('what never arrived', () => {
  const waiting =
    (...numbers: number[]) =>
    async () =>
      numbers.map(
        (entryNumber): QueuedCommand => ({
          stream: 'job:j',
          command: { commandId: `c${entryNumber}`, type: 'ClaimStep', stepId: 's', doneAt: 0, entryNumber },
          by: 'ana',
        }),
      )
  const gap = (first: number, last = first): EntriesMissing => ({ first, last, count: last - first + 1 })

  /** A server that answers as told, in turn. */
  function looking(everywhere: () => Promise<QueuedCommand[]>, ...says: (EntriesMissing[] | 'silent')[]) {
    const asked: EntriesCounted[] = []
    vi.stubGlobal('fetch', async (_: string, { body }: { body: string }) => {
      asked.push(JSON.parse(body))
      const missing = says.shift()
      if (missing === 'silent') throw new Error('no signal')
      return { ok: true, status: 200, json: async () => ({ missing }) }
    })
    const count = countOf()
    for (let n = 0; n < 5; n++) count.next()
    const waits: number[] = []
    const entries = createRoot(() =>
      makeLostEntries({ count, outbox: { everywhere }, wait: async (ms) => void waits.push(ms) }),
    )
    return { count, entries, asked, waits }
  }

  test('nothing: all below what waits is settled, and refusals are no gap', async () => {
    const { count, entries, asked } = looking(waiting(4, 5), [])
    count.refused(2)
    await entries.look()
    expect(asked).toEqual([{ upTo: 5, since: 0, waiting: [4, 5, 2] }])
    expect([entries.lost(), count.now()]).toEqual([[], { upTo: 5, since: 3 }])
  })

  test('missing twice is lost, until somebody has looked', async () => {
    const { count, entries, waits } = looking(waiting(), [gap(2), gap(4, 5)], [gap(4, 5)])
    await entries.look()
    expect([entries.lost(), waits]).toEqual([[gap(4, 5)], [10_000]])
    expect(count.now()?.since).toBe(0)
    entries.putAside()
    expect([entries.lost(), count.now()?.since]).toEqual([[], 5])
  })

  test('a silent server, or a shelf that cannot be read, tells nothing and settles nothing', async () => {
    const { count, entries } = looking(waiting(), 'silent')
    await entries.look()
    const broken = looking(() => Promise.reject(new Error('broken')))
    await broken.entries.look()
    expect([entries.lost(), broken.asked, count.now()?.since]).toEqual([[], [], 0])
  })

  test('in words: how many, when, and what to do', () => {
    const moment = (at: number) => `${at} o’clock`
    expect(lostWords({ ...gap(4, 5), after: 9, before: 10 }, moment)).toBe(
      '2 entries made on this device, after 9 o’clock and before 10 o’clock, never reached the shop: this browser no longer has what it kept. Look at what was done then and enter it again.',
    )
    expect(lostWords(gap(1), moment)).toMatch(/^1 entry made on this device never reached the shop:/)
  })
})
