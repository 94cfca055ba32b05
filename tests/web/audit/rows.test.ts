/** The record as it is read, and what wants the supervisor, in words. */
import { describe, expect, test } from 'vitest'
import { flaggedReadings, signBeforeHidden, unitSlips } from '../../../shared/audit/awaiting'
import { evolve, newJob } from '../../../shared/job/evolve'
import type { Job } from '../../../shared/job/types'
import {
  countWords,
  groupsOf,
  occurring,
  reachedWords,
  remarks,
  rowsOf,
  sameLine,
  searchRecord,
  verdictWords,
} from '../../../web/job/record/rows'
import { auditLines, countsByClass } from '../../../web/job/record/verdict'
import { whoMaySecond } from '../../../web/job/scope'
import {
  awaitsWords,
  classBars,
  coversWords,
  coverWords,
  foldSlips,
  groupFlagged,
  slipWords,
} from '../../../web/pages/audit/awaiting-words'
import { nextOf } from '../../../web/pages/audit/next-open'
import { caps, claim, read, second, shop, sign, type Told, tell, words } from '../../shop/small-engine'
import { START } from '../../shop/time'

const lineOf = (told: ReturnType<typeof tell>, joint: string, position: number) =>
  auditLines(told.job).find((line) => line.joint === joint && line.position === position) ??
  expect.fail('no such line')

describe('searching the record', () => {
  const told = tell(...caps, sign('bram', 'S1'), claim('suvi', 'S2'), read('suvi', 'J-rod', 1, 1, 70))
  const found = (text: string) =>
    searchRecord(auditLines(told.job), { text }, words).map(({ joint, position }) => `${joint}:${position}`)

  test('finds by joint title, by label, by person and by what a flag says', () => {
    expect(found('main cap')).toEqual(['J-cap:1', 'J-cap:2'])
    expect(found('2a')).toEqual(['J-cap:2'])
    expect(found('suvi')).toEqual(['J-rod:1'])
    expect(found('out of band')).toEqual(['J-rod:1'])
  })
  test('every word must be found; a word found nowhere leaves nothing', () => {
    expect(found('cap bram')).toEqual(['J-cap:1', 'J-cap:2'])
    expect(found('cap zeppelin')).toEqual([])
  })
  test('narrows further with the lists beside it', () => {
    const lines = searchRecord(auditLines(told.job), { text: 'cap', verdict: 'flagged' }, words)
    expect(lines.map(({ joint }) => joint)).toEqual(['J-rod'])
  })
  test('offers the people and wrenches that occur, and no others', () => {
    expect(occurring(auditLines(told.job))).toEqual({ people: ['bram', 'suvi'], wrenches: ['TW-1'] })
  })
  test('groups under the joint, in the plan’s order', () => {
    expect(
      groupsOf(auditLines(told.job), told.job.plan).map(({ joint, lines }) => [joint.id, lines.length]),
    ).toEqual([
      ['J-cap', 2],
      ['J-rod', 4],
      ['J-sump', 3],
      ['J-plug', 1],
    ])
  })
  test('counts what is shown', () => {
    expect(countWords(auditLines(told.job))).toBe('10 fasteners, 5 readings: 2 final, 1 flagged, 7 open')
    expect(countWords([])).toBe('0 fasteners, 0 readings')
  })
})

