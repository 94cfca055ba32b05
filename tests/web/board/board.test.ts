/** The board's order and what a change of one engine touches, its search, and the number it offers to a new job. */
import { createRoot } from 'solid-js'
import { describe, expect, test } from 'vitest'
import type { JobSummary } from '../../../shared/job/summary'
import type { DamageNotice } from '../../../shared/protocol'
import { makeBoard } from '../../../web/live/board'
import { makeClock } from '../../../web/live/clock'
import type { Link, Watcher } from '../../../web/live/link'
import { perEngine } from '../../../web/pages/board/per-engine'
import { matches } from '../../../web/pages/board/search'

const summary = (number: string, code: JobSummary['reason']['code'] = 'all_signed'): JobSummary => ({
  id: number,
  version: 1,
  number,
  engine: 'Orrath Q31',
  drives: 'work boat Pale Heron',
  serial: 'OQ31-20417',
  owner: 'Señora Rook, Uphill Farm',
  stages: [],
  cells: [],
  on: [],
  reason: { code } as JobSummary['reason'],
  signed: 0,
  minutes: { all: 0, signed: 0 },
})

/** A board whose server is the test; each summary is told as over the wire, new throughout. */
function boardOf(...summaries: JobSummary[]) {
  const opened = openBoard()
  opened.list(summaries)
  return opened
}

/** The server has not answered yet. */
function openBoard() {
  const listeners = new Map<string, (message: never) => void>()
  let watched: Watcher['watched'] = () => {}
  const leftAsked: ((summaries: JobSummary[]) => void)[] = []
  const board = makeBoard(
    {
      on: (name: string, listener: (message: never) => void) => {
        listeners.set(name, listener)
        return () => {}
      },
      watch: (watcher: Watcher) => {
        watched = watcher.watched
        return () => {}
      },
    } as unknown as Link,
    { load: async () => undefined, keep: () => undefined, forget: async () => undefined },
    () => new Promise((answer) => leftAsked.push((summaries) => answer({ summaries }))),
  )
  board.watch()
  const list = (all: JobSummary[], damage?: DamageNotice[], leftLater?: true) =>
    watched({
      ok: true,
      room: 'board',
      summaries: structuredClone(all),
      now: 0,
      ...(damage ? { damage } : {}),
      ...(leftLater ? { leftLater } : {}),
    })
  const say = (name: string, message: object) => listeners.get(name)?.(structuredClone(message) as never)
  return { board, list, leftAsked, say, tell: (summary: JobSummary) => say('summary', summary) }
}

test('what is told while the answer is on its way is not lost to an older answer', () => {
  const { board, list, tell } = openBoard()
  tell({ ...summary('E-1', 'flagged'), version: 2 })
  tell(summary('E-2', 'in_work'))
  expect([board.known(), board.ids()]).toEqual([false, []])
  list([summary('E-1', 'in_work')])
  expect(board.ids()).toEqual(['E-1', 'E-2'])
  expect(board.summary('E-1')?.reason.code).toBe('flagged')
})

test('what has left the shop comes after the others, and stays while they are told again', async () => {
  const { board, list, leftAsked, tell } = openBoard()
  const ids = async () => {
    await new Promise((done) => setTimeout(done))
    return board.ids()
  }
  list([summary('E-1'), summary('E-2')], [], true)
  expect(await ids()).toEqual(['E-1', 'E-2'])
  expect([board.known(), board.whole()]).toEqual([true, false])
  // One leaves and one comes back before the answer.
  tell({ ...summary('E-2', 'released'), version: 2 })
  tell({ ...summary('E-4', 'warranty'), version: 9 })
  leftAsked[0]?.([
    { ...summary('E-2', 'released'), version: 2 },
    summary('E-3', 'released'),
    summary('E-4', 'released'),
  ])
  expect(await ids()).toEqual(['E-4', 'E-1', 'E-2', 'E-3'])
  expect(board.whole()).toBe(true)
  // Told again, as after a lost link.
  list([summary('E-1')], [], true)
  expect(await ids()).toEqual(['E-1', 'E-2', 'E-3'])
  leftAsked[1]?.([summary('E-3', 'released')])
  expect(await ids()).toEqual(['E-1', 'E-3'])
})

test('[EV12] what is damaged comes with the board, changes by a word from the server, and goes when it is mended', () => {
  const notice = { jobId: 'j1', number: 'E-1', sentence: 'The record of E-1 is damaged.' }
  const { board, list, say } = boardOf(summary('E-1'))
  expect(board.damage()).toEqual([])
  list([summary('E-1')], [notice])
  expect(board.damage()).toEqual([notice])
  say('damage', { notices: [notice, { sentence: 'A photo is damaged or missing.' }] })
  expect(board.damage()).toHaveLength(2)
  list([summary('E-1')])
  expect(board.damage()).toEqual([])
})

