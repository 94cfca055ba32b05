/** A shop with a decimal comma reads a comma in every sentence: what is judged, refused, cautioned and recorded. */
import { describe, expect, test } from 'vitest'
import {
  doubtsInWords,
  fastenerSentence,
  inputsWords,
  judgeTorque,
  kiloNewton,
  proposalSentence,
  resultsWords,
} from '../../../shared/fastener'
import type { ProposalInputs, ProposalResults } from '../../../shared/fastener/proposal'
import { not } from '../../../shared/fastener/proposal-refusals'
import { no } from '../../../shared/fastener/refusals'
import { sentenceFor } from '../../../shared/job/refusals'
import { basisWords } from '../../../shared/job/trail/sentences'
import { isRefusal } from '../../../shared/log'
import { leadsTo, type MeasureRefusal, measureSentence } from '../../../shared/measure'
import { refuseMeasure } from '../../../shared/measure/refusals'
import { checkPlan } from '../../../shared/plan/check'
import { bandWords, limitsWords, passesWords } from '../../../shared/plan/words'
import { type ItemLine, readSheet, sheetToPlan } from '../../../shared/sheet'
import { readSpec, remarkSentenceFor, specSentenceFor } from '../../../shared/spec'
import { parseLength, parseTorque, unitSentenceFor } from '../../../shared/units'
import type { Figures, Words } from '../../../shared/words'
import { againstWrench, wrenchSentence } from '../../../shared/wrench'
import { refuseWrench } from '../../../shared/wrench/refusals'
import { comma, figures, words } from '../../shop/words'
import { wrench } from '../../shop/wrenches'
import { withJoint } from '../plan/faults'

/** A thread's name is no number, and keeps its point wherever it is written. */
const hasPoint = (sentence: string): boolean => /\d\.\d/.test(sentence.replaceAll('M10x1.25', ''))

/** A thread and a grade whose names have no point in them. */
const INCH = { thread: '1/2-13 UNC', grade: 'SAE 5', lubrication: 'oil' }
const inputs: ProposalInputs = {
  ...INCH,
  frictionLow: 0.085,
  frictionHigh: 0.165,
  holeMaterial: 'cast iron',
  holeShearMPa: 210,
  engagementMm: 18.5,
  utilisation: 0.9,
  headBearingMm: 17.5,
  clearanceHoleMm: 13.5,
  tolerancePct: 7.5,
}
const results: ProposalResults = {
  torqueNm: 62.5,
  minNm: 57.8,
  maxNm: 67.2,
  ceilingNm: 70.4,
  preloadLowN: 31_450,
  preloadHighN: 45_270,
  boltN: 90_000,
  boltThreadN: 80_000,
  holeThreadN: 60_000,
  weakest: 'hole_thread',
  margin: 1.33,
  heldBy: 'hole_thread',
  fullUseNm: 80.5,
}
const proposal = { added: {}, inputs, results, cautions: [], basis: [] }
const doubtsOf = (f: Figures, torque: Parameters<typeof judgeTorque>[0]) =>
  doubtsInWords(judgeTorque({ ...INCH, ...torque }), f)
const specWords = (f: Figures, text: string) => {
  const read = readSpec(text)
  return isRefusal(read)
    ? [specSentenceFor(read, f) ?? '']
    : read.remark
      ? [remarkSentenceFor(read.remark, f)]
      : []
}
const unitWords = (f: Figures, read: ReturnType<typeof parseTorque> | ReturnType<typeof parseLength>) =>
  isRefusal(read) ? [unitSentenceFor(read, f) ?? ''] : []
const SHEET =
  'Item;Thread;Grade;Torque\nA;1/2-13 UNC;SAE 5;612,5 Nm\nB;1/2-13 UNC;SAE 5;1,5 Nm\nC;;;22,125 Nm\n'
const doubtsOfSheet = (f: Figures) =>
  readSheet(SHEET, f)
    .lines.filter((line): line is ItemLine => line.kind === 'item')
    .flatMap(({ doubt = [] }) => doubt)
    .filter((sentence) => /[.,]\d/.test(sentence))
