/** Whatever is entered: an answer with finite numbers, or a refusal with a sentence. Never a throw, never NaN. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { isRefusal } from '../../../shared/log'
import * as room from '../../../shared/measure'
import { figures } from '../../shop/words'
import { numbersIn } from '../fastener/answered'

const mixed = fc.oneof(
  fc.double(),
  fc.double({ min: -1, max: 100, noNaN: true }),
  fc.integer({ min: -5, max: 60 }),
  fc.constantFrom<unknown>(undefined, null, '', '12', true, {}, [], Number.NaN, 1e308, 5e-324, 1e6),
)
const list = fc.oneof(fc.array(mixed, { maxLength: 6 }), mixed)
const limits = fc.oneof(fc.record({ min: mixed, max: mixed }, { requiredKeys: [] }), mixed)
const target = fc.oneof(
  fc.record(
    {
      kind: fc.constantFrom<unknown>('fixed', 'middle', 'upper_limit', 'x'),
      value: mixed,
      min: mixed,
      max: mixed,
    },
    { requiredKeys: [] },
  ),
  mixed,
)
const grade = fc.record(
  { name: fc.constantFrom<unknown>('1', 2), minMm: mixed, maxMm: mixed },
  { requiredKeys: [] },
)
const NAMES =
  'journalMm boreWithShellsMm housingMm shellMm journalLengthMm widthMm boreMm strokeMm cylinders chamberCc gasketMm gasketBoreMm deckMm dishCc oldMm measuredMm measuredTotalMm fittedMm readDeg targetDeg perMm stepMm minMm maxMm'
const bag = fc.oneof(
  {
    weight: 9,
    arbitrary: fc.record(
      {
        a: list,
        b: list,
        sizesMm: list,
        target,
        limits,
        ...Object.fromEntries(NAMES.split(' ').map((key) => [key, mixed])),
      },
      { requiredKeys: [] },
    ),
  },
  { weight: 1, arbitrary: mixed },
)

function holds(value: unknown) {
  if (isRefusal(value)) {
    const sentence = room.measureSentence(value as room.MeasureRefusal, figures)
    expect(sentence).toMatch(/^\S.{20,}\.$/s)
    expect(sentence).not.toMatch(/undefined|NaN|Infinity|\[object/)
    return
  }
  for (const number of numbersIn(value)) expect(Number.isFinite(number)).toBe(true)
  expect(JSON.stringify(value)).not.toMatch(/undefined|NaN|Infinity/)
}
const anyOf = <T>(value: unknown) => value as T

describe('any input', () => {
  test.each([
    ['bearingClearance', room.bearingClearance],
    ['endPlay', room.endPlay],
    ['outOfRound', room.outOfRound],
    ['compressionRatio', room.compressionRatio],
    ['sweptVolumeCc', room.sweptVolumeCc],
    ['valveShim', room.valveShim],
    ['thrustShim', room.thrustShim],
    ['timingShim', room.timingShim],
  ] as [string, (input: never, limits?: never) => unknown][])('[MR1] %s', (_, answer) => {
    fc.assert(
      fc.property(bag, limits, (input, given) => holds(answer(anyOf(input), anyOf(given)))),
      { numRuns: 1500 },
    )
  })
  test('[MR1] single values and lists', () => {
    fc.assert(
      fc.property(list, mixed, limits, (some, one, given) => {
        holds(room.ringGap(anyOf(one), anyOf(given)))
        holds(room.ringGap(anyOf(some), anyOf(given)))
        holds(room.taper(anyOf(some), anyOf(given)))
        holds(room.spread(anyOf(some)))
        holds(room.ringGapRuleMm(anyOf(one), anyOf(some)))
        holds(room.bearingRuleMm(anyOf(one)))
        holds(room.flatnessLimit(anyOf(one), anyOf(one)))
        holds(room.judge(anyOf(one), 'mm', anyOf(given), { under: 'Too small.', over: 'Too large.' }))
        expect(['inside', 'under', 'over', 'no_limits']).toContain(room.verdictOn(anyOf(one), anyOf(given)))
      }),
      { numRuns: 1500 },
    )
  })
  test('[MR1] gaskets, and what a plan’s measurement leads to', () => {
    const rule = fc.oneof(
      fc.record({ kind: fc.constant('gasket'), grades: fc.oneof(fc.array(fc.oneof(grade, mixed)), mixed) }),
      fc.record({ kind: fc.constant('timing_shim'), fittedMm: mixed, perMm: mixed, sizesMm: list }),
      fc.record({ kind: fc.constant('clearance'), of: fc.constantFrom('bearing', 'end_play', 'ring_gap') }),
    )
    fc.assert(
      fc.property(rule, mixed, mixed, mixed, mixed, (leadsTo, min, max, one, two) => {
        const asked = { leadsTo, min, max, places: ['1', '2'] }
        const led = room.leadsTo(anyOf(asked), anyOf({ 1: one, 2: two }), figures)
        for (const { sentence } of led) expect(sentence).not.toMatch(/undefined|NaN|Infinity|\[object/)
        if ('grades' in leadsTo) holds(room.gasketGrade([0.6], anyOf(leadsTo.grades)))
      }),
      { numRuns: 1500 },
    )
    expect(room.leadsTo(anyOf(null), anyOf(null), figures)).toEqual([])
  })
})

describe('a refusal names what it allows', () => {
  test.each([
    [room.ringGap(anyOf(null)), 'There is no number for a ring gap.'],
    [room.ringGap(2e6), '2000000 mm cannot be a ring gap: it must be 0 or more and at most 1000000 mm.'],
    [
      room.valveShim({ oldMm: 2, measuredMm: 0.3, target: { kind: 'fixed', value: 0.2 }, stepMm: 5e-324 }),
      'must be at least 0.0001 mm',
    ],
    [
      room.thrustShim({
        measuredTotalMm: 2,
        target: { kind: 'fixed', value: 0.2 },
        stepMm: 0.05,
        maxMm: Number.POSITIVE_INFINITY,
      }),
      'There is no number for the thickest shim.',
    ],
  ])('[MR2] %j', (answer, words) => {
    expect(room.measureSentence(answer as room.MeasureRefusal, figures)).toContain(words)
  })
})
