import { describe, expect, test } from 'vitest'
import { isRefusal } from '../../../shared/log'
import {
  printSpec,
  readSpec,
  remarkSentenceFor,
  SPEC_REFUSAL_CODES,
  specSentenceFor,
} from '../../../shared/spec'
import { toNm } from '../../../shared/units'
import { figures } from '../../shop/words'

/** What a text says, printed by us. */
const says = (text: string, context = {}) => {
  const spec = readSpec(text, context)
  return isRefusal(spec) ? spec.refused : printSpec(spec)
}
const readings = (text: string) => {
  const spec = readSpec(text)
  return isRefusal(spec) ? ((spec.data.readings ?? []) as { text: string }[]).map((one) => one.text) : []
}

describe('one torque', () => {
  test.each([
    ['18-22 Nm', '18–22 N·m'],
    ['18…22 Nm', '18–22 N·m'],
    ['18 Nm to 22 Nm', '18–22 N·m'],
    ['between 18 and 22 Nm', '18–22 N·m'],
    ['Nm 20-25', '20–25 N·m'],
    ['20 ±2 Nm', '20 N·m (18–22 N·m)'],
    ['20 Nm ± 2 Nm', '20 N·m (18–22 N·m)'],
    ['20 Nm +/- 10 %', '20 N·m (18–22 N·m)'],
    ['20 +5/−0 Nm', '20 N·m (20–25 N·m)'],
    ['20 Nm (+5/-1)', '20 N·m (19–25 N·m)'],
    ['80 +10/0 N·m', '80 N·m (80–90 N·m)'],
    ['7.1 ~ 9.8 N·m', '7.1–9.8 N·m'],
    ['7.1〜9.8 N·m', '7.1–9.8 N·m'],
    ['20 -2/+3 Nm', '20 N·m (18–23 N·m)'],
    ['24.1 ± 0.3 Nm', '24.1 N·m (23.8–24.4 N·m)'],
    ['20 Nm (18–22 Nm)', '20 N·m (18–22 N·m)'],
    ['24 (20–28) N·m', '24 N·m (20–28 N·m)'],
    ['max 20 Nm', 'max 20 N·m'],
    ['20 Nm min.', 'min 20 N·m'],
    ['≥ 40 Nm', 'min 40 N·m'],
    ['min 18 Nm, max 22 Nm', '18–22 N·m'],
    ['20 N·m, max 22 N·m', '20 N·m (max 22 N·m)'],
    ['Tightening torque: 47 N·m.', '47 N·m'],
    ['Torque (Nm): 47', '47 N·m'],
    ['Anzugsdrehmoment 47 Nm', '47 N·m'],
    ['Couple de serrage : 47 N.m', '47 N·m'],
    ['47 Н·м', '47 N·m'],
    ['не более 12 Н·м', 'max 12 N·m'],
    ['de 20 à 25 N.m', '20–25 N·m'],
    ['[47 N·m]', '47 N·m'],
    ['47 N»m', '47 N·m'],
    ['４７ Ｎｍ', '47 N·m'],
    ['25 ± 2,5 N·m', '25 N·m (22.5–27.5 N·m)'],
    ['20 Nm +10/-5%', '20 N·m (19–22 N·m)'],
    ['20 -5/+10 % Nm', '20 N·m (19–22 N·m)'],
    ['20 Nm +10%/-5%', '20 N·m (19–22 N·m)'],
    ['20 Nm +2 Nm/-5%', '20 N·m (19–22 N·m)'],
    ['7 ÷ 9 Nm', '7–9 N·m'],
    ['25 &plusmn; 3&nbsp;N&middot;m', '25 N·m (22–28 N·m)'],
    ['30 Nm + 90&#176; &#xB1; 5&deg;', '30 N·m, then +90° (85–95°)'],
    ['25 N\u00ADm', '25 N·m'],
    ['25\uFEFFNm', '25 N·m'],
  ])('[SP1] %s', (text, printed) => {
    expect(says(text)).toBe(printed)
  })

  test('[SP2] the first printed unit counts, in N·m', () => {
    expect(readSpec('35 Ib-ft (47 N·m)')).toEqual({
      passes: [{ kind: 'torque', nominalNm: toNm(35, 'lbf·ft') }],
    })
    expect(says('47 N·m, 35 lb-ft')).toBe('47 N·m')
    expect(says('47 N·m / 35 lb-ft / 4.8 kgf·m')).toBe('47 N·m')
  })
})