const planProblems = (f: Figures) => {
  const joint = (torqueNm: number, more: object = {}) =>
    withJoint({ ...INCH, passes: [{ kind: 'torque', torqueNm, ...more }] } as Parameters<typeof withJoint>[0])
  const plans = [
    joint(612.5),
    joint(137.5),
    joint(60.5, { limits: { minNm: 61.5, maxNm: 62.5, from: 'maker' } }),
    withJoint({
      ...INCH,
      lengthMm: 40.5,
      hole: { material: 'cast iron', stackMm: 22.5, depthMm: 15.5, threadMm: 12.5 },
    }),
  ]
  return plans.flatMap((plan) => {
    const { faults, cautions } = checkPlan(plan, f)
    return [...faults, ...cautions].flatMap(({ problem }) => (/\d[.,]\d/.test(problem) ? [problem] : []))
  })
}

const ROOMS: Record<string, (w: Words) => readonly string[]> = {
  'the judge': (w) => [
    ...doubtsOf(w, { nominalNm: 612.5 }),
    ...doubtsOf(w, { nominalNm: 137.5 }),
    ...doubtsOf(w, { nominalNm: 1.5 }),
    ...doubtsOf(w, { nominalNm: 60.5, holeMaterial: 'cast iron', engagementMm: 4 }),
  ],
  'what a fastener is refused for': (w) =>
    [
      no('number_impossible', { name: 'Engagement', given: '-1.5', must: 'a length above 0 mm' }),
      no('thread_unknown', { text: 'M0', understood: 'metric, 0.5 mm across, outside 1 to 600 mm' }),
      no('thread_pitch_impossible', { text: 'M6', dMm: 6, pitchMm: 1.75, why: 'too_coarse', limitMm: 1.25 }),
      no('grade_not_this_size', { grade: 'SAE 5', dMm: 6.35, fromMm: 6.5, uptoMm: 38.1 }),
      no('waist_too_thick', { waistMm: 8.25, d3Mm: 8.16 }),
      no('hole_below_thread', { holeMm: 9.5, dMm: 10 }),
      no('bearing_below_hole', { bearingMm: 9.5, holeMm: 10.5 }),
      no('insert_longer_than_hole', { insertMm: 15.5, holeMm: 12.25 }),
      no('thread_deeper_than_hole', { threadDepthMm: 15.5, holeDepthMm: 12.25 }),
      no('turn_outside_table', { lengthMm: 152.5, dMm: 12.7, uptoMm: 150.5 }),
    ].map((refusal) => fastenerSentence(refusal, w)),
  'what is proposed': (w) => [
    ...[
      not('too_few_threads', { engagementMm: 3.25, wantedMm: 4.5 }),
      not('bolt_bottoms', { lengthMm: 45.5, roomMm: 42.25 }),
    ].map((refusal) => proposalSentence(refusal, w)),
    inputsWords(inputs, w),
    resultsWords(results, w),
    kiloNewton(45_270, w),
  ],
  'the wrench': (w) => [
    ...[
      refuseWrench('torque_impossible', { value: -1.5 }),
      refuseWrench('lever_impossible', { wrenchMm: -400.5, adapterMm: 50, angleDeg: 22.5 }),
      refuseWrench('lever_reversed', { wrenchMm: 40.5, adapterMm: 50.5, angleDeg: 180 }),
      refuseWrench('check_impossible', { shown: 12.5, reference: 0 }),
    ].map((refusal) => wrenchSentence(refusal, w)),
    ...againstWrench(
      {
        wrench: wrench('TW-1', { min: 2.5, max: 12.5 }),
        planned: false,
        fits: false,
        against: ['out_of_range', 'no_room'],
        room: { low: 22.5, high: 21.5, can: false, marginPct: -2, deviationPct: 4.5 },
        setting: { value: 22.5, unit: 'N·m', appliesNm: 22.5, inBand: true, betweenMarks: false },
      },
      w,
    ),
  ],
  'what is measured': (w) => [
    ...[
      refuseMeasure('size_impossible', { what: 'a gap', value: -0.5, unit: 'mm', must: 'above 0' }),
      refuseMeasure('limits_crossed', { min: 0.5, max: 0.25 }),
      refuseMeasure('no_clearance_volume', { volumeCc: -1.5 }),
      refuseMeasure('shim_moves_nothing', { perMm: 1.5e-7 }),
    ].map((refusal) => measureSentence(refusal as MeasureRefusal, w)),
    ...leadsTo(
      {
        leadsTo: { kind: 'gasket', grades: [{ name: 'one notch', minMm: 0.5, maxMm: 0.7 }] },
        places: ['1', '2'],
      },
      { 1: 0.55, 2: 0.65 },
      w,
    ).map(({ sentence }) => sentence),
    ...leadsTo(
      {
        leadsTo: { kind: 'timing_shim', fittedMm: 0.5, perMm: 10, sizesMm: [0.3, 0.5, 0.7] },
        places: ['1'],
        min: 16.5,
        max: 17.5,
      },
      { 1: 15 },
      w,
    ).map(({ sentence }) => sentence),
  ],
  'what was typed or printed': (w) => [
    ...unitWords(w, parseTorque('12,5')),
    ...unitWords(w, parseTorque('1,250 Nm')),
    ...unitWords(w, parseLength('12 miles')),
    ...specWords(w, '1,250 Nm'),
    ...specWords(w, '120 Nm (90 lb-ft)'),
  ],
  'a sheet and its plan': (w) => [
    ...doubtsOfSheet(w),
    ...planProblems(w),
    ...sheetToPlan(readSheet('Item;Torque\nA;min 22,5 Nm\n', w).lines, HEAD, w)
      .plan.steps.flatMap(({ joints }) => joints.flatMap(({ notes = [] }) => notes))
      .filter((note) => note.includes('only a limit')),
    passesWords(
      [
        { kind: 'torque', torqueNm: 22.5 },
        { kind: 'angle', angleDeg: 67.5 },
      ],
      w,
    ),
    bandWords({ kind: 'torque', minNm: 20.5, maxNm: 24.5, from: 'maker' }, w),
    limitsWords({ min: 0.1, max: 0.28, unit: 'mm' }, w),
  ],
  'the trail': (w) => [
    basisWords({ kind: 'computed', method: 'VDI', inputs: 'as written', proposal }, w),
    sentenceFor({ refused: 'limits_miss_value', data: { torqueNm: 30.5, minNm: 20.5, maxNm: 24.5 } }, w),
    sentenceFor({ refused: 'proposal_differs', data: { title: 'Caps', torqueNm: 30.5 } }, w),
    sentenceFor({ refused: 'above_proposal', data: { maxNm: 30.5, ceilingNm: 24.5 } }, w),
    sentenceFor(
      {
        refused: 'proposal_refused',
        data: { title: 'Caps', reasons: [not('bolt_bottoms', { lengthMm: 45.5, roomMm: 42.25 })] },
      },
      w,
    ),
    sentenceFor(
      {
        refused: 'torque_impossible',
        data: { stepId: 'B1', title: 'Caps', pass: 1, judged: judgeTorque({ ...INCH, nominalNm: 612.5 }) },
      },
      w,
    ),
  ],
}
const HEAD = { id: 'x', title: 'X', family: 'X', source: 'X' }

describe.each(Object.entries(ROOMS))('%s', (_, sentences) => {
  const withComma = sentences({ ...words, ...comma })
  const withPoint = sentences({ ...words, ...figures })
  test('no number has a point', () => {
    expect(withComma.filter(hasPoint)).toEqual([])
  })
  test('each of them would have one in a shop that writes a point', () => {
    expect(withPoint.length).toBeGreaterThan(3)
    expect(withPoint.filter((sentence) => !hasPoint(sentence))).toEqual([])
  })
  test('and nothing else is different', () => {
    expect(withComma.map((sentence) => sentence.replace(/(?<=\d),(?=\d)/g, '.'))).toEqual(
      withPoint.map((sentence) => sentence.replace(/(?<=\d),(?=\d)/g, '.')),
    )
  })
})
