/** A torque sheet gone through on the shop page: corrections over its lines, their order and counts, the draft it becomes. */
import { describe, expect, test } from 'vitest'
import { checkPlan } from '../../../shared/plan/check'
import { readPlan } from '../../../shared/plan/schema'
import { readSheet, threadRead } from '../../../shared/sheet'
import { draftFrom, freeEdition, idFrom } from '../../../web/pages/shop/sheet/make-draft'
import { countsWords, specWords } from '../../../web/pages/shop/sheet/sheet-words'
import {
  countsOf,
  EMPTY_WORK,
  inOrder,
  nextDoubt,
  restAs,
  type SheetWork,
  type WorkLine,
  withCorrection,
  workLines,
} from '../../../web/pages/shop/sheet/sheet-work'
import { figures } from '../../shop/words'

const TEXT = [
  'Item\tThread\tQty\tTorque',
  'Cylinder head',
  'Head nut\tM10x1.25\t10\t79 N·m (58 ft. lbs.)',
  'Head stud\tM10\t10\t95 N·m (70 in-lb)',
  'Rocker cover bolt\tM6\t8\t12',
  'Flywheel',
  'Flywheel bolt\tM12x1.25\t8\t75 to 85 ft. lbs.',
  'Starter bolt\tM10x9\t2\t35 Ib-ft',
  'Oil pipe union\tR1/8\t1\tsee page 14',
].join('\n')
const SHEET = readSheet(TEXT, figures)
const WORK: SheetWork = { ...EMPTY_WORK, text: TEXT }
const HEAD = { id: 'x-1', title: 'Torques', family: 'diesel', source: 'Invented sheet, edition 1' }

const lineOf = (work: SheetWork, n: number): WorkLine => {
  const found = workLines(SHEET, work).find(({ original }) => original.line === n)
  if (!found) throw new Error(`The sheet has no line ${n}.`)
  return found
}
const say = (work: SheetWork, n: number, said: Parameters<typeof withCorrection>[2]) =>
  withCorrection(work, lineOf(work, n).original, said)

describe('what the reader leaves beside a torque', () => {
  const text = 'Item\tThread\tTorque\nA\tM8x1.25\t22.0 N·m (16.5 lbf·ft)\nB\tM8x1.25\t25 Nm with new bolts\n'
  const sheet = readSheet(text, figures)
  const at = (n: number, corrections = {}) =>
    workLines(sheet, { choices: {}, corrections })[n - 1] as WorkLine
  const told = ({ line }: WorkLine) => (line.kind === 'item' ? line.told : undefined)

  test('a remark is told beside the line, which is read', () => {
    expect(at(2).state).toBe('read')
    expect(told(at(2))).toEqual([expect.stringMatching(/ % apart\. The first is taken\.$/)])
  })
  test('an offer is one press; its words stay beside the line and go into the plan', () => {
    const offered = at(3)
    expect([offered.state, offered.offers]).toEqual(['unread', ['25 N·m']])
    expect(offered.doubt[0]).toContain('with the note “with new bolts”')
    const { corrections } = withCorrection({ ...EMPTY_WORK, text }, offered.original, { printed: '25 N·m' })
    const taken = at(3, corrections)
    expect(taken.state).toBe('read')
    expect(told(taken)).toEqual(['Printed beside it, and not read: “with new bolts”.'])
    const { steps } = draftFrom([taken], HEAD)
    expect(steps[0]?.joints[0]?.notes?.join(' ')).toContain('with new bolts')
    // Another torque typed by hand is not the one those words stood beside.
    const other = withCorrection({ ...EMPTY_WORK, text }, offered.original, { printed: '26 N·m' })
    expect(told(at(3, other.corrections))).toBeUndefined()
  })
})

