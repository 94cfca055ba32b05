/** What somebody must do today, by role; what changed since they looked; what a promise leaves. */
import { describe, expect, test } from 'vitest'
import { workingDays } from '../../../shared/format'
import type { JobSummary } from '../../../shared/job/summary'
import { format } from '../../../web/format'
import { promiseState } from '../../../web/job/promise-words'
import {
  changeOf,
  keepLooked,
  type Looked,
  lookAt,
  lookAtAll,
  newestFirst,
  readLooked,
} from '../../../web/pages/board/since'
import { type Looker, mostPressing, toDoOn } from '../../../web/pages/board/today'
import { pagesOf, rowsFor, turned } from '../../../web/pages/wall/pages'

/** Tuesday, 24 November, in the middle of the day wherever this runs. */
const NOW = new Date(2026, 10, 24, 12).getTime()
const DAY = 86_400_000
const words = {
  ...format,
  person: (id: string) => id.toUpperCase(),
  moment: (at: number) => `day ${(at - NOW) / DAY}`,
  date: String,
}
const everything = { classes: ['A' as const, 'B' as const, 'C' as const], families: [] }

const summary = (number: string, some: Partial<JobSummary> = {}): JobSummary => ({
  id: number.toLowerCase(),
  version: 1,
  number,
  engine: 'Orrath Q31',
  serial: '1',
  owner: 'Owner',
  plan: { title: 'Plan', edition: 1, invented: true, family: 'diesel' },
  stages: [],
  cells: [],
  on: [],
  reason: { code: 'nobody_on_it', step: 'A1', title: 'Strip', ready: 1 },
  signed: 0,
  minutes: { all: 0, signed: 0 },
  ...some,
})
const looker = (roles: Looker['roles'], entered = everything): Looker => ({
  id: 'me',
  roles,
  entered: { mayDo: entered, maySecondSign: entered },
})
const toDo = (summaries: JobSummary[], who: Looker) =>
  mostPressing(summaries.flatMap((summary) => toDoOn(summary, who, NOW, words)))
const texts = (summaries: JobSummary[], who: Looker) =>
  toDo(summaries, who).map(({ number, text }) => `${number} ${text}`)
const hold = (kind: 'part' | 'approval' | 'question' | 'damage' | 'tool', what: string, days?: number) => ({
  kind,
  what,
  stepIds: ['A1'],
  ...(days === undefined ? {} : { expectedAt: NOW + days * DAY }),
})

describe('today, in the office', () => {
  const writer = looker(['service_writer'])

  test('holds are asked after when they are due, past or without a date; late ones first', () => {
    const rows = [
      summary('E-1', { holds: [hold('part', 'seal', 3)] }),
      summary('E-2', { holds: [hold('part', 'gasket', 0)] }),
      summary('E-3', { holds: [hold('approval', 'new elbow', -1)] }),
      summary('E-4', { holds: [hold('question', 'old injectors back?')] }),
      summary('E-5', { holds: [hold('tool', 'long socket', -1)] }),
    ]
    expect(texts(rows, writer)).toEqual([
      'E-3 Owner’s approval: new elbow, expected day -1',
      'E-2 Ask about the part: gasket',
      'E-4 Question: old injectors back?',
    ])
  })

  test('damage is to be seen to until its hold is cleared, whatever is expected', () => {
    expect(texts([summary('E-1', { holds: [hold('damage', 'chipped liner', 9)] })], writer)).toEqual([
      'E-1 Damage: chipped liner',
    ])
  })

  test('promises due within two working days, and those that are over', () => {
    const rows = [
      summary('E-1', { promised: '2026-11-26' }),
      summary('E-2', { promised: '2026-11-27' }),
      summary('E-3', { promised: '2026-11-23' }),
    ]
    expect(texts(rows, writer)).toEqual([
      'E-3 Promised for Mon 23 Nov: 1 working day over',
      'E-1 Promised for Thu 26 Nov: 2 working days left',
    ])
  })

  test('a released engine wants nobody', () => {
    const gone = summary('E-1', {
      promised: '2026-11-01',
      reason: { code: 'released', kind: 'to_owner', number: 'R-1' },
    })
    expect(texts([gone], looker(['service_writer', 'supervisor', 'technician']))).toEqual([])
  })
})

