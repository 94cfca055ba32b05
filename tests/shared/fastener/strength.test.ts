import { describe, expect, test } from 'vitest'
import { proofLoadN, strength, ultimateLoadN, yieldLoadN } from '../../../shared/fastener'
import { answered, refusedAs } from './answered'

describe('marks', () => {
  test.each([
    ['8.8', '8.8'],
    ['Class 10.9', '10.9'],
    ['10,9', '10.9'],
    ['cl. 12.9', '12.9'],
    ['ISO 898-1 5.6', '5.6'],
    ['property class 8.8', '8.8'],
    ['SAE Grade 5', 'SAE 5'],
    ['SAE 8', 'SAE 8'],
    ['Gr.8', 'SAE 8'],
    ['grade 2', 'SAE 2'],
    ['J429 grade 7', 'SAE 7'],
    ['A2-70', 'A2-70'],
    ['a4-80', 'A4-80'],
    ['A4-70 stainless', 'A4-70'],
    ['A2 50', 'A2-50'],
  ])('[FT4] %s is %s', (text, grade) => {
    expect(answered(strength(text, 10)).grade).toBe(grade)
  })
  test.each([
    ['', 'grade_unknown'],
    ['8.9', 'grade_unknown'],
    ['14.9', 'grade_unknown'],
    ['3', 'grade_unknown'],
    ['5', 'grade_unclear'],
    ['8', 'grade_unclear'],
    ['steel', 'grade_unknown'],
    ['A2', 'grade_unclear'],
    ['10', 'grade_unclear'],
    ['bronze', 'grade_without_formula'],
    ['brass, taper', 'grade_without_formula'],
    ['stainless', 'grade_without_formula'],
  ])('[FT4] “%s” is refused: %s', (text, code) => {
    expect(refusedAs(strength(text))).toBe(code)
  })
  test('[FT4] the diameter chooses the range, its end belonging to the smaller', () => {
    expect(answered(strength('8.8', 16))).toMatchObject({ rmMPa: 800, yieldMPa: 640, proofMPa: 580 })
    expect(answered(strength('8.8', 16.1))).toMatchObject({ rmMPa: 830, yieldMPa: 660, proofMPa: 600 })
    expect(answered(strength('SAE 5', '1-8')).rmMPa).toBeCloseTo(827.37, 2)
    expect(answered(strength('SAE 5', '1-1/8-7')).rmMPa).toBeCloseTo(723.95, 2)
  })
  test('[FT4] without a diameter the weakest is given, with its ranges, and that is said', () => {
    const bare = answered(strength('8.8'))
    expect(bare).toMatchObject({ rmMPa: 800, yieldMPa: 640, proofMPa: 580, cautions: ['lowest_of_ranges'] })
    expect(bare.ranges.map(({ overMm, uptoMm }) => [overMm, uptoMm])).toEqual([
      [0, 16],
      [16, 39],
    ])
    expect(answered(strength('10.9')).cautions).toEqual([])
  })
  test('[FT4] a size a grade is not made in is refused or said', () => {
    expect(refusedAs(strength('9.8', 20))).toBe('grade_not_this_size')
    expect(refusedAs(strength('SAE 8', '2-4.5'))).toBe('grade_not_this_size')
    expect(answered(strength('8.8', 48)).cautions).toContain('outside_standard_size')
    expect(answered(strength('A2-70', 30)).cautions).toContain('stainless_over_24')
  })
  test('[FT4] stainless has no proof stress for bolts: its 0.2 % stress stands in, and that is said', () => {
    const found = answered(strength('A4-80', 10))
    expect(found).toMatchObject({ rmMPa: 800, yieldMPa: 600, proofMPa: 600 })
    expect(found.cautions).toContain('proof_from_yield')
  })
})

describe('loads', () => {
  test('[FT5] of a thread or its designation, of a grade or its figures', () => {
    const byName = answered(proofLoadN('M12x1.75', '10.9') as number)
    expect(byName).toBeCloseTo(84.267 * 830, -2)
    expect(proofLoadN('M12', answered(strength('10.9')))).toBe(byName)
    expect(proofLoadN('M12', { rmMPa: 1040, yieldMPa: 940, proofMPa: 830 })).toBe(byName)
    expect(answered(ultimateLoadN('M12', '10.9') as number) / byName).toBeCloseTo(1040 / 830, 12)
    expect(answered(yieldLoadN('M12', '10.9') as number) / byName).toBeCloseTo(940 / 830, 12)
  })
  test('[FT4] a bare digit on a metric thread may be a nut’s class: asked, not guessed', () => {
    expect(refusedAs(proofLoadN('M8', '8'))).toBe('grade_unclear')
    expect(proofLoadN('5/16-18', '8')).toBe(proofLoadN('5/16-18', 'SAE 8'))
  })
  test('[FT5] what is refused stays refused, from the thread first', () => {
    expect(refusedAs(proofLoadN('R1/8', 'bronze'))).toBe('thread_other_form')
    expect(refusedAs(proofLoadN('M10', 'bronze'))).toBe('grade_without_formula')
    expect(refusedAs(proofLoadN('M10', { rmMPa: 500, yieldMPa: 900 }))).toBe('number_impossible')
  })
})

describe('a mark beside other words', () => {
  test.each([
    ['8.8 zinc', ['8.8']],
    ['8.8 or 10.9', ['8.8', '10.9']],
    ['not 8.8', ['8.8']],
    ['10.9 min', ['10.9']],
    ['A2-70 or 8.8', ['8.8', 'A2-70']],
    ['SAE 5 zinc plated', ['SAE 5']],
  ])('[FT4] “%s” is asked about, with what it could be', (text, could) => {
    expect(strength(text, 10)).toMatchObject({ refused: 'grade_unclear', data: { could } })
  })
  test.each(['SAE J429 grade 8', 'ISO 898-1 8.8', 'A4-70 stainless', 'Class 10.9'])(
    '[FT4] “%s” says one and nothing else',
    (text) => {
      expect(answered(strength(text, 10)).dMm).toBe(10)
    },
  )
})