describe('what a line is', () => {
  test('read, to look at, not read, a heading, the heading of the columns', () => {
    expect(workLines(SHEET, WORK).map(({ state }) => state)).toEqual([
      'header',
      'section',
      'read',
      'look',
      'unread',
      'section',
      'read',
      'look',
      'unread',
    ])
    expect(countsWords(countsOf(workLines(SHEET, WORK)))).toBe('2 read, 2 doubtful, 2 not read; 2 headings')
  })

  test('each line knows its heading, and lines to look at come first, unread before doubtful', () => {
    expect(lineOf(WORK, 3).section).toBe('Cylinder head')
    expect(lineOf(WORK, 7).section).toBe('Flywheel')
    expect(inOrder(workLines(SHEET, WORK))).toEqual({ look: [5, 9, 4, 8], rest: [1, 2, 3, 6, 7] })
  })

  test('an impossible thread is doubted, a form not reckoned with is not', () => {
    expect(lineOf(WORK, 8).doubt.join(' ')).toContain('coarser than the coarse pitch')
    expect(threadRead('R1/8')).toMatchObject({ other: true })
    expect(threadRead('m10 x 1,25')).toEqual({ designation: 'M10x1.25' })
  })

  test('what it may say is offered: both sides of a contradiction, the units of a bare number', () => {
    expect(lineOf(WORK, 4).offers).toEqual(['95 N·m', '70 in-lb'])
    expect(lineOf(WORK, 5).offers).toContain('12 N·m')
    expect(lineOf(WORK, 5).offers).toContain('12 lbf·ft')
  })

  test('passes in words, each with its band', () => {
    expect(specWords({ passes: [{ kind: 'torque', nominalNm: 30, minNm: 27, maxNm: 33 }] })).toBe(
      '30 N·m (27 to 33 N·m)',
    )
    expect(
      specWords({
        passes: [{ kind: 'torque', minNm: 20 }, { kind: 'angle', nominalDeg: 90 }, { kind: 'slacken' }],
      }),
    ).toBe('at least 20 N·m → +90° → slacken fully')
  })
})

describe('what its author says', () => {
  test('a corrected torque is read anew and settles what was doubted of it; the text as pasted stays', () => {
    const { state, line, original } = lineOf(say(WORK, 5, { printed: '12 N·m' }), 5)
    expect(state).toBe('read')
    expect(line).toMatchObject({ text: original.text, spec: { passes: [{ kind: 'torque', nominalNm: 12 }] } })
    expect(original.kind === 'item' && original.refusal?.refused).toBe('unclear')
  })

  test('a correction that cannot be read either leaves the line unread', () => {
    expect(lineOf(say(WORK, 3, { printed: '79' }), 3).state).toBe('unread')
  })

  test('a doubtful line may stand as it is; an unread one may not', () => {
    expect(lineOf(say(WORK, 4, { seen: true }), 4).state).toBe('read')
    expect(lineOf(say(WORK, 5, { seen: true }), 5).state).toBe('unread')
  })

  test('a heading may be a fastener, a fastener a heading or nothing for the plan', () => {
    expect(lineOf(say(WORK, 6, { as: 'joint', printed: '40 N·m' }), 6)).toMatchObject({
      state: 'read',
      line: { kind: 'item', item: 'Flywheel' },
    })
    const headed = say(WORK, 3, { as: 'heading' })
    expect(lineOf(headed, 3).state).toBe('section')
    expect(lineOf(headed, 4).section).toBe('Head nut')
    expect(lineOf(say(WORK, 9, { as: 'out' }), 9).state).toBe('out')
  })

  test('it is let go when the text of the line changes, and taken back by itself', () => {
    const said = say(WORK, 5, { printed: '12 N·m' })
    const changed = readSheet(TEXT.replace('M6\t8\t12', 'M6\t8\t14'), figures)
    expect(workLines(changed, said).find(({ original }) => original.line === 5)?.state).toBe('unread')
    expect(lineOf(say(said, 5, { printed: undefined }), 5).state).toBe('unread')
  })

  test('only the lines it touches are made anew', () => {
    const before = workLines(SHEET, WORK)
    const after = workLines(SHEET, say(WORK, 5, { printed: '12 N·m' }))
    expect(after.filter((line, i) => line !== before[i]).map(({ original }) => original.line)).toEqual([5])
  })

  test('a class is nobody’s until it is said; the rest as B leaves what was said', () => {
    const one = say(WORK, 4, { class: 'A' })
    expect(countsOf(workLines(SHEET, one)).withoutClass).toBe(5)
    const all = restAs(one, workLines(SHEET, one), 'B')
    expect(countsOf(workLines(SHEET, all)).withoutClass).toBe(0)
    expect([lineOf(all, 3), lineOf(all, 4)].map(({ correction }) => correction?.class)).toEqual(['B', 'A'])
  })

  test('the next to look at goes round, past what is settled', () => {
    const byLine = (work: SheetWork) => (n: number) =>
      workLines(SHEET, work).find(({ original }) => original.line === n)
    const order = [5, 9, 4, 8, 1, 2, 3, 6, 7]
    expect(nextDoubt(order, byLine(WORK), undefined)).toBe(5)
    expect(nextDoubt(order, byLine(WORK), 8)).toBe(5)
    expect(nextDoubt(order, byLine(say(WORK, 9, { as: 'out' })), 5)).toBe(4)
  })
})

