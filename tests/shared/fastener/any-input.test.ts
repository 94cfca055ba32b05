/** Whatever is entered: an answer with finite numbers, or a refusal with a sentence. Never a throw, never NaN. */
import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import * as room from '../../../shared/fastener'
import { isRefusal } from '../../../shared/log'
import { figures } from '../../shop/words'
import { answered, numbersIn, refusedAs } from './answered'

const mixed = fc.oneof(
  fc.double(),
  fc.integer({ min: -5, max: 60 }),
  fc.constantFrom<unknown>(undefined, null, '', '12', true, {}, [], Number.NaN, 1e308, 5e-324),
)
const threads = fc.oneof(
  fc.constantFrom('M8', 'M10x1.25', '3/8-16 UNC', '#10-32', 'R1/8', 'M64', 'M1.6', '4-4', 'M300x8'),
  fc.string(),
  mixed,
)
const grades = fc.oneof(fc.constantFrom('8.8', 'SAE 5', 'A2-70', 'bronze', '12.9'), fc.string(), mixed)
const words = fc.oneof(
  fc.constantFrom('oil', 'dry', 'paste', 'torque_dry', 'steel', 'bronze', 'full', 'waisted'),
  mixed,
)
const inserts = fc.record(
  {
    kind: fc.constantFrom<unknown>('wire', 'solid', 'x'),
    lengthMm: mixed,
    lengthD: mixed,
    setDownMm: mixed,
    outerThread: threads,
    pullOutN: mixed,
  },
  { requiredKeys: ['kind'] },
)
const bag = fc.record(
  {
    thread: threads,
    grade: grades,
    boltGrade: grades,
    holeMaterial: fc.oneof(
      words,
      fc.record({ rmMPa: mixed, shearMPa: mixed, shearRatio: mixed }, { requiredKeys: [] }),
    ),
    lubrication: words,
    method: words,
    shank: words,
    insert: fc.oneof(inserts, mixed),
    use: mixed,
    by: fc.constantFrom<unknown>('length', 'neck', 'diameter', 'torque_after_turn', 3),
    ...Object.fromEntries(
      (
        'muThread muHead utilisation headBearingMm holeMm waistMm k d dMm preload preloadN engagementMm boltLengthMm stackMm ' +
        'washerMm holeDepthMm threadDepthMm minEngagementMm boltThreadMm shankMm threadMm shankDiaMm elasticModulusMPa ' +
        'jointStiffnessNPerMm jointToBoltStiffness angleDeg snugN snugTorqueNm torqueNm plusMinusPct settlingPct measuredMm ' +
        'maxMm newMm upperMm lowerMm maxDifferenceMm minMm measuredNm minNm'
      )
        .split(' ')
        .map((key) => [key, mixed]),
    ),
  },
  { requiredKeys: [] },
)

function holds(value: unknown) {
  if (isRefusal(value)) {
    expect(room.FASTENER_REFUSAL_CODES).toContain(value.refused)
    refusedAs(value)
    return
  }
  for (const number of numbersIn(value)) expect(Number.isFinite(number)).toBe(true)
}

const anyOf = <T>(value: unknown) => value as T

