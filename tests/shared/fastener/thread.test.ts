import { describe, expect, test } from 'vitest'
import { anglePreload, COARSE_PITCH_MM, type Thread, thread, UNIFIED } from '../../../shared/fastener'
import { answered, refusedAs } from './answered'

/** The thread another function worked with. */
const workedWith = (given: Thread) =>
  answered(anglePreload({ thread: given, threadMm: 20, jointToBoltStiffness: 3, angleDeg: 30, snugN: 0 }))
    .thread

const name = (text: string) => answered(thread(text)).designation

describe('as people write it', () => {
  test.each([
    ['M10', 'M10x1.5'],
    ['m10 x 1.25', 'M10x1.25'],
    ['M10×1,25', 'M10x1.25'],
    ['M10X1.25-6g', 'M10x1.25'],
    ['M 10 x 1.25 - 6H', 'M10x1.25'],
    ['M10-6g', 'M10x1.5'],
    ['M10x1.25-6H/6g', 'M10x1.25'],
    ['M6x1.0', 'M6x1'],
    ['M8*1', 'M8x1'],
    ['M10 x 1.25 mm', 'M10x1.25'],
    ['M2,5', 'M2.5x0.45'],
    ['MF10x1.25', 'M10x1.25'],
    ['M12 coarse', 'M12x1.75'],
    ['M12x1.5 fine', 'M12x1.5'],
    ['  M14x1.5  ', 'M14x1.5'],
  ])('[FT1] %s is %s', (text, designation) => {
    expect(name(text)).toBe(designation)
    expect(answered(thread(text)).system).toBe('metric')
  })
  test.each([
    ['3/8-16 UNC', '3/8-16 UNC'],
    ['3/8-16', '3/8-16 UNC'],
    ['3/8" - 16 UNC - 2A', '3/8-16 UNC'],
    ['3/8 16 UNC', '3/8-16 UNC'],
    ['.375-16', '3/8-16 UNC'],
    ['0.375-24 UNF', '3/8-24 UNF'],
    ['1/4-28', '1/4-28 UNF'],
    ['1/4-20UNC-2A', '1/4-20 UNC'],
    ['1/4 UNC', '1/4-20 UNC'],
    ['UNF 1/4', '1/4-28 UNF'],
    ['5/16 x 24 unf', '5/16-24 UNF'],
    ['#10-32', '#10-32 UNF'],
    ['No. 10-24', '#10-24 UNC'],
    ['no 8-32', '#8-32 UNC'],
    ['10-32', '#10-32 UNF'],
    ['4-40', '#4-40 UNC'],
    ['1-1/8-12', '1-1/8-12 UNF'],
    ['1 1/8-7', '1-1/8-7 UNC'],
    ['1.125-12 UNF', '1-1/8-12 UNF'],
    ['1-8', '1-8 UNC'],
    ['1-14', '1-14 UNS'],
    ['1-14 UNF', '1-14 UNS'],
    ['1-1/4-8 UN', '1-1/4-8 UN'],
    ['3/8-32 UNEF', '3/8-32 UNEF'],
    ['1/2-13 NC', '1/2-13 UNC'],
    ['2-4.5 UNC', '2-4.5 UNC'],
    ['0.190-32', '#10-32 UNF'],
    ['24/64-16', '3/8-16 UNC'],
    ['⅜-16', '3/8-16 UNC'],
    ['1⅛-12', '1-1/8-12 UNF'],
    ['3/8‑16 UNC', '3/8-16 UNC'],
    ['1/4 in. - 20 UNC', '1/4-20 UNC'],
    ['1/4in-20', '1/4-20 UNC'],
    ['M10-1.25', 'M10x1.25'],
    ['M8 - 1.25 x 30', 'M8x1.25'],
    ['M10-1.50-6g', 'M10x1.5'],
    ['M10\u200Bx\u00AD1.25', 'M10x1.25'],
  ])('[FT1] %s is %s', (text, designation) => {
    expect(name(text)).toBe(designation)
  })
  test('[FT1] what is printed beside it is kept: class, hand, length', () => {
    expect(answered(thread('M10x1.25-6g LH'))).toMatchObject({ toleranceClass: '6g', hand: 'left' })
    expect(answered(thread('1/4-28 UNF-2A-LH'))).toMatchObject({ toleranceClass: '2A', hand: 'left' })
    expect(answered(thread('M8x1.25x40'))).toMatchObject({ designation: 'M8x1.25', lengthMm: 40 })
    expect(answered(thread('3/8-16 UNC x 1-1/2'))).toMatchObject({
      designation: '3/8-16 UNC',
      lengthMm: 38.1,
    })
    expect(answered(thread('#10-32 x .75'))).toMatchObject({ designation: '#10-32 UNF', lengthMm: 19.05 })
    expect(answered(thread('M8'))).toMatchObject({ hand: 'right', series: 'coarse' })
  })
  test.each([
    ['M8 x 25', 'M8x1.25', 25],
    ['M6x6', 'M6x1', 6],
    ['M10×40 mm', 'M10x1.5', 40],
    ['1/4-20 x 1', '1/4-20 UNC', 25.4],
    ['1/4 UNC x 1', '1/4-20 UNC', 25.4],
    ['#10 UNF x 1/2', '#10-32 UNF', 12.7],
    ['3/8 UNC x 1-1/2', '3/8-16 UNC', 38.1],
  ])('[FT1] %s has no such pitch, and is a length of %s', (text, designation, lengthMm) => {
    expect(answered(thread(text))).toMatchObject({ designation, lengthMm })
  })
  test.each([
    ['M10x125', 1.25, 125],
    ['M10 × 75', 0.75, 75],
    ['M10x075', 0.75, 75],
    ['M12x15', 1.5, 15],
    ['M12 x 175 mm', 1.75, 175],
  ])('[FT1] %s may be a pitch of %d that lost its point, and is asked about', (text, pitchMm, lengthMm) => {
    expect(thread(text)).toMatchObject({ refused: 'thread_pitch_or_length', data: { pitchMm, lengthMm } })
  })
  test.each([
    ['M10x120', 120],
    ['M10x100', 100],
    ['M20x25', 25],
    ['M5x8', 8],
    ['M6x125', 125],
    ['M16x175', 175],
  ])('[FT1] %s is a length: bolts come in it, or no such pitch does', (text, lengthMm) => {
    expect(thread(text)).toMatchObject({ lengthMm, pitchTaken: true })
  })
  test('[FT1] with its pitch before it a length is a length', () => {
    expect(thread('M10x1.25x125')).toMatchObject({ pitchMm: 1.25, lengthMm: 125 })
  })
  test('[FT1] what is no pitch and too short or odd for a length is asked about', () => {
    expect(thread('M10 x 2')).toMatchObject({ refused: 'thread_pitch_impossible', data: { pitchMm: 2 } })
    expect(thread('M10x12.5')).toMatchObject({ refused: 'thread_pitch_impossible', data: { pitchMm: 12.5 } })
    expect(thread('M10 x 9')).toMatchObject({ refused: 'thread_pitch_impossible', data: { pitchMm: 9 } })
    expect(thread('M8 x 2000')).toMatchObject({ refused: 'thread_pitch_impossible', data: { pitchMm: 2000 } })
    expect(thread('M15 x 40')).toMatchObject({ refused: 'thread_pitch_needed', data: { size: 'M15' } })
    expect(thread('1/4 x 1')).toMatchObject({ refused: 'thread_pitch_needed', data: { size: '1/4' } })
    expect(thread('1/4 x 19')).toMatchObject({ refused: 'thread_series_differs', data: { tpi: 19 } })
  })
  test('[FT1] every size of the tables is read back from its own name, and is a thread one can make', () => {
    const names = [
      ...[...COARSE_PITCH_MM].map(([d, p]) => `M${d}x${p}`),
      ...Object.entries(UNIFIED).flatMap(([series, sizes]) =>
        Object.entries(sizes).map(([size, tpi]) => `${size}-${tpi} ${series}`),
      ),
    ]
    expect(names.length).toBeGreaterThan(110)
    for (const each of names) {
      const found = answered(thread(each))
      expect(found.designation).toBe(each)
      expect(found.d3Mm).toBeGreaterThan(0.5 * found.dMm)
      expect(found.D1Mm).toBeGreaterThan(found.d3Mm)
      expect(found.d2Mm).toBeGreaterThan(found.D1Mm)
    }
  })
  test('[FT1] what a thread was read from goes along with it; a forged one is read again', () => {
    const left = answered(thread('M10x1.25-6g LH'))
    expect(workedWith(left)).toEqual(left)
    const forged = { designation: 'M10x1.25', dMm: Number.NaN, stressAreaMm2: 1 } as Thread
    expect(workedWith(forged)).toEqual(answered(thread('M10x1.25')))
  })
  test('[FT1] a size that is in no series is reckoned, and that is said', () => {
    expect(answered(thread('M13x1.5')).cautions).toEqual(['thread_not_standard_size'])
    expect(answered(thread('M15x1')).cautions).toEqual([])
  })
})