describe('order', () => {
  const rows = [
    summary('E-10', 'in_work'),
    summary('E-9', 'in_work'),
    summary('E-11', 'flagged'),
    summary('E-12', 'second_late'),
  ]

  test('what needs attention first, then by number as people count', () => {
    expect(boardOf(...rows).board.ids()).toEqual(['E-12', 'E-11', 'E-9', 'E-10'])
  })

  test('a row moves when its urgency or its number changes, and an engine that comes has its place', () => {
    const { board, tell, list } = boardOf(...rows)
    const before = board.ids()
    tell({ ...summary('E-9', 'in_work'), version: 2, owner: 'Another' })
    expect(board.ids()).toBe(before)
    tell({ ...summary('E-9', 'second_late'), version: 3 })
    expect(board.ids()).toEqual(['E-9', 'E-12', 'E-11', 'E-10'])
    tell(summary('E-10b', 'flagged'))
    expect(board.ids()).toEqual(['E-9', 'E-12', 'E-10b', 'E-11', 'E-10'])
    tell({ ...summary('E-12', 'released'), version: 4 })
    expect(board.ids()).toEqual(['E-9', 'E-10b', 'E-11', 'E-10', 'E-12'])
    tell({ ...summary('E-12', 'second_late'), version: 3 })
    expect(board.ids()).toEqual(['E-9', 'E-10b', 'E-11', 'E-10', 'E-12'])
    list([summary('E-10', 'in_work'), summary('E-11', 'flagged')])
    expect(board.ids()).toEqual(['E-11', 'E-10'])
    expect(board.summary('E-12')).toBeUndefined()
  })
})

describe('a change of one engine', () => {
  const cells = (...standings: JobSummary['cells'][number]['standing'][]) =>
    standings.map((standing, n) => ({ stepId: `A${n}`, stage: 0, minutes: 9, standing }))
  const first = { ...summary('E-1', 'in_work'), cells: cells('in_work', 'ready', 'not_ready') }

  test('leaves what says the same as before as it was, cell by cell', () => {
    const { board, tell } = boardOf(first)
    const before = board.summary('E-1') as JobSummary
    tell({ ...first, version: 2 })
    const second = board.summary('E-1') as JobSummary
    expect(second).toEqual({ ...first, version: 2 })
    expect(second.cells).toBe(before.cells)
    expect(second.reason).toBe(before.reason)
    tell({ ...first, version: 3, cells: cells('done', 'ready', 'not_ready', 'not_ready') })
    const third = board.summary('E-1') as JobSummary
    expect(third.cells).toEqual(cells('done', 'ready', 'not_ready', 'not_ready'))
    expect(third.cells.map((cell, n) => cell === before.cells[n])).toEqual([false, true, true, false])
    expect(before.cells).toEqual(first.cells)
  })

  test('has that engine reckoned again and no other; the list stays while it says the same', () => {
    createRoot((dispose) => {
      const { board, tell, list } = boardOf(first, summary('E-2', 'in_work'), summary('E-3', 'in_work'))
      const asked: string[] = []
      const owners = perEngine(board, ({ number, owner }) => {
        asked.push(number)
        return owner === 'Nobody' ? [] : { number, owner }
      })
      const before = owners()
      expect(before.map(({ number }) => number)).toEqual(['E-1', 'E-2', 'E-3'])
      asked.length = 0
      tell({ ...summary('E-2', 'in_work'), version: 2, serial: 'another' })
      expect(owners()).toBe(before)
      expect(asked).toEqual(['E-2'])
      tell({ ...summary('E-2', 'in_work'), version: 3, owner: 'Mr Rook' })
      expect(owners()).toEqual([before[0], { number: 'E-2', owner: 'Mr Rook' }, before[2]])
      expect(owners()[2]).toBe(before[2])
      tell({ ...summary('E-2', 'in_work'), version: 4, owner: 'Nobody' })
      expect(owners()).toEqual([before[0], before[2]])
      expect(asked).toEqual(['E-2', 'E-2', 'E-2'])
      // A row that moves is not reckoned again for it; one that left is gone.
      tell({ ...summary('E-3', 'flagged'), version: 2 })
      expect(owners().map(({ number }) => number)).toEqual(['E-3', 'E-1'])
      list([first])
      expect(owners().map(({ number }) => number)).toEqual(['E-1'])
      expect(asked.filter((number) => number === 'E-1')).toEqual([])
      dispose()
    })
  })
})

describe('search', () => {
  test.each(['E-101', 'e101', '20417', 'orrath', 'ROOK', 'senora', 'heron', 'pale 101', 'uphill orrath'])(
    '%s finds it',
    (query) => {
      expect(matches(summary('E-101'), query)).toBe(true)
    },
  )
  test.each(['E-102', 'ottersby', 'heron otter'])('%s does not', (query) => {
    expect(matches(summary('E-101'), query)).toBe(false)
  })
})

describe('the clock', () => {
  test('is the server’s, half the round trip reckoned in', () => {
    let device = 1000
    const clock = makeClock(() => device)
    device = 1200
    clock.learn(1000, 50_100)
    expect(clock.now()).toBe(50_200)
    expect(clock.offsetMs()).toBe(49_000)
  })

  test('does not take a slow answer over a quick one', () => {
    let device = 0
    const clock = makeClock(() => device)
    device = 10
    clock.learn(0, 5_005)
    device = 4_010
    clock.learn(10, 5_100)
    expect(clock.offsetMs()).toBe(5_000)
  })

  test('takes even a slow answer that shows the quick one to be wrong by now', () => {
    let device = 0
    const clock = makeClock(() => device)
    device = 10
    clock.learn(0, 5_005)
    device = 4_010
    clock.learn(10, 100_000)
    expect(clock.now()).toBe(102_000)
  })

  test('goes at the pace the server says, from the moment it says so', () => {
    let device = 0
    const clock = makeClock(() => device)
    device = 20
    clock.setPace(0, 600_000, 60)
    expect(clock.now()).toBe(600_600)
    device = 1_020
    expect(clock.now()).toBe(660_600)
    expect(clock.offsetMs()).toBe(659_580)
    clock.setPace(1_020, 700_000, 0)
    device = 9_000
    expect(clock.now()).toBe(700_000)
  })
})