describe('several passes', () => {
  test.each([
    ['1st 40 Nm, 2nd 70 Nm, 3rd +90°', '40 N·m, then 70 N·m, then +90°'],
    ['Step 1: 40 Nm\nStep 2: 70 Nm\nStep 3: turn 90°', '40 N·m, then 70 N·m, then +90°'],
    ['Step 1 - 40 Nm Step 2 - 90°', '40 N·m, then +90°'],
    ['Stage 1 40 Nm / Stage 2 90°', '40 N·m, then +90°'],
    ['a) 20 Nm b) 40 Nm c) 90°', '20 N·m, then 40 N·m, then +90°'],
    ['1. 40 Nm 2. 70 Nm', '40 N·m, then 70 N·m'],
    ['① 40 Nm ② 90°', '40 N·m, then +90°'],
    ['First step: 40 Nm; second step: 70 Nm; final step: 90°', '40 N·m, then 70 N·m, then +90°'],
    ['40, 70, 90 Nm, 90°', '40 N·m, then 70 N·m, then 90 N·m, then +90°'],
    ['40 → 70 → 90 Nm', '40 N·m, then 70 N·m, then 90 N·m'],
    ['in three stages: 40 - 70 - 90 Nm', '40 N·m, then 70 N·m, then 90 N·m'],
    ['40Nm,70Nm,90Nm,90°', '40 N·m, then 70 N·m, then 90 N·m, then +90°'],
    ['30Nm+90°,90°', '30 N·m, then +90°, then +90°'],
    ['1.) 40 Nm 2.) 90° clockwise', '40 N·m, then +90°'],
    ['40,70,90 Nm + 90°', '40 N·m, then 70 N·m, then 90 N·m, then +90°'],
    ['1st 40, 2nd 70 Nm, 3rd 90°', '40 N·m, then 70 N·m, then +90°'],
    ['40, 70, 90 Nm (30, 52, 66 lb-ft)', '40 N·m, then 70 N·m, then 90 N·m'],
    ['40 N·m (30 lb-ft), 70 N·m (52 lb-ft), 90°', '40 N·m, then 70 N·m, then +90°'],
    ['40 N·m → 90°', '40 N·m, then +90°'],
    ['30 Nm 90°', '30 N·m, then +90°'],
    ['30 Nm - 90°', '30 N·m, then +90°'],
    ['30 Nm + 2 x 90°', '30 N·m, then +90°, then +90°'],
    ['30 Nm + 90° ± 5°', '30 N·m, then +90° (85–95°)'],
    ['30 Nm + 85-95 deg.', '30 N·m, then +85–95°'],
    ['Tighten to 40 Nm, then turn a further 90 degrees.', '40 N·m, then +90°'],
  ])('[SP1] %s', (text, printed) => {
    expect(says(text)).toBe(printed)
  })

  test.each([
    ['27 Nm plus 1/4 turn', '27 N·m, then +90°'],
    ['27 Nm, further ½ turn', '27 N·m, then +180°'],
    ['27 Nm then a further quarter-turn', '27 N·m, then +90°'],
    ['27 Nm + 1 1/2 turns', '27 N·m, then +540°'],
    ['half a turn', '+180°'],
    ['1/4 turn ±5°', '+90° (85–95°)'],
    ['three quarters of a turn', '+270°'],
    ['30 Nm + 1/4 turn (90°)', '30 N·m, then +90°'],
    ['30 Nm + 1/6 Umdrehung', '30 N·m, then +60°'],
    ['30 Nm y luego un tercio de vuelta', '30 N·m, then +120°'],
    ['mit 20 Nm anziehen, dann eine Vierteldrehung weiter', '20 N·m, then +90°'],
  ])('[SP3] turns are degrees: %s', (text, printed) => {
    expect(says(text)).toBe(printed)
  })

  test.each([
    ['40 Nm, back off, 30 Nm', '40 N·m, then slacken fully, then 30 N·m'],
    ['slacken fully, then 20 Nm', 'slacken fully, then 20 N·m'],
    ['40 Nm, loosen by 1/2 turn, 20 Nm', '40 N·m, then slacken 180°, then 20 N·m'],
    ['40 Nm; slacken 180°; 20 Nm', '40 N·m, then slacken 180°, then 20 N·m'],
  ])('[SP4] a slackening is a pass: %s', (text, printed) => {
    expect(says(text)).toBe(printed)
  })
})

