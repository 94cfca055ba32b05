/** What holds for every text: no throw, no number lost, and what is printed is read back. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { isRefusal } from '../../../shared/log'
import { printSpec, readSpec, type Spec, type SpecPass, specSentenceFor } from '../../../shared/spec'
import { figures } from '../../shop/words'

const figure = fc.oneof(
  fc.integer({ min: 1, max: 60_000 }),
  fc.integer({ min: 1, max: 6_000_000 }).map((value) => value / 1000),
  fc.double({ min: 1e-9, max: 1e9, noNaN: true, minExcluded: true }),
)
/** Ten turns are the most that is read as an angle: the widest limits below are 400 times this. */
const degrees = fc.oneof(
  fc.integer({ min: 1, max: 9 }),
  fc.integer({ min: 1, max: 9000 }).map((value) => value / 1000),
  fc.double({ min: 1e-9, max: 9, noNaN: true, minExcluded: true }),
)
/** Nominal with or without limits, a range, one limit: rising, wide or narrow. */
const values = (unit: 'Nm' | 'Deg') =>
  fc
    .tuple(
      unit === 'Deg' ? degrees : figure,
      fc.double({ min: 1, max: 20, noNaN: true }),
      fc.double({ min: 1, max: 20, noNaN: true }),
      fc.integer({ min: 1, max: 7 }),
    )
    .map(([min, up, more, which]) => {
      const [nominal, max] = [min * up, min * up * more]
      return {
        ...(which & 1 ? { [`nominal${unit}`]: nominal } : {}),
        ...(which & 2 ? { [`min${unit}`]: min } : {}),
        ...(which & 4 ? { [`max${unit}`]: max } : {}),
      }
    })
const anyPass: fc.Arbitrary<SpecPass> = fc.oneof(
  values('Nm').map((of) => ({ kind: 'torque' as const, ...of })),
  values('Deg').map((of) => ({ kind: 'angle' as const, ...of })),
  fc.oneof(fc.constant({}), values('Deg')).map((of) => ({ kind: 'slacken' as const, ...of })),
)
const anySpec: fc.Arbitrary<Spec> = fc
  .array(anyPass, { minLength: 1, maxLength: 6 })
  .map((passes) => ({ passes }))

/** Pieces of the notation, put together at random: mostly nonsense, at times a specification. */
const piece = fc.constantFrom(
  ...'40|70|12,5|1,250|1.250|1 250|18-22|1/4|½|1 1/2|N·m|Nm|lb-ft|in-lb|kgf·cm|°|deg|turn|turns|±2|±10 %|+5/-0|+|-|–|,|;|/|(|)|{|}|=|…|to|then|plus|and|or|min|max|1st|2nd|Step 1:|Step 2:|a)|b)|1.|slacken|back off|fully|180°|x|2 x|further|quarter|half a|see note|M10x1.25|mm|lbs|dry|\n|about|:'.split(
    '|',
  ),
)
const pieces = fc.array(piece, { minLength: 1, maxLength: 12 }).map((some) => some.join(' '))
/** Whole notations joined as manuals join them: mostly specifications. */
const likely = fc
  .array(
    fc.tuple(
      fc.constantFrom(', ', '; ', ' then ', ' + ', ' / ', '\n', ', Step 2: ', ' '),
      fc.constantFrom(
        ...'40 Nm|40|18-22 N·m|24 ±4 N·m|24 ±4 N·m (18 ±3 lb-ft)|35 lb-ft (47 N·m)|90°|1/4 turn|85-95 deg|90° ±5°|slacken 180°|back off fully|max 20 Nm|12,5 daN·m|1,250 lb-ft|2 x 90°|20 Nm +5/-0|30 (27-33) Nm'.split(
          '|',
        ),
      ),
    ),
    { minLength: 1, maxLength: 4 },
  )
  .map((some) => some.map(([join, item], i) => (i === 0 ? item : join + item)).join(''))
const mixed = fc.oneof(pieces, likely)
const anyText = fc.oneof(
  { weight: 3, arbitrary: mixed },
  { weight: 1, arbitrary: fc.array(piece, { maxLength: 30 }).map((some) => some.join('')) },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 60 }) },
  { weight: 1, arbitrary: fc.string({ maxLength: 60 }) },
)

describe('for every specification', () => {
  test('[SP11] what is printed is read back', () => {
    fc.assert(
      fc.property(anySpec, (spec) => {
        expect(readSpec(printSpec(spec))).toEqual(spec)
      }),
      { numRuns: 500 },
    )
  })

  test('[SP11] a contradiction too', () => {
    for (const text of [
      '95 N·m (70 in-lb)',
      '40, 70, 90 Nm (30, 52, 90 lb-ft)',
      '20 ±2 N·m (20 ±2 lb-ft), then 90°',
    ]) {
      const spec = readSpec(text)
      expect(spec).toHaveProperty('contradiction')
      expect(isRefusal(spec) ? undefined : readSpec(printSpec(spec))).toEqual(spec)
    }
  })
})

describe('for every text', () => {
  test('[SP12] reading never throws, and a refusal has its sentence', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const spec = readSpec(text)
        if (isRefusal(spec)) expect(specSentenceFor(spec, figures)).toMatch(/\S/)
        else expect(spec.passes.length).toBeGreaterThan(0)
      }),
      { numRuns: 3000 },
    )
  })

  test('[SP12] every number of a text that is read is in what it says', () => {
    let read = 0
    fc.assert(
      fc.property(mixed, fc.nat(12), (text, place) => {
        const spec = readSpec(text)
        if (isRefusal(spec)) return
        read += 1
        // Another number anywhere changes what is said, or is asked about: it is never passed over.
        const words = text.split(' ')
        words.splice(place % (words.length + 1), 0, '613')
        expect(readSpec(words.join(' '))).not.toEqual(spec)
      }),
      { numRuns: 3000 },
    )
    expect(read).toBeGreaterThan(500)
  })

  test('[SP12] what is read, printed, says the same again', () => {
    fc.assert(
      fc.property(mixed, (text) => {
        const spec = readSpec(text)
        if (isRefusal(spec) || spec.contradiction) return
        expect(readSpec(printSpec(spec))).toEqual(spec)
      }),
      { numRuns: 3000 },
    )
  })

  test('[SP12] numbers beyond all bounds are refused', () => {
    for (const text of [`${'9'.repeat(308)} kNm`, `25 Nm ±${'9'.repeat(300)} Nm`, `${'1'.repeat(400)} turns`])
      expect(isRefusal(readSpec(text))).toBe(true)
  })

  test('[SP12] a page of anything is refused, not read', () => {
    expect(readSpec(`${'40 Nm, '.repeat(500)}40 Nm`)).toMatchObject({ refused: 'not_a_torque' })
  })
})