describe('one line', () => {
  test('a struck reading stands beneath its pass, with who and why', () => {
    const taken = tell(claim('bram', 'S2'), read('bram', 'J-rod', 1, 1, 70))
    const readingId = taken.job.readings['J-rod']?.[0]?.id ?? ''
    const told = tell(claim('bram', 'S2'), read('bram', 'J-rod', 1, 1, 70), [
      'bram',
      { type: 'StrikeReading', readingId, reason: 'misread' },
    ])
    const rows = rowsOf(lineOf(told, 'J-rod', 1))
    expect(rows.map(({ earlier, lead }) => [earlier, lead])).toEqual([
      [false, true],
      [true, false],
    ])
    expect(rows[0]?.reading).toBeUndefined()
    expect(remarks(rows[1]?.reading ?? expect.fail('no reading'), words)).toBe(
      'crossed out by Bram, +4 min: misread',
    )
  })
  test('a reading taken again leaves the first beneath it, void', () => {
    const told = tell(claim('bram', 'S2'), read('bram', 'J-rod', 1, 1, 38), read('bram', 'J-rod', 1, 1, 40))
    const rows = rowsOf(lineOf(told, 'J-rod', 1))
    expect(rows.map(({ reading }) => reading?.value)).toEqual([40, 38])
    expect(remarks(rows[1]?.reading ?? expect.fail('no reading'), words)).toContain(
      'no longer counts: read again by Bram',
    )
  })
  test('reads as it was read, with N·m beside another unit', () => {
    const told = tell(
      claim('bram', 'S2'),
      read('bram', 'J-rod', 1, 1, 40),
      read('bram', 'J-rod', 2, 1, 30, 'LB-1'),
    )
    expect(told.job.readings['J-rod']?.map(reachedWords)).toEqual([
      '40 N·m indicated',
      '30 lbf·ft (40.7 N·m) indicated',
    ])
  })
  test('says what is missing: passes, a signature, a second one', () => {
    const one = [claim('bram', 'S1'), read('bram', 'J-cap', 1, 1, 50)]
    expect(verdictWords(lineOf(tell(), 'J-cap', 1))).toBe('2 passes to go')
    expect(verdictWords(lineOf(tell(...one), 'J-cap', 1))).toBe('1 pass to go')
    expect(verdictWords(lineOf(tell(...caps), 'J-cap', 1))).toBe('final, not signed')
    expect(verdictWords(lineOf(tell(...caps, sign('bram', 'S1')), 'J-cap', 1))).toBe(
      'final, needs a second signature',
    )
    expect(verdictWords(lineOf(tell(...caps, sign('bram', 'S1'), second('suvi', 'S1')), 'J-cap', 1))).toBe(
      'signed off',
    )
  })
})

describe('what wants the supervisor', () => {
  const only = (told: ReturnType<typeof tell>) =>
    signBeforeHidden(told.job)[0] ?? expect.fail('nothing waits')

  test('what is to be looked at, who signed, and how soon it is covered', () => {
    const told = tell(...caps, sign('bram', 'S1'))
    expect(coversWords(only(told))).toBe('Main cap bolts 1–2')
    expect(awaitsWords(only(told), words)).toBe('Signed by Bram, +7 min; a second signature is missing.')
    expect(coverWords(only(told))).toBe('C1 Sump covers it, after one more step.')
  })
  test('covered already: says by what', () => {
    const told = tell(...caps, sign('bram', 'S1'), read('suvi', 'J-sump', 1, 1, 20))
    expect(coverWords(only(told))).toBe('C1 Sump covers it already.')
  })
  test('a number that fits another unit is shown in both', () => {
    const told = tell(claim('bram', 'S2'), read('bram', 'J-rod', 1, 1, 40, 'LB-1'))
    const [line] = unitSlips(told.job)
    expect(slipWords(line ?? expect.fail('no slip'))).toEqual({
      asRead: '40 lbf·ft = 54.2 N·m',
      asMeant: '40 N·m',
    })
  })
  test('completeness in words, for the classes the plan has', () => {
    const told = tell(...caps, sign('bram', 'S1'), second('suvi', 'S1'))
    expect(
      classBars(countsByClass(auditLines(told.job))).map(({ class: cls, text }) => `${cls} ${text}`),
    ).toEqual(['A 6: 2 signed off, 4 open', 'B 4: 0 signed off, 4 open'])
  })
})

describe('lists that say a thing once', () => {
  const scale = (value: number): Parameters<typeof tell>[0] => [
    'bram',
    { type: 'EnterScale', jointId: 'J-rod', pass: 1, wrenchId: 'LB-1', value },
  ]
  const click = (position: number): Parameters<typeof tell>[0] => [
    'bram',
    { type: 'TakeReading', jointId: 'J-rod', position, pass: 1, how: 'clicked', wrenchId: 'LB-1' },
  ]
  test('clicks on a scale held up are counted with it', () => {
    const told = tell(claim('bram', 'S2'), scale(40), click(1), click(2))
    const folded = foldSlips(unitSlips(told.job))
    expect(folded.map(({ kind, clicks, stands }) => [kind, clicks, stands])).toEqual([['scale', 2, true]])
  })
  test('a held-up click keeps its scale on the list although the wrench was set anew', () => {
    const told = tell(claim('bram', 'S2'), scale(40), click(1), scale(30))
    expect(foldSlips(unitSlips(told.job)).map(({ stands }) => stands)).toEqual([true])
  })
  test('positions with the same flags from the same hand stand together, another hand apart', () => {
    const told = tell(
      read('suvi', 'J-rod', 1, 1, 40),
      read('suvi', 'J-rod', 2, 1, 40),
      read('bram', 'J-rod', 3, 1, 40),
    )
    const groups = groupFlagged(flaggedReadings(told.job))
    expect(groups.map(({ readings }) => readings.map(({ position }) => position))).toEqual([[1, 2], [3]])
  })
  test('what is covered already comes first', () => {
    const told = tell(
      read('suvi', 'J-plug', 1, 1, 30),
      read('suvi', 'J-cap', 1, 1, 50),
      read('bram', 'J-sump', 1, 1, 20),
    )
    expect(groupFlagged(flaggedReadings(told.job)).map(({ joint, hidden }) => [joint, hidden])[0]).toEqual([
      'J-cap',
      true,
    ])
  })
})