describe('two printed units', () => {
  test.each([
    '24 ±4 N•m (18 ±3 lb-ft)',
    '79 Nm (806 kgf-cm, 58 ft. lbs.)',
    '35-40 ft.-lbs. (47-54 N-m)',
    '20 N·m (13-16 lb-ft)',
  ])('[SP5] %s agree within their rounding', (text) => {
    expect(readSpec(text)).not.toHaveProperty('contradiction')
    expect(readSpec(text)).toHaveProperty('passes')
  })

  test('[SP5] within 2.5 % they are one torque, with a remark', () => {
    expect(readSpec('120 N·m (90 lbf·ft)')).toEqual({
      passes: [{ kind: 'torque', nominalNm: 120 }],
      remark: {
        pass: 0,
        first: { text: '120 N·m', unit: 'N·m', nominalNm: 120 },
        second: { text: '90 lbf·ft', unit: 'lbf·ft', nominalNm: toNm(90, 'lbf·ft') },
      },
    })
    expect(readSpec('120 N·m (92 lbf·ft)')).toHaveProperty('contradiction')
    const near = readSpec('120 N·m (90 lbf·ft)')
    expect(!isRefusal(near) && near.remark && remarkSentenceFor(near.remark, figures)).toBe(
      '“120 N·m” and “90 lbf·ft” are 1.7 % apart. The first is taken.',
    )
  })

  test('[SP5] what disagrees by more says so, with both as printed', () => {
    expect(readSpec('20 N·m, then 95 N·m (70 in-lb), then 90°')).toEqual({
      passes: [
        { kind: 'torque', nominalNm: 20 },
        { kind: 'torque', nominalNm: 95 },
        { kind: 'angle', nominalDeg: 90 },
      ],
      contradiction: {
        pass: 1,
        first: { text: '95 N·m', unit: 'N·m', nominalNm: 95 },
        second: { text: '70 in-lb', unit: 'lbf·in', nominalNm: toNm(70, 'lbf·in') },
      },
    })
  })

  test.each([
    ['24 ±4 N·m (18 ±1 lb-ft)', '18 ±1 lb-ft'],
    ['18–22 N·m (13–20 lb-ft)', '13–20 lb-ft'],
    ['79 Nm (806 kgf-cm, 85 ft. lbs.)', '85 ft. lbs.'],
    ['40, 70, 90 Nm (30, 52, 90 lb-ft)', '90 lb-ft'],
    ['100 N·m (50–60 lb-ft)', '50–60 lb-ft'],
  ])('[SP5] %s contradicts itself by %s', (text, second) => {
    expect(readSpec(text)).toHaveProperty('contradiction.second.text', second)
  })

  test('[SP6] after a comma alone, two that disagree may be two passes: asked', () => {
    expect(readings('47 N·m, 70 lb-ft')).toEqual(['47 N·m (70 lb-ft)', '47 N·m, then 70 lb-ft'])
  })
})

