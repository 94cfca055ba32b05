/** The record as it is read, and what wants the supervisor, in words. */
import { describe, expect, test } from 'vitest'
import { signBeforeHidden, unitSlips } from '../../shared/audit/awaiting'
import { completeness, record } from '../../shared/audit/record'
import {
  awaitsWords,
  classBars,
  coversWords,
  coverWords,
  slipWords,
} from '../../web/pages/audit/awaiting-words'
import {
  countLines,
  countWords,
  groupsOf,
  occurring,
  reachedWords,
  remarks,
  rowsOf,
  searchRecord,
  verdictWords,
} from '../../web/pages/audit/rows'
import { caps, claim, read, second, sign, tell, words } from './engine-job'

const lineOf = (told: ReturnType<typeof tell>, joint: string, position: number) =>
  record(told.job).find((line) => line.joint === joint && line.position === position) ??
  expect.fail('no such line')

describe('searching the record', () => {
  const told = tell(...caps, sign('bram', 'S1'), claim('suvi', 'S2'), read('suvi', 'J-rod', 1, 1, 70))
  const found = (text: string) =>
    searchRecord(record(told.job), { text }, words).map(({ joint, position }) => `${joint}:${position}`)

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
    const lines = searchRecord(record(told.job), { text: 'cap', verdict: 'flagged' }, words)
    expect(lines.map(({ joint }) => joint)).toEqual(['J-rod'])
  })
  test('offers the people and wrenches that occur, and no others', () => {
    expect(occurring(record(told.job))).toEqual({ people: ['bram', 'suvi'], wrenches: ['TW-1'] })
  })
  test('groups under the joint, in the plan’s order', () => {
    expect(
      groupsOf(record(told.job), told.job.plan).map(({ joint, lines }) => [joint.id, lines.length]),
    ).toEqual([
      ['J-cap', 2],
      ['J-rod', 4],
      ['J-sump', 3],
      ['J-plug', 1],
    ])
  })
  test('counts what is shown', () => {
    expect(countWords(countLines(record(told.job)))).toBe(
      '10 fasteners, 5 readings: 2 final, 1 flagged, 7 open',
    )
    expect(countWords(countLines([]))).toBe('0 fasteners, 0 readings')
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
      'struck by Bram, +4 min: misread',
    )
  })
  test('a reading taken again leaves the first beneath it, void', () => {
    const told = tell(claim('bram', 'S2'), read('bram', 'J-rod', 1, 1, 38), read('bram', 'J-rod', 1, 1, 40))
    const rows = rowsOf(lineOf(told, 'J-rod', 1))
    expect(rows.map(({ reading }) => reading?.value)).toEqual([40, 38])
    expect(remarks(rows[1]?.reading ?? expect.fail('no reading'), words)).toContain(
      'void: taken again by Bram',
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
      'final, second signature owed',
    )
    expect(verdictWords(lineOf(tell(...caps, sign('bram', 'S1'), second('suvi', 'S1')), 'J-cap', 1))).toBe(
      'proven',
    )
  })
})

describe('what wants the supervisor', () => {
  const only = (told: ReturnType<typeof tell>) =>
    signBeforeHidden(told.job)[0] ?? expect.fail('nothing waits')

  test('what is to be looked at, who signed, and how soon it is covered', () => {
    const told = tell(...caps, sign('bram', 'S1'))
    expect(coversWords(only(told))).toBe('Main cap bolts 1–2')
    expect(awaitsWords(only(told), words)).toBe('Signed by Bram, +7 min; a second look is owed.')
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
    expect(classBars(completeness(told.job)).map(({ class: cls, text }) => `${cls} ${text}`)).toEqual([
      'A 6: 2 proven, 4 open',
      'B 4: 0 proven, 4 open',
    ])
  })
})