describe('today, at the bench', () => {
  const ready = [
    { stepId: 'A1', title: 'Main caps', class: 'A' as const },
    { stepId: 'A2', title: 'Sump', class: 'B' as const },
  ]

  test('the first step I am entered for, and how many more', () => {
    expect(texts([summary('E-1', { ready })], looker(['technician']))).toEqual([
      'E-1 Ready for you: A1 Main caps, and 1 more',
    ])
    const lesser = looker(['technician'], { classes: ['B'], families: [] } as never)
    expect(texts([summary('E-1', { ready })], lesser)).toEqual(['E-1 Ready for you: A2 Sump'])
    const petrol = looker(['technician'], { classes: ['A'], families: ['petrol'] } as never)
    expect(texts([summary('E-1', { ready })], petrol)).toEqual([])
  })

  test('a line leads to its bench', () => {
    const [todo] = toDo([summary('E-1', { ready })], looker(['technician']))
    expect(todo?.href).toBe('/jobs/e-1/bench/A1')
  })

  test('questions on what is mine, not on what is another’s', () => {
    const cells = (by: string) => [{ stepId: 'A1', stage: 0, minutes: 1, standing: 'on_hold' as const, by }]
    const asked = (by: string) =>
      summary('E-1', { holds: [hold('question', 'which shim?')], cells: cells(by) })
    expect(texts([asked('me')], looker(['technician']))).toEqual(['E-1 Question for you: which shim?'])
    expect(texts([asked('other')], looker(['technician']))).toEqual([])
  })

  test('another’s work to be looked at before it is covered; never my own', () => {
    const toLook = (by: string) =>
      summary('E-1', {
        toLook: [{ stepId: 'A1', title: 'Main caps', class: 'A' as const, by, before: 'Sump' }],
      })
    expect(texts([toLook('bo')], looker(['technician']))).toEqual([
      'E-1 Look at BO’s Main caps before it is covered',
    ])
    expect(texts([toLook('me')], looker(['technician']))).toEqual([])
  })
})

describe('today, for the supervisor', () => {
  test('before hidden, flags, holds to decide, releases, values: in that order', () => {
    const rows = [
      summary('E-1', { unsettled: 2, releasable: 'to_fitting' }),
      summary('E-2', {
        toLook: [{ stepId: 'A1', title: 'Main caps', class: 'A', by: 'bo', before: 'Sump' }],
        holds: [hold('question', 'which shim?')],
        cells: [{ stepId: 'B1', stage: 0, minutes: 1, standing: 'in_work', flagged: true }],
      }),
    ]
    expect(texts(rows, looker(['supervisor']))).toEqual([
      'E-2 Main caps by BO: a second signature before “Sump” covers it',
      'E-2 Flagged: B1',
      'E-2 Open question: which shim?',
      'E-1 Release it to fitting: nothing is open',
      'E-1 Decide 2 torques that nobody published',
    ])
  })
})

describe('several roles in one person', () => {
  const asked = [summary('E-1', { holds: [hold('question', 'which shim?')] })]

  test('one thing is said once', () => {
    expect(texts(asked, looker(['service_writer', 'supervisor']))).toEqual(['E-1 Question: which shim?'])
  })
  test('an owner who is supervisor has the supervisor’s list; an owner alone looks after all', () => {
    const due = [summary('E-1', { promised: '2026-11-24' })]
    expect(texts(due, looker(['supervisor', 'owner']))).toEqual([])
    expect(texts(due, looker(['owner']))).toEqual(['E-1 Promised for Tue 24 Nov: that is today'])
  })
  test('what got covered before it was proven comes before everything', () => {
    const late = summary('E-1', { reason: { code: 'second_late', step: 'C1', title: 'Sump', behind: 'J' } })
    const [first] = toDo([...asked, late], looker(['supervisor']))
    expect(first).toMatchObject({
      pressing: true,
      href: '/jobs/e-1/audit',
      text: expect.stringMatching(/^C1 Sump covers/),
    })
  })
})