describe('the draft it becomes', () => {
  const gone = [
    (work: SheetWork) => say(work, 5, { printed: '12 N·m', class: 'C' }),
    (work: SheetWork) => say(work, 3, { class: 'A' }),
    (work: SheetWork) => say(work, 8, { thread: 'M10' }),
    (work: SheetWork) => say(work, 9, { as: 'out' }),
    (work: SheetWork) => restAs(work, workLines(SHEET, work), 'B'),
  ].reduce((work, change) => change(work), WORK)
  const plan = draftFrom(workLines(SHEET, gone), HEAD)
  const joint = (id: string) => plan.steps.flatMap(({ joints }) => joints).find((one) => one.id === id)

  test('a plan the library would take: no fault', () => {
    expect(checkPlan(plan, figures).faults).toEqual([])
    expect(readPlan(JSON.parse(JSON.stringify(plan)), figures)).toHaveProperty('plan')
  })

  test('the author’s classes; two signatures where one is A', () => {
    expect(['J3', 'J4', 'J5', 'J7'].map((id) => joint(id)?.class)).toEqual(['A', 'B', 'C', 'B'])
    expect(plan.steps.map(({ title, signatures }) => [title, signatures])).toEqual([
      ['Cylinder head', 2],
      ['Flywheel', 1],
    ])
  })

  test('a contradiction comes without a torque, a correction with what was pasted beside it', () => {
    expect(joint('J4')?.passes).toEqual([{ kind: 'torque', torqueNm: null }])
    expect(joint('J5')?.passes).toEqual([{ kind: 'torque', torqueNm: 12 }])
    expect(joint('J5')?.notes?.join(' ')).toContain('The author reads the torque as “12 N·m”, not as “12”.')
    expect(joint('J5')?.notes?.[0]).toContain('Rocker cover bolt M6 8 12')
    expect(joint('J8')?.thread).toBe('M10')
  })

  test('what is left out is named in the plan', () => {
    expect(joint('J9')).toBeUndefined()
    expect(plan.notices?.some((one) => one.includes('line 9: Oil pipe union'))).toBe(true)
  })

  test('a doubt nobody settled goes along as a note', () => {
    const doubted = draftFrom(workLines(SHEET, restAs(WORK, workLines(SHEET, WORK), 'B')), HEAD)
    const notes = doubted.steps.flatMap(({ joints }) => joints).find(({ id }) => id === 'J8')?.notes
    expect(notes?.join(' ')).toContain('Not settled:')
  })

  test('an id from its title, an edition the library does not have', () => {
    expect(idFrom('Harrow R2: torques (1974)')).toBe('harrow-r2-torques-1974')
    expect(freeEdition(undefined)).toBe(1)
    expect(freeEdition({ 1: {}, 3: {} })).toBe(4)
  })
})