test('lines that did not change are known as the same, a struck reading is a change', () => {
  const one = tell(claim('bram', 'S2'), read('bram', 'J-rod', 1, 1, 40))
  const lines = auditLines(one.job)
  const same = (job: Told['job']) => auditLines(job).every((line, at) => sameLine(line, lines[at] ?? line))
  expect(same({ ...one.job, version: 99 })).toBe(true)
  const readingId = one.job.readings['J-rod']?.[0]?.id ?? ''
  const struck = tell(claim('bram', 'S2'), read('bram', 'J-rod', 1, 1, 40), [
    'bram',
    { type: 'StrikeReading', readingId, reason: 'misread' },
  ])
  expect(same(struck.job)).toBe(false)
})

test('what is kept of a line from event to event is what a fresh look gives: also under a cover, left out, and waived', () => {
  const { events } = tell(
    ...caps,
    sign('bram', 'S1'),
    [
      'bram',
      {
        type: 'Defer',
        what: { kind: 'fasteners', joint: 'J-rod', positions: [4] },
        dueStepId: 'C2',
        reason: 'in the way',
      },
    ],
    claim('suvi', 'S3'),
    [
      'suvi',
      {
        type: 'TakeMeasurement',
        stepId: 'S3',
        measurementId: 'float',
        place: 'crank',
        value: 0.2,
        instrument: 'dial indicator',
      },
    ],
    sign('suvi', 'S3'),
    ['bram', { type: 'Waive', what: { kind: 'hiding', stepId: 'C1' }, reason: 'looked at' }],
    claim('suvi', 'C1'),
    read('suvi', 'J-sump', 1, 1, 30),
    claim('suvi', 'C2'),
    ['bram', { type: 'Waive', what: { kind: 'second', stepId: 'S1', setId: 'step' }, reason: 'looked at' }],
  )
  const seen = new Set<string>()
  let job: Job = newJob('j1')
  for (const { event } of events) {
    job = evolve(job, event)
    const kept = auditLines(job)
    // A job that is another object has nothing kept.
    expect(kept).toEqual(auditLines({ ...job }))
    for (const { hidden, deferred, verdict } of kept)
      seen.add(`${verdict}${hidden ? ' hidden' : ''}${deferred ? ' left out' : ''}`)
  }
  expect([...seen].sort()).toEqual([
    'accepted hidden',
    'final',
    'final hidden',
    'flagged',
    'open',
    'open hidden',
    'open left out',
  ])
})

test('the next open thing is the one after the reader, and round again at the end', () => {
  expect(nextOf([10, 20, 30], (item) => item > 20)).toBe(30)
  expect(nextOf([10, 20, 30], (item) => item > 30)).toBe(10)
  expect(nextOf([], () => true)).toBeUndefined()
})

describe('who may look', () => {
  test('not the doer, not before the doer signed, not after the second', () => {
    const may = ({ job }: Told) =>
      whoMaySecond(
        { job: () => job, shop: () => shop, words, me: () => undefined, now: () => START },
        'S1',
        'step',
      )
    const before = tell(...caps)
    expect(may(before)).toEqual([])
    const signed = tell(...caps, sign('bram', 'S1'))
    expect(may(signed)).toEqual(['suvi'])
    const both = tell(...caps, sign('bram', 'S1'), second('suvi', 'S1'))
    expect(may(both)).toEqual([])
  })
})