describe('refused with what was understood', () => {
  test.each([
    '',
    'constructor',
    'toString-3',
    'bolt',
    'M',
    'Mx1.5',
    'M0',
    'M-10',
    'M10x',
    'M10x1.25.5',
    'M1000',
    '10',
    '3/8',
    '0/8-16',
    '3/0-16',
    'UNC',
    '99/100-16',
  ])('[FT2] “%s”', (text) => {
    expect(refusedAs(thread(text))).toMatch(/^thread_(?:unknown|pitch_needed)$/)
  })
  test('[FT2] a size with fine pitches only, or marked fine, asks for its pitch', () => {
    expect(refusedAs(thread('M15'))).toBe('thread_pitch_needed')
    expect(refusedAs(thread('M12 fine'))).toBe('thread_pitch_needed')
    expect(thread('MF10')).toMatchObject({ data: { size: 'M10', pitches: ['0.75', '1', '1.25'] } })
    expect(refusedAs(thread('3/8'))).toBe('thread_pitch_needed')
  })
  test('[FT2] the pitches named in the question are those a size is cut with, or none', () => {
    const pitches = (text: string) => (thread(text) as { data: { pitches?: string[] } }).data.pitches
    expect(pitches('M8 fine')).toEqual(['0.75', '1'])
    expect(pitches('M14 fine')).toEqual(['1', '1.25', '1.5'])
    expect(pitches('M15')).toEqual(['1', '1.5'])
    expect(pitches('M5.5')).toEqual(['0.5'])
    expect(pitches('M30 fine')).toEqual(['1', '1.5', '2', '3'])
    expect(pitches('M13')).toEqual([])
  })
  test('[FT2] a dash before a whole number is no pitch: it may be a length or a place', () => {
    for (const text of ['M10-1', 'M10-40', 'M8-30']) expect(refusedAs(thread(text))).toBe('thread_unknown')
  })
  test.each([
    ['M10x2', 'too_coarse'],
    ['M8x3', 'too_coarse'],
    ['M10x0.25', 'too_fine'],
    ['M64x0.5', 'too_fine'],
    ['M10x1.3', 'not_a_pitch'],
    ['M10x1.26', 'not_a_pitch'],
    ['M5x1', 'too_coarse'],
  ])('[FT2] %s has a pitch that cannot be: %s', (text, why) => {
    expect(refusedAs(thread(text))).toBe('thread_pitch_impossible')
    expect(thread(text)).toMatchObject({ data: { why } })
  })
  // ISO 261, from memory: the largest diameter each fine pitch is used on.
  test.each([
    [0.5, 22, 24],
    [0.75, 33, 36],
    [1, 80, 85],
    [1.5, 150, 160],
    [2, 200, 205],
  ])('[FT2] a pitch of %d goes up to %d mm', (pitch, widest, beyond) => {
    expect(name(`M${widest}x${pitch}`)).toBe(`M${widest}x${pitch}`)
    expect(refusedAs(thread(`M${beyond}x${pitch}`))).toBe('thread_pitch_impossible')
  })
  test('[FT2] a count of another series is refused with what the size comes as', () => {
    expect(refusedAs(thread('3/8-24 UNC'))).toBe('thread_series_differs')
    expect(thread('3/8-18')).toMatchObject({
      refused: 'thread_series_differs',
      data: { tpi: 18, expected: ['3/8-16 UNC', '3/8-24 UNF', '3/8-32 UNEF'] },
    })
  })
  test.each([
    ['R1/8', 'pipe_taper'],
    ['Rc 1/4', 'pipe_taper'],
    ['1/8 NPT', 'pipe_taper'],
    ['1/8-27 NPTF', 'pipe_taper'],
    ['G1/8', 'pipe_parallel'],
    ['G 1/4 A', 'pipe_parallel'],
    ['Rp1/8', 'pipe_parallel'],
    ['1/4 BSP', 'pipe_parallel'],
    ['1/4 BSPT', 'pipe_taper'],
    ['M10x1 keg', 'metric_taper'],
    ['M10x1 taper', 'metric_taper'],
    ['1/4 BSW', 'whitworth'],
    ['2 BA', 'whitworth'],
    ['Tr16x4', 'trapezoidal'],
    ['1/4-28 UNJF', 'unified_j'],
    ['MJ6x1', 'metric_j'],
  ])('[FT3] %s is known and refused: %s', (text, form) => {
    expect(refusedAs(thread(text))).toBe('thread_other_form')
    expect(thread(text)).toMatchObject({ data: { form } })
  })
})