describe('what the judge stops or doubts', () => {
  const text = [
    'Item\tThread\tQty\tTorque\tGroup',
    'Cover bolt\tM8\t6\t25 kgm\tTop',
    'Rocker bolt\tM8\t6\t60 N·m\tTop',
    'Rail bolt\tM8\t6\t22 N·m\t',
    'Sump bolt\tM6\t6\t40 N·m, 70\tBelow',
  ].join('\n')
  const sheet = readSheet(text, figures)
  const at = (work: SheetWork, n: number) =>
    workLines(sheet, work).find(({ original }) => original.line === n) as WorkLine
  const correct = (n: number, said: Parameters<typeof withCorrection>[2]) =>
    withCorrection({ ...EMPTY_WORK, text }, at(EMPTY_WORK, n).original, said)

  test('[TS11] an impossible line is stopped, comes first, and looking at it does not help', () => {
    expect(workLines(sheet, EMPTY_WORK).map(({ state }) => state)).toEqual([
      'header',
      'stopped',
      'look',
      'read',
      'unread',
    ])
    expect(inOrder(workLines(sheet, EMPTY_WORK))).toEqual({ look: [2, 5, 3], rest: [1, 4] })
    expect(at(correct(2, { seen: true }), 2).state).toBe('stopped')
    expect(countsOf(workLines(sheet, EMPTY_WORK)).stopped).toBe(1)
    expect(nextDoubt([2, 5, 3], (n) => at(EMPTY_WORK, n), undefined)).toBe(2)
  })
  test.each([
    ['corrected', { printed: '25 N·m' }, 'read', 25],
    ['left out', { as: 'out' }, 'out', undefined],
    ['left without a torque', { open: true }, 'open', null],
    ['corrected to another impossible one', { printed: '300 N·m' }, 'stopped', null],
  ] as const)('[TS11] it goes on once it is %s', (_, said, state, torqueNm) => {
    const work = correct(2, said)
    expect(at(work, 2).state).toBe(state)
    const joint = draftFrom(workLines(sheet, work), HEAD)
      .steps.flatMap(({ joints }) => joints)
      .find(({ id }) => id === 'J2')
    expect(joint?.passes[0]).toEqual(torqueNm === undefined ? undefined : { kind: 'torque', torqueNm })
  })
  test('[TS11] a line left without a torque tells why in the plan', () => {
    const { steps } = draftFrom(workLines(sheet, correct(2, { open: true })), HEAD)
    expect(steps[0]?.joints[0]?.notes?.join(' ')).toContain(
      'leaves it without a torque. 245 N·m is 4.9 times',
    )
    expect(countsWords(countsOf(workLines(sheet, correct(2, { open: true }))))).toContain(
      '1 left without a torque',
    )
  })
  test('[TS21] a corrected grade or thread is judged anew, by the torque as it was read', () => {
    expect(at(EMPTY_WORK, 3).doubt[0]).toContain('past its yield')
    expect(at(correct(3, { grade: '12.9' }), 3)).toMatchObject({ state: 'read', doubt: [] })
    expect(at(correct(3, { thread: 'M12' }), 3)).toMatchObject({ state: 'read', doubt: [] })
    expect(at(correct(3, { thread: 'M5' }), 3).state).toBe('stopped')
    const { steps } = draftFrom(workLines(sheet, correct(3, { grade: '12.9' })), HEAD)
    expect(steps[0]?.joints[1]).toMatchObject({ grade: '12.9', passes: [{ torqueNm: 60 }] })
  })
  test('[TS21] each reading that is offered is taken with a tap', () => {
    const { offers } = at(EMPTY_WORK, 5)
    expect(offers.length).toBeGreaterThan(0)
    for (const printed of offers) expect(at(correct(5, { printed }), 5).line).toHaveProperty('spec')
  })
  test('[TS14] both readings of a number that breaks the style are offered', () => {
    const comma = readSheet('Item;Thread;Nm\nA;M8;22,5\nB;M10;1,050\n', figures)
    const line = workLines(comma, EMPTY_WORK)[2] as WorkLine
    expect(line.offers).toEqual(['1.05 N·m', '1050 N·m'])
    const taken = withCorrection(EMPTY_WORK, line.original, { printed: '1050 N·m' })
    expect(workLines(comma, taken)[2]?.state).toBe('stopped')
  })
  test('[TS17] a line knows the group it lands in', () => {
    expect([3, 4, 5].map((n) => at(EMPTY_WORK, n).section)).toEqual(['Top', 'Top', 'Below'])
  })
})