describe('points and commas', () => {
  test.each([
    ['1,250.5 N·m', '1250.5 N·m'],
    ['12.5 N·m, then 1,250 N·m', '12.5 N·m, then 1250 N·m'],
    ['12,5 N·m, then 1.250 N·m', '12.5 N·m, then 1250 N·m'],
    ['1,250 N·m (922 lb-ft)', '1250 N·m'],
    ['1,627 N·m (1,200 lb-ft)', '1627 N·m'],
    ['800-1,250 N·m', '800–1250 N·m'],
    ['1 250 N·m (922 lb-ft)', '1250 N·m'],
    ["1'250 N·m", '1250 N·m'],
    ['1\u00A0250 N·m', '1250 N·m'],
  ])('[SP7] decided by the text itself: %s', (text, printed) => {
    expect(says(text)).toBe(printed)
  })

  test.each([
    ['1,250 N·m', ['1250 N·m', '1.25 N·m']],
    ['1.250 Nm', ['1.25 N·m', '1250 N·m']],
    ['1 250 Nm', ['1250 N·m', '1 N·m, then 250 N·m']],
    ['100,200,300 Nm', ['100200300 N·m', '100 N·m, then 200 N·m, then 300 N·m']],
    [
      '1,250',
      [
        '1250 N·m',
        '1.25 N·m',
        '1,250 lbf·ft',
        '1,250 lbf·in',
        '12258.3125 N·m',
        `${toNm(1.25, 'kgf·m')} N·m`,
      ],
    ],
  ])('[SP7] else asked with the readings: %s', (text, expected) => {
    expect(readings(text)).toEqual(expected)
  })

  test('[SP7] a column that proves its decimal sign decides', () => {
    expect(says('1.250 N·m', { sign: 'comma' })).toBe('1250 N·m')
    expect(says('1.250 N·m', { sign: 'point' })).toBe('1.25 N·m')
  })
})

describe('what is unclear is asked', () => {
  test.each([
    ['35', 'no_unit', ['35 N·m', '35 lbf·ft', '35 lbf·in', '35 kgf·m']],
    ['12.5-15', 'no_unit', ['12.5-15 N·m', '12.5-15 lbf·ft', '12.5-15 lbf·in', '12.5-15 kgf·m']],
    ['35 lbs', 'half_a_unit', ['35 lbf·ft', '35 lbf·in']],
    ['30 Nm + 90', 'no_unit', ['30 Nm + 90 °', '30 Nm then 90 N·m']],
    ['24 N·m (20-28)', 'no_unit', ['24 N·m (20-28 N·m)']],
    ['1/4 Nm', 'fraction_or_two', ['0.25 N·m', '1 N·m, then 4 N·m']],
    ['40 Nm + 30 Nm', 'adds_to_torque', ['40 N·m, then down to 30 N·m', '40 N·m (40–70 N·m)']],
    ['40, 70, 90 Nm', 'list', ['40 N·m, then 70 N·m, then 90 N·m']],
    ['40,70,90 Nm', 'list', ['40 N·m, then 70 N·m, then 90 N·m']],
    ['9, 10, 26 Nm', 'list', ['26 N·m']],
    ['40Nm,70Nm,90Nm', 'list', ['40 N·m, then 70 N·m, then 90 N·m']],
    ['40/70/90 Nm', 'slash', ['40 N·m, then 70 N·m, then 90 N·m', '40 N·m', '70 N·m', '90 N·m']],
    [
      '45/50 ft lb',
      'slash',
      ['min 45 lbf·ft, max 50 lbf·ft', '45 lbf·ft, then 50 lbf·ft', '45 lbf·ft', '50 lbf·ft'],
    ],
    ['25 Nm, 30 Nm', 'list', ['25 N·m, then 30 N·m']],
    ['90 → 45 Nm', 'falls', ['90 N·m, then down to 45 N·m', '90 N·m, then slacken fully, then 45 N·m']],
    ['10 ± 10 Nm', 'wide', []],
    ['4 - 25 Nm', 'range', ['min 4 N·m, max 25 N·m', '25 N·m']],
    ['25 kg/m', 'misprint', ['25 kgf·m', '25 N·m']],
    ['20 Nm 40 Nm', 'not_parted', ['20 N·m, then 40 N·m', '20 N·m', '40 N·m']],
    ['90° back off', 'not_parted', ['+90°, then slacken fully']],
    ['30 Nm, 90, 90°', 'no_unit', ['30 Nm, 90 N·m, 90°', '30 Nm, 90 °, 90°']],
    ['22-18 Nm', 'range', []],
    ['1 - 40 Nm, 2 - 70 Nm', 'range', []],
    ['18-22-25 Nm', 'range', []],
    ['27 Nm + half a turn ±5', 'no_unit', ['27 Nm + half a turn ±5 °']],
    ['20 Nm (25-30 Nm)', 'limits', []],
    ['20 Nm ±30', 'limits', []],
    ['1st 40 Nm, 3rd 70 Nm', 'numbering', []],
    ['2nd 70 Nm, 1st 40 Nm', 'numbering', []],
    ['1. 40 Nm', 'numbering', ['40 N·m']],
    ['40 Nm or 45 Nm', 'one_or_two', ['40 N·m', '45 N·m']],
    ['25 Nm - 30 lb-ft', 'one_or_two', ['25 Nm (30 lb-ft)', '25 Nm, then 30 lb-ft']],
    ['20 Nm +10%/-5', 'limits', []],
    ['40-47 Nm (30-35 Nm)', 'one_or_two', []],
    ['20-25 Nm, max 22 Nm', 'adds_to_torque', ['20–25 N·m, then down to max 22 N·m']],
    ['20 Nm ±2, max 25 Nm', 'adds_to_torque', ['20 N·m (18–22 N·m), then max 25 N·m']],
    ['24 ±4 Nm (18-22 Nm)', 'one_or_two', []],
  ])('[SP6] %s', (text, why, expected) => {
    expect(readSpec(text)).toMatchObject({ refused: 'unclear', data: { why } })
    expect(readings(text)).toEqual(expected)
  })

  test('[SP6] each reading brings what it says', () => {
    expect(readSpec('35')).toMatchObject({
      data: { readings: expect.arrayContaining([{ text: '35 lbf·ft', spec: readSpec('35 lbf·ft') }]) },
    })
  })
})