describe('any input', () => {
  const runs = { numRuns: 400 }
  test.each([
    ['tightening', room.tightening],
    ['engagement', room.engagement],
    ['holeFit', room.holeFit],
    ['anglePreload', room.anglePreload],
    ['shortForm', room.shortForm],
    ['preloadRange', room.preloadRange],
    ['checkStretch', room.checkStretch],
  ] as [string, (input: never) => unknown][])('[FT19] %s', (_, answer) => {
    fc.assert(
      fc.property(fc.oneof({ weight: 9, arbitrary: bag }, mixed), (input) => holds(answer(anyOf(input)))),
      runs,
    )
  })
  test('[FT19] single values', () => {
    fc.assert(
      fc.property(fc.oneof(threads, grades), fc.oneof(grades, threads), mixed, (a, b, c) => {
        holds(room.thread(anyOf(a)))
        holds(room.strength(anyOf(a), anyOf(c)))
        holds(room.strength(anyOf(a), anyOf(b)))
        holds(room.proofLoadN(anyOf(a), anyOf(b)))
        holds(room.ultimateLoadN(anyOf(a), anyOf(b)))
        holds(room.insertPlan(anyOf(a), anyOf(c)))
        holds(room.airframeTorque(anyOf(a)))
        holds(room.holeMaterial(anyOf(b)))
        holds(room.turnOfNut(anyOf(c), anyOf(a)))
        holds(room.preloadScatter(anyOf(a)))
        holds(room.readLubrication(anyOf(b)) as unknown)
        holds(room.checkUse(anyOf(a), anyOf(c)))
        holds(room.checkUse(anyOf({ kind: 'cycles', limit: c }), 1))
        holds(room.tighteningOrder(anyOf(a), anyOf(b)))
      }),
      runs,
    )
  })
  test('[FT19] [FT22] any torque is judged or not judged, in words without NaN', () => {
    const torque = fc.record(
      {
        fastener: fc.oneof(fc.constantFrom('bolt', 'nut', 'stud', 'plug', 'union'), mixed),
        thread: threads,
        grade: grades,
        lubrication: words,
        holeMaterial: words,
        engagementMm: mixed,
        insert: fc.oneof(inserts, mixed),
        nominalNm: mixed,
        minNm: mixed,
        maxNm: mixed,
        before: fc.constantFrom<unknown>('torque', 'angle', undefined, 3),
        limitsFrom: fc.constantFrom<unknown>('shop', undefined, 'x'),
      },
      { requiredKeys: [] },
    )
    fc.assert(
      fc.property(torque, (given) => {
        const judged = room.judgeTorque(anyOf(given))
        const { torque: _, ...found } = judged
        for (const number of numbersIn(found)) expect(Number.isFinite(number)).toBe(true)
        for (const sentence of room.doubtsInWords(judged, figures))
          expect(sentence).not.toMatch(/NaN|Infinity|undefined|null/)
      }),
      { numRuns: 2000 },
    )
  })
  test('[FT19] [SV10] whatever a joint and an entry say, a proposal has finite figures or reasons', () => {
    const joint = fc.record({
      fastener: fc.constantFrom('bolt', 'nut', 'stud', 'plug'),
      thread: threads,
      grade: grades,
      lubrication: words,
      pass: mixed,
      holeMaterial: words,
      engagementMm: mixed,
      tolerancePct: fc.constantFrom(0, 5, 90),
    })
    const added = fc.record(
      {
        holeMaterial: fc.oneof(words, fc.record({ words: words, shearMPa: mixed })),
        engagementMm: mixed,
        utilisation: mixed,
        grade: grades,
        lubrication: words,
        friction: fc.oneof(mixed, fc.record({ low: mixed, high: mixed })),
        headBearingMm: mixed,
        clearanceHoleMm: mixed,
      },
      { requiredKeys: [] },
    )
    fc.assert(
      fc.property(joint, added, (of, more) => {
        const proposed = room.propose(anyOf(of), anyOf(more))
        if ('refusals' in proposed) {
          expect(proposed.refusals.length).toBeGreaterThan(0)
          for (const refusal of proposed.refusals)
            expect(room.proposalSentence(refusal, figures)).toMatch(/^.+\.$/s)
        } else
          for (const number of numbersIn(proposed.proposal.results))
            expect(Number.isFinite(number)).toBe(true)
      }),
      { numRuns: 1000 },
    )
  })
  test('[FT19] orders of any places', () => {
    const place = fc.record({ n: mixed, x: mixed, y: mixed }, { requiredKeys: [] })
    fc.assert(
      fc.property(
        fc.array(fc.oneof(place, mixed), { maxLength: 12 }),
        fc.oneof(fc.constantFrom<unknown>('auto', 'circle', 'rows'), fc.array(mixed), mixed),
        (positions, pattern) => {
          const order = room.tighteningOrder(anyOf(positions), anyOf(pattern))
          holds(order)
          if (!isRefusal(order)) expect(new Set(order).size).toBe(positions.length)
        },
      ),
      runs,
    )
  })
  test('[FT2] a string is a thread or is refused, and what is read is read the same again', () => {
    const piece = fc.constantFrom(
      'M',
      '10',
      '1.25',
      'x',
      '×',
      ',',
      '-',
      '/',
      '3',
      '8',
      '16',
      '#',
      'UNC',
      'UNF',
      ' ',
      '"',
      '6g',
      '2A',
      'LH',
    )
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 8 }), (pieces) => {
        const found = room.thread(pieces.join(''))
        holds(found)
        if (isRefusal(found)) return
        const again = answered(room.thread(found.designation))
        expect(again).toMatchObject({
          designation: found.designation,
          dMm: found.dMm,
          pitchMm: found.pitchMm,
        })
      }),
      { numRuns: 3000 },
    )
  })
})

describe('sentences', () => {
  test('[FT19] every refusal has its rule', () => {
    const rules = readFileSync(new URL('../../../shared/RULES.md', import.meta.url), 'utf8')
    expect(room.FASTENER_REFUSAL_CODES.filter((code) => !rules.includes(`\`${code}\``))).toEqual([])
  })
  test('[FT19] what a sentence offers is in words, and is taken as it is said', () => {
    const offered = [room.holeMaterial('cheese'), room.readLubrication('jam'), room.preloadScatter('luck')]
    for (const refusal of offered as room.FastenerRefusal[])
      expect(room.fastenerSentence(refusal, figures)).toMatch(/Choose one of [a-z0-9 ,]+/)
    for (const refusal of offered as room.FastenerRefusal[])
      expect(room.fastenerSentence(refusal, figures)).not.toContain('_')
    const inWords = (id: string) => id.replaceAll('_', ' ')
    for (const { id } of room.HOLE_MATERIALS) expect(room.holeMaterial(inWords(id))).toMatchObject({ id })
    for (const id of room.LUBRICATIONS) expect(room.readLubrication(inWords(id))).toBe(id)
    for (const id of room.TIGHTENING_METHODS)
      expect(room.preloadScatter(inWords(id))).toMatchObject({ method: id })
  })
  test('[FT19] every caution and every basis says something, with its source', () => {
    for (const words of Object.values(room.CAUTIONS)) expect(words).toMatch(/^[A-Z].*\.$/)
    for (const { formula, source, status } of Object.values(room.BASIS)) {
      expect(formula.length).toBeGreaterThan(5)
      expect(source.length).toBeGreaterThan(4)
      expect(['found', 'memory', 'common_practice', 'computed']).toContain(status)
    }
    expect(room.FASTENER_REFUSAL_CODES.length).toBeGreaterThan(30)
  })
})