describe('since somebody looked', () => {
  const say = ({ reason }: JobSummary) => reason.code
  const changesSince = (looked: Looked, summaries: JobSummary[]) =>
    newestFirst(summaries.flatMap((summary) => changeOf(looked, summary, say) ?? []))
  const before = [summary('E-1'), summary('E-2')]
  const looked = lookAtAll(before, say, NOW)

  test('nothing changed', () => {
    expect(changesSince(looked, before)).toEqual([])
  })

  test('another reason, with the one before; newest first; a new engine', () => {
    const now = [
      summary('E-1', { version: 2, changedAt: 5, reason: { code: 'all_signed' } }),
      summary('E-2', { version: 4, changedAt: 9, signed: 2 }),
      summary('E-3', { changedAt: 7 }),
    ]
    expect(changesSince(looked, now)).toEqual([
      { jobId: 'e-2', number: 'E-2', now: 'nobody_on_it', also: '2 steps more signed', changedAt: 9 },
      { jobId: 'e-3', number: 'E-3', now: 'nobody_on_it', also: 'new on the board', changedAt: 7 },
      { jobId: 'e-1', number: 'E-1', now: 'all_signed', before: 'nobody_on_it', changedAt: 5 },
    ])
  })

  test('a reading more, with the same reason and signatures, is no line', () => {
    expect(changesSince(looked, [summary('E-1', { version: 9 })])).toEqual([])
  })

  test('a line is as new as its words: another reading does not move it up', () => {
    const flagged = { version: 2, changedAt: 5, reason: { code: 'all_signed' } } as const
    const first = changeOf(looked, summary('E-1', flagged), say)
    const again = summary('E-1', { ...flagged, version: 3, changedAt: 9 })
    expect(changeOf(looked, again, say, first)).toBe(first)
    expect(changeOf(looked, again, say)).toMatchObject({ changedAt: 9 })
    const signed = changeOf(looked, { ...again, signed: 1 }, say, first)
    expect(signed).toMatchObject({ changedAt: 9, also: '1 step more signed' })
  })

  test('an engine looked at is seen, the others are not', () => {
    const now = before.map((one) => ({ ...one, version: 2, signed: 1 }))
    const seen = lookAt(looked, now[0] as JobSummary, say)
    expect(changesSince(seen, now).map(({ number }) => number)).toEqual(['E-2'])
  })

  test('kept for each person, and nothing else is believed', () => {
    const store = new Map<string, string>()
    const storage = {
      getItem: (key: string) => store.get(key) ?? null,
      setItem: (key: string, value: string) => void store.set(key, value),
    }
    keepLooked(storage, 'me', looked)
    expect(readLooked(storage, 'me')).toEqual(looked)
    expect(readLooked(storage, 'other')).toBeUndefined()
    for (const key of store.keys()) store.set(key, '{"at":"soon"')
    expect(readLooked(storage, 'me')).toBeUndefined()
    for (const key of store.keys()) store.set(key, '{"at":"soon","jobs":{}}')
    expect(readLooked(storage, 'me')).toBeUndefined()
  })
})

describe('a promise', () => {
  test.each([
    ['2026-11-24', '2026-11-24', 0],
    ['2026-11-24', '2026-11-27', 3],
    ['2026-11-27', '2026-11-30', 1],
    ['2026-11-30', '2026-11-27', -1],
    ['2026-11-28', '2026-11-27', 0],
    ['2026-11-24', '2026-12-07', 9],
  ])('from %s to %s: %i working days', (from, to, days) => {
    expect(workingDays(from, to)).toBe(days)
  })

  test('in words', () => {
    const say = (promised: string, today = '2026-11-24') => {
      const { left, over } = promiseState(promised, today)
      return `${left}${over ? '!' : ''}`
    }
    expect(say('2026-11-24')).toBe('that is today')
    expect(say('2026-11-25')).toBe('1 working day left')
    expect(say('2026-11-20')).toBe('2 working days over!')
    // Promised for Friday, and it is Saturday; promised for Sunday.
    expect(say('2026-11-27', '2026-11-28')).toBe('over since then!')
    expect(say('2026-11-29', '2026-11-28')).toBe('before the next working day')
  })

  test('a day is this place’s', () => {
    expect(format.calendar.dayOf(new Date(2026, 0, 5, 0, 30).getTime())).toBe('2026-01-05')
  })
})

describe('the wall', () => {
  test('engines are shared out evenly, none left out', () => {
    expect(pagesOf([1, 2, 3, 4, 5, 6, 7], 3)).toEqual([
      [1, 2],
      [3, 4, 5],
      [6, 7],
    ])
    expect(pagesOf([1, 2, 3, 4], 3)).toEqual([
      [1, 2],
      [3, 4],
    ])
    expect(pagesOf([], 3)).toEqual([])
  })
  test('rows by the screen, at least one', () => {
    expect(rowsFor(1080, 1920)).toBe(3)
    expect(rowsFor(844, 390)).toBe(3)
    expect(rowsFor(100, 2000)).toBeGreaterThan(0)
  })
  test('round and round', () => {
    expect([turned(0, 1, 3), turned(2, 1, 3), turned(0, -1, 3), turned(0, 1, 0)]).toEqual([1, 0, 2, 0])
  })
})
