/** Each doubt of the judge in its sentence, with the figures it rests on. */
import { describe, expect, test } from 'vitest'
import { doubtsInWords, doubtWords, judgeTorque, type TorqueToJudge } from '../../../shared/fastener'
import { comma, figures } from '../../shop/words'

const M8: TorqueToJudge = { fastener: 'bolt', thread: 'M8x1.25', grade: '8.8', lubrication: 'oil' }
const words = (more: TorqueToJudge) => {
  const judged = judgeTorque({ ...M8, ...more })
  return judged.doubts.map((doubt) => doubtWords(doubt, judged, figures))
}

describe('the words of a doubt', () => {
  test.each([
    [
      { nominalNm: 60 },
      'breaks_bolt',
      '60 N·m would break an M8x1.25 bolt (8.8): even at the highest friction it comes to 145 % of its breaking load.',
    ],
    [{ nominalNm: 200, grade: '' }, 'three_times', 'bears, even at the highest friction.'],
    [
      { nominalNm: 30, grade: '12.9', holeMaterial: 'cast aluminium', engagementMm: 1.5 },
      'three_times',
      '30 N·m pulls more than three times what the thread in the hole holds.',
    ],
    [
      { nominalNm: 36 },
      'past_yield',
      '36 N·m would pull an M8x1.25 bolt (8.8) past its yield at usual friction (132 %).',
    ],
    [
      { nominalNm: 22, minNm: 20, maxNm: 90 },
      'breaks_bolt',
      'The highest, 90 N·m, would break an M8x1.25 bolt (8.8): even at the highest friction it comes to 217 % of its breaking load.',
    ],
    [
      { nominalNm: 22, minNm: 20, maxNm: 36 },
      'past_yield',
      'The highest, 36 N·m, would pull an M8x1.25 bolt (8.8) past its yield at usual friction (132 %).',
    ],
    [{ nominalNm: 22, maxNm: 200, grade: '' }, 'three_times', 'The highest, 200 N·m, is '],
    [
      { nominalNm: 1, maxNm: 30, grade: '12.9', holeMaterial: 'cast aluminium', engagementMm: 1.5 },
      'three_times',
      'The highest, 30 N·m, pulls more than three times what the thread in the hole holds.',
    ],
    [{ nominalNm: 60, maxNm: 90 }, 'breaks_bolt', '60 N·m would break'],
    [
      { nominalNm: 22, thread: 'M8x125' },
      'thread_unknown',
      '“M8x125” may be M8x1.25 without its decimal point, or a bolt 125 mm long. Write the pitch, and a length after it. Its torque was not judged.',
    ],
    [{ nominalNm: 36, fastener: 'stud' }, 'past_yield', 'an M8x1.25 stud (8.8)'],
    [
      { nominalNm: 90, thread: 'M9x1', fastener: 'nut', grade: '8' },
      'over_nut',
      'a class 8 nut over its proof load',
    ],
    [
      { nominalNm: 20, holeMaterial: 'cast aluminium', engagementMm: 6 },
      'strips_hole',
      '20 N·m could strip the thread in the hole (',
    ],
    [
      { nominalNm: 0.05 },
      'hardly_clamps',
      'hardly loads an M8x1.25 bolt (8.8): less than 1 % of its yield at usual friction.',
    ],
    [
      { nominalNm: 24.6, minNm: 21, maxNm: 28.3, limitsFrom: 'shop' },
      'past_yield',
      'The highest this shop allows, 28.3 N·m, would pull an M8x1.25 bolt (8.8) past its yield at usual friction (104 %).',
    ],
    [
      { nominalNm: 30, grade: '8.8', lubrication: '', before: 'angle' },
      'seats_past_full',
      'An angle follows, and 30 N·m alone is more than an M8x1.25 bolt (8.8) is usually tightened to (about 24.6 N·m).',
    ],
    [
      { fastener: 'plug', thread: 'M16x1.5', grade: 'bronze', nominalNm: 1.2 },
      'hardly_seals',
      '1.2 N·m is little for an M16x1.5 plug: tables print about 12 to 73 N·m for its size.',
    ],
    [
      { fastener: 'plug', thread: 'M16x1.5', grade: 'bronze', nominalNm: 18, minNm: 16, maxNm: 180 },
      'over_seal',
      'The highest, 180 N·m, is far too much for an M16x1.5 plug: tables print about 12 to 73 N·m for its size.',
    ],
    [{ nominalNm: 22, minNm: 2.2, maxNm: 24 }, 'limits_far', 'The limit 2.2 N·m is far from 22 N·m.'],
    [
      { nominalNm: 22, grade: 'Gr X' },
      'grade_assumed',
      '“Gr X” is not a grade known here: it was judged as 8.8.',
    ],
    [{ nominalNm: 22, grade: 'not given' }, 'grade_assumed', 'No grade is given: it was judged as 8.8.'],
    [
      { nominalNm: 40, grade: '', thread: '7/16-14' },
      'grade_assumed',
      'No grade is given: it was judged as SAE 5.',
    ],
    [{ nominalNm: 22, thread: 'M8' }, 'pitch_assumed', 'M8 is taken as M8x1.25, the coarse pitch.'],
    [
      { nominalNm: 22, thread: 'M8 x 25' },
      'pitch_assumed',
      'M8 x 25 is taken as M8x1.25, the coarse pitch, 25 mm long.',
    ],
    [
      { nominalNm: 22, thread: 'zzz' },
      'thread_unknown',
      '“zzz” is not a thread known here: its torque was not judged.',
    ],
    [{ nominalNm: 22, thread: '' }, 'thread_unknown', 'No thread is given: its torque was not judged.'],
  ] as [TorqueToJudge, string, string][])('[FT22] %j: %s', (given, doubt, sentence) => {
    expect(judgeTorque({ ...M8, ...given }).doubts).toContain(doubt)
    expect(words(given).join(' ')).toContain(sentence)
  })
  test('[FT22] all of it, the gravest first, as the shop shows a torque; past yield goes without saying in a broken bolt', () => {
    const judged = judgeTorque({ thread: 'M8', grade: '8.8', lubrication: 'oil', nominalNm: 60.5 })
    expect(judged.doubts).toEqual(['breaks_bolt', 'past_yield', 'pitch_assumed'])
    expect(doubtsInWords(judged, comma)).toEqual([
      expect.stringMatching(/^60,5 N·m would break an M8x1.25 bolt \(8.8\): .*breaking load\.$/),
      'M8 is taken as M8x1.25, the coarse pitch.',
    ])
    expect(doubtsInWords(judgeTorque({ ...M8, nominalNm: 36 }), figures)).toEqual([
      expect.stringContaining('36 N·m would pull an M8x1.25 bolt (8.8) past its yield'),
    ])
  })
  test('[FT22] what is just past yield does not read as all of it', () => {
    const at = judgeTorque({ ...M8, nominalNm: 20 }).valueShare?.usual ?? 1
    expect(words({ nominalNm: (20 / at) * 1.002 })[0]).toContain('(100.2 %)')
  })
})