describe('a number is a torque only where the print says so', () => {
  test.each([
    'Tighten bolts 9-12, 26 Nm',
    'bolts 9-12 26 Nm',
    'screw 4 - 26 Nm',
    '4 bolts, 26 Nm',
    '12. 26 Nm',
    '4x 26 Nm',
    '26 Nm (4x)',
    'All 8: 26 Nm',
    'Item 7: 26 Nm',
    'Pos. 4 - 26 Nm',
    'Fig. 3, no. 12: 26 Nm',
    'Bolts 1, 2 and 3: 26 Nm',
    'Cover (page 112) 26 N·m',
    'M8 x 25, 26 Nm',
    '7/16-14 UNC: 26 Nm',
    '13 mm socket, 26 Nm',
    '9-12, 26 Nm',
    '26 Nm at 80 °C',
    'Vis 1 à 10 : 26 N.m',
    'Болты 1–4: 26 Н·м',
    'Nuts 1 & 4: 26 Nm',
  ])('[SP13] %s: 26 N·m alone is offered', (text) => {
    expect(readSpec(text)).toMatchObject({ data: { readings: [{ text: '26 N·m' }] } })
  })

  test.each(['4 25 Nm', '12 5 Nm', '1 = 25 Nm, 2 = 40 Nm', 'M8x25 Nm', '60 + 6 Nm', '20- Nm'])(
    '[SP13] %s: nothing is read or offered',
    (text) => {
      expect(isRefusal(readSpec(text))).toBe(true)
      expect(readings(text)).toEqual([])
    },
  )
})

describe('words beside a torque', () => {
  test.each([
    ['Oil cooler pipe bracket to block: 24 Nm', '24 N·m', 'Oil cooler pipe bracket to block'],
    ['Big-end bolts (18): 30 Nm, then 60°', '30 N·m, then +60°', 'Big-end bolts (18)'],
    ['Sump bolts 10 Nm, do not overtighten', '10 N·m', 'Sump bolts … do not overtighten'],
    ['Hose clamp max. 3 Nm', 'max 3 N·m', 'Hose clamp'],
    ['Oil filter: hand tight, then 3/4 turn', '+270°', 'Oil filter: hand tight'],
    ['10 mm flange bolt: 49 {5.0, 36}', '49 N·m', '10 mm flange bolt'],
    ['Oil pan bolts 8-10 Nm', '8–10 N·m', 'Oil pan bolts'],
  ])('[SP14] %s is offered, with its note', (text, reading, note) => {
    const refusal = readSpec(text)
    expect(readings(text)).toEqual([reading])
    expect(refusal).toMatchObject({ data: { note } })
    expect(isRefusal(refusal) ? specSentenceFor(refusal, figures) : '').toContain(reading)
  })

  test('[SP14] one torque for each of several things: all are shown', () => {
    expect(readings('M8 25 Nm, M10 49 Nm')).toEqual(['25 N·m', '49 N·m'])
    expect(readings('35 Nm dry, 25 Nm oiled')).toEqual(['35 N·m', '25 N·m'])
  })

  test.each([
    'Not 25 Nm',
    'Not 25 Nm but 35 Nm',
    'Bolt 25 Nm if oiled',
    '25 Nm (formerly 30 Nm)',
    '45 lb-ft in 3 steps',
    '60 Nm, retorque to 70 Nm after 50 h',
    '2? Nm',
    '6O Nm',
    'l2 Nm',
    'Cover 25 Nm?',
    'Bend lock tab through 90°',
    'New bolts 20 Nm, 40 Nm',
    'M6: 10, M8: 25 Nm',
    '110 kW / 320 Nm',
    '25 Nm/rad',
    '25 Nm or',
    'oder 25 Nm',
    'from 20 Nm',
    'bis 60 Nm',
    '40 Nm, turn',
    '10°, 25 Nm',
    '25 1/2 Nm + 1 Nm',
  ])('[SP15] %s: nothing is read or offered alone', (text) => {
    expect(isRefusal(readSpec(text))).toBe(true)
    expect(readings(text).length).not.toBe(1)
  })
})

describe('what is no torque is refused', () => {
  test.each([
    ['', 'nothing_printed', undefined],
    [' \u00A0\n', 'nothing_printed', undefined],
    ['see note', 'not_a_torque', 'words'],
    ['finger tight', 'not_a_torque', 'words'],
    ['—', 'not_a_torque', 'words'],
    ['N·m', 'not_a_torque', 'words'],
    ['M10x1.25', 'not_a_torque', 'designation'],
    ['06A 103 383', 'not_a_torque', 'designation'],
    ['90105-T0213', 'not_a_torque', 'designation'],
    ['9.5 mm', 'not_a_torque', 'length'],
    ['1 1/2"', 'not_a_torque', 'length'],
    ['2.5 bar', 'not_a_torque', 'quantity'],
    ['80 °C', 'not_a_torque', 'quantity'],
    ['0 Nm', 'not_a_torque', 'zero'],
    ['Prevailing torque 5-12 Nm', 'not_a_torque', 'other_torque'],
    ['Losbrechmoment max. 40 Nm', 'not_a_torque', 'other_torque'],
    ['Check torque min. 30 Nm', 'not_a_torque', 'other_torque'],
    ['Max. engine torque 320 Nm at 1750 rpm', 'not_a_torque', 'other_torque'],
    ['Torque wrench range 20-100 Nm', 'not_a_torque', 'other_torque'],
  ])('[SP8] “%s”', (text, refused, what) => {
    expect(readSpec(text)).toMatchObject({ refused, data: what ? { what } : {} })
  })

  test.each([
    ['35 Nm dry, 25 Nm oiled', 'dry'],
    ['M8 22 Nm', 'M8'],
    ['40 Nm (see note 2)', 'see'],
    ['Tighten in 3 steps to 90 Nm', 'in 3 steps'],
    ['40 Nm 3 mm', 'mm'],
    ['-20 Nm', '-'],
    ['1.2.3 Nm', '1.2.3'],
    ['1,25,000 Nm', '1,25,000'],
    ['39\u00AD49 Nm', '\u00AD'],
    ['25 &frac17; Nm', 'frac17'],
    ['40 Nm then', 'then'],
    ['40 Nm (18 lb-ft', '('],
  ])('[SP9] what stands beside it and is not known stops it: %s', (text, part) => {
    const refusal = readSpec(text)
    expect(refusal).toMatchObject({ refused: 'not_understood' })
    if (part !== '(') expect(refusal).toMatchObject({ data: { part } })
  })

  test('[SP9] every refusal has its sentence, with the text and what to do next', () => {
    const seen = new Set<string>()
    for (const text of ['', 'see note', 'M8 22 Nm', '35', '22-18 Nm']) {
      const refusal = readSpec(text)
      if (!isRefusal(refusal)) throw new Error(`${text} was read`)
      seen.add(refusal.refused)
      const sentence = specSentenceFor(refusal, figures)
      expect(sentence).toMatch(/(?:Enter|choose|Look)/)
      if (text) expect(sentence).toContain(text)
    }
    expect([...seen].sort()).toEqual([...SPEC_REFUSAL_CODES].sort())
  })
})

describe('a unit from the table', () => {
  test.each([
    ['35', 'lbf·ft', `${toNm(35, 'lbf·ft')} N·m`],
    ['18-22', 'N·m', '18–22 N·m'],
    ['40, 70', 'N·m', '40 N·m, then 70 N·m'],
    ['40 + 90°', 'N·m', '40 N·m, then +90°'],
    ['20 ±2', 'N·m', '20 N·m (18–22 N·m)'],
    ['20 (18-22)', 'N·m', '20 N·m (18–22 N·m)'],
    ['35 lb-ft', 'N·m', `${toNm(35, 'lbf·ft')} N·m`],
    ['1,250', 'lbf·ft', `${toNm(1250, 'lbf·ft')} N·m`],
  ] as const)('[SP10] %s in %s', (text, unit, printed) => {
    expect(says(text, { unit })).toBe(printed)
  })

  test('[SP10] limits in brackets never take the place of limits', () => {
    expect(readSpec('40-47 (30-35)', { unit: 'N·m' })).toMatchObject({ refused: 'unclear' })
    expect(says('24 ±4 (20-28)', { unit: 'N·m' })).toBe('24 N·m (20–28 N·m)')
  })

  test('[SP10] a number that may as well be degrees is asked', () => {
    expect(says('40, 90, 90°', { unit: 'N·m' })).toBe('unclear')
    expect(says('40 + 90', { unit: 'N·m' })).toBe('unclear')
  })
})

describe('what reads well and is vague is offered, never read', () => {
  test.each([
    ['~ 20 N·m', '20 N·m'],
    ['approx. 20 N·m', '20 N·m'],
    ['do not exceed 20 N·m', 'max 20 N·m'],
    ['20 N·m, do not exceed 22 N·m', '20 N·m (max 22 N·m)'],
    ['25 Nm nicht überschreiten', 'max 25 N·m'],
    ['.5 Nm', '0.5 N·m'],
    ['44 N·m (1)', '44 N·m'],
  ])('[SP16] %s', (text, printed) => {
    expect(says(text)).toBe('not_understood')
    expect(readings(text)).toEqual([printed])
  })
  test.each(['65 lb/ft', '32 ft/lbs'])('[SP16] %s is asked as a misprint', (text) => {
    expect(readSpec(text)).toMatchObject({ refused: 'unclear', data: { why: 'misprint' } })
    expect(readings(text)).toHaveLength(1)
  })
})

describe('found by lines that were written apart from the grammar', () => {
  test.each([
    ['25 Nm + 90°/120°', 'unclear'],
    ['25 Nm, then 1-2 turns', 'unclear'],
    ['50 Nm + 9999°', 'not_understood'],
    ['50 Nm + 90-9999°', 'unclear'],
    ['25 Nm of 30 Nm', 'unclear'],
    ['25 . 5 Nm', 'not_understood'],
    ['_5 Nm', 'not_understood'],
    ['1e3 Nm', 'not_understood'],
    ['25 Nm > 40 Nm', 'not_understood'],
    ['25 Nm < 30 Nm', 'not_understood'],
    ['M8/M10 24/48 Nm', 'not_understood'],
    ['Stage 2: 60 (Stage 1: 20 Nm)', 'not_understood'],
    ['Inlet 20, exhaust 30 Nm', 'not_understood'],
    ['Retorque hot to 80 Nm after 500 miles', 'not_understood'],
    ['40 Nm; after 1000 km retighten to 40 Nm', 'not_understood'],
    ['Tighten each bolt half a turn at a time until seated', 'not_understood'],
  ])('[SP15] %s offers no single torque', (text, refused) => {
    expect(says(text)).toBe(refused)
    expect(readings(text).length).not.toBe(1)
  })
  test.each([
    ['20 Nm, then 90° twice', '20 N·m, then +90°, then +90°'],
    ['Maximum torque: 58 N·m', 'max 58 N·m'],
    ['< 15 Nm', 'max 15 N·m'],
    ['2 ±.5 Nm', '2 N·m (1.5–2.5 N·m)'],
    ['Apretar a 30 Nm y girar 90° más', '30 N·m, then +90°'],
    ['dokręcić momentem 30 Nm, następnie o kąt 90°', '30 N·m, then +90°'],
    ['w dwóch etapach: 20 Nm, następnie 40 Nm', '20 N·m, then 40 N·m'],
    ['vastdraaien met 65 Nm, daarna 60° verder', '65 N·m, then +60°'],
    ['stap 1 20 Nm, stap 2 een kwartslag', '20 N·m, then +90°'],
    ['utáhnout na 30 Nm, potom o 90°', '30 N·m, then +90°'],
    ['1. krok 20 Nm, 2. krok 90°', '20 N·m, then +90°'],
    ['apertar a 25 Nm e rodar 90°', '25 N·m, then +90°'],
    ['1.ª etapa 20 Nm, 2.ª etapa 40 Nm', '20 N·m, then 40 N·m'],
  ])('[SP1] %s', (text, printed) => {
    expect(says(text)).toBe(printed)
  })
})

describe('what a person who never saw the grammar wrote', () => {
  test.each([
    // A later pass alone, and one that says that more follows, is never the whole of it.
    ['2e passe : 60 N.m', ['60 N·m']],
    ['3. Stufe: 40 Nm', ['40 N·m']],
    ['Temporarily tighten to 10 N·m', ['10 N·m']],
    ['Vorziehen mit 20 Nm', ['20 N·m']],
    // The verb is behind its angle, and a plus before it turns the other way.
    ['60 Nm + 180° lösen', ['60 N·m, then +180°, then slacken fully']],
    // A torque and then an angle, whichever is printed first.
    ['nach 20 Nm noch 1/3 Umdrehung', ['20 N·m, then +120°']],
    ['Increase angle 90° after 30 N·m', ['30 N·m, then +90°']],
    ['30 N·m after 1000 km', []],
    // A year of make is no torque.
    ['From 1987: 28 Nm', ['28 N·m']],
    ['bis 10/1999: 45 Nm', ['45 N·m']],
    ['until 1995 35 Nm, from 1996 40 Nm', ['35 N·m', '40 N·m']],
    // Each size has its own torque, and one of them no unit.
    ['M8 25 - M10 45 Nm', []],
    ['M8 x 25 - 25 Nm', ['25 N·m']],
    ['due passate: 25 Nm e 50 Nm', ['25 N·m, then 50 N·m']],
  ])('[SP14] [SP16] %s is not read, and offers %j', (text, offered) => {
    expect(isRefusal(readSpec(text))).toBe(true)
    expect(readings(text)).toEqual(offered)
  })
  test.each([
    ['1re passe : 20 N.m, 2e passe : 60 N.m', '20 N·m, then 60 N·m'],
    ['60 Nm, um 180° lösen, 25 Nm, 70° weiterdrehen', '60 N·m, then slacken 180°, then 25 N·m, then +70°'],
    ['1999 Nm', '1999 N·m'],
    ['étape 1 : 20 N.m – étape 2 : 90°', '20 N·m, then +90°'],
    ['1:a dragningen 20 Nm, 2:a dragningen 45 Nm', '20 N·m, then 45 N·m'],
    ['25 Nm ∠ 90°', '25 N·m, then +90°'],
  ])('[SP1] %s: %s', (text, said) => {
    expect(says(text)).toBe(said)
  })
  test('[SP2] pounds, feet and inches in words of other languages', () => {
    for (const text of ['45 libras-pie', '45 pies-libras', '45 livres-pied', '45 libbre-piede'])
      expect(readSpec(text)).toMatchObject({ passes: [{ nominalNm: expect.closeTo(61.0118, 4) }] })
    expect(readSpec('100 libras-pulgada')).toMatchObject({
      passes: [{ nominalNm: expect.closeTo(11.2985, 4) }],
    })
  })
})
