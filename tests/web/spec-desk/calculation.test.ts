/** The spec desk: what is asked stands in the address; every answer and every refusal, at its field. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Wrench } from '../../../shared/shop/types'
import { specPassWords } from '../../../shared/spec'
import { format } from '../../../web/format'
import { basisOf, calculate } from '../../../web/pages/spec-desk/calculation'
import { frictionIn, lengthIn, numberIn, shareIn } from '../../../web/pages/spec-desk/entries'
import { givesWayFirst } from '../../../web/pages/spec-desk/hole'
import { type Inputs, inputsFrom, searchOf } from '../../../web/pages/spec-desk/inputs'
import { answerOf } from '../../../web/pages/spec-desk/part'
import { contradictionWords, convertedOf, printedOf } from '../../../web/pages/spec-desk/printed'
import { besideBand, lubricationTable } from '../../../web/pages/spec-desk/tension'
import { targetOf } from '../../../web/pages/spec-desk/wrench'

const NOW = 1_000_000
const click = (id: string, but: Partial<Wrench> = {}): Wrench => ({
  id,
  kind: 'click',
  title: `click wrench ${id}`,
  unit: 'N·m',
  min: 10,
  max: 60,
  increment: 0.5,
  lengthMm: 300,
  state: 'in_service',
  ...but,
})
const sheet = (but: Partial<Inputs> = {}, wrenches: Wrench[] = [click('a')]) =>
  calculate(
    { ...inputsFrom(''), thread: 'M10', grade: '8.8', lubrication: 'oil', ...but },
    { wrenches, now: NOW, tolerancePct: 4 },
  )
const blind = { material: 'cast_iron', length: '35', stack: '15', threadDepth: '24', holeDepth: '28' }

describe('the address holds the sheet', () => {
  test('what is usual is not in it, and an empty sheet has none', () => {
    expect(searchOf(inputsFrom(''))).toBe('')
    expect(searchOf({ ...inputsFrom(''), thread: 'M10x1.25', lubrication: 'dry' })).toBe(
      '?thread=M10x1.25&lubrication=dry',
    )
  })
  test('an older build’s word for zinc plating still means it', () => {
    expect(inputsFrom('?lubrication=plated').lubrication).toBe('zinc_plated')
  })
  test('whatever is typed comes back from it, less the spaces at its ends', () => {
    const names = Object.keys(inputsFrom('')) as (keyof Inputs)[]
    fc.assert(
      fc.property(
        fc.constantFrom(...names),
        fc.string({ minLength: 1, maxLength: 80, unit: 'grapheme' }),
        (name, typed) => {
          const inputs = { ...inputsFrom(''), [name]: typed }
          const back = inputsFrom(searchOf(inputs))
          const emptied = typed.trim() === ''
          expect(back).toEqual({ ...inputs, [name]: emptied ? inputsFrom('')[name] : typed.trim() })
        },
      ),
    )
  })
  test('words beside a torque stay in the address', () => {
    const inputs = { ...inputsFrom(''), printed: '25 N·m', beside: 'with new bolts' }
    expect(inputsFrom(searchOf(inputs))).toEqual(inputs)
  })
  test('whatever an address holds is answered or refused, and nothing throws', () => {
    const names = Object.keys(inputsFrom('')) as (keyof Inputs)[]
    const word = fc.oneof(
      fc.string({ maxLength: 12, unit: 'grapheme' }),
      fc.constantFrom('M8', '0', '-3', '1e9', '3/8', 'NaN', '12', 'solid', 'bronze', 'measured', '180'),
    )
    fc.assert(
      fc.property(
        fc.record(Object.fromEntries(names.map((name) => [name, word]))),
        fc.constantFrom('M10', '1/2-13', 'M6x1x20'),
        (typed, thread) => {
          const calculation = calculate(
            { ...(typed as unknown as Inputs), thread },
            {
              wrenches: [click('a'), click('b', { lengthMm: 20 })],
              now: NOW,
              tolerancePct: 4,
            },
          )
          expect(JSON.stringify(calculation)).not.toContain('null')
        },
      ),
      { numRuns: 300 },
    )
  })
})

describe('what is typed', () => {
  test('a hole that cannot be as entered has no thread to strip either, and no torque is recommended for it', () => {
    const deep = sheet({ ...blind, threadDepth: '40', holeDepth: '26' })
    expect(deep.fit).toMatchObject({ state: 'refused' })
    expect(deep.strip).toEqual(deep.fit)
    expect(deep.recommended.state).not.toBe('there')
    expect(answerOf(sheet(blind).recommended)?.torqueNm).toBeGreaterThan(0)
  })
  test('a length alone is mm; a fraction is inches; words are refused at their field', () => {
    expect(lengthIn('12,5')).toEqual({ value: 12.5 })
    expect(lengthIn('3/8').value).toBeCloseTo(9.525, 9)
    expect(lengthIn('1.5 in').value).toBeCloseTo(38.1, 9)
    expect(lengthIn('')).toEqual({})
    expect(sheet({ ...blind, stack: 'thick' }).errors.stack).toContain('“thick”')
  })
  test.each([
    ['stack', '1e7', undefined],
    ['stack', '10000000', '“Clamped stack” cannot be 10000000 mm. Enter a number above 0 mm to 5000 mm.'],
    ['threadDepth', '0', '“Thread depth” cannot be 0 mm. Enter a number above 0 mm to 5000 mm.'],
    ['threadDepth', '9000 mm', '“Thread depth” cannot be 9000 mm. Enter a number above 0 mm to 5000 mm.'],
    ['washer', '-1', '“Washer” cannot be -1 mm. Enter a number from 0 mm to 1000 mm.'],
    ['utilisation', '150', '“Share of yield” cannot be 1.5. Enter a number above 0 to 1.'],
    [
      'headBearing',
      '4000',
      '“Head bears on, mm across” cannot be 4000 mm. Enter a number above 0 mm to 2000 mm.',
    ],
    ['adapterAngle', '400', '“Adapter’s angle” cannot be 400°. Enter a number from -360° to 360°.'],
    ['wrenchLength', '0', '“Wrench” cannot be 0 mm. Enter a number above 0 mm to 5000 mm.'],
  ] as const)(
    'a number out of the bounds of its field is told there, with both: %s %s',
    (field, typed, told) => {
      const { errors } = sheet({ ...blind, [field]: typed })
      expect(Object.keys(errors)).toEqual([field])
      if (told) expect(errors[field]).toBe(told)
    },
  )
  test('a measured friction out of its bounds is told at its field', () => {
    const { errors } = sheet({ lubrication: 'measured', mu: '0.1 to 3' })
    expect(errors).toEqual({ mu: '“Measured friction” cannot be 3. Enter a number above 0 to 2.' })
  })
  test('a share is read as one and as per cent; a friction as one number or a band', () => {
    expect(shareIn('0,9')).toEqual({ value: 0.9 })
    expect(shareIn('90 %')).toEqual({ value: 0.9 })
    expect(shareIn('75').value).toBe(0.75)
    expect(frictionIn('0.12')).toEqual({ value: 0.12 })
    expect(frictionIn('0,10 to 0,14')).toEqual({ value: { low: 0.1, high: 0.14 } })
    expect(frictionIn('slippery').error).toContain('not a friction')
    expect(numberIn('45°', '°')).toEqual({ value: 45 })
  })
})

describe('the torque', () => {
  test('class and lubrication are asked, never taken: without both nothing is computed, recommended or said to strip', () => {
    for (const [open, asked] of [
      [{ grade: '' }, /^Enter the class or grade/],
      [{ lubrication: '' }, /^Say how thread and head are/],
      [{ grade: '', lubrication: '' }, /^Enter the class or grade/],
    ] as const) {
      const calculation = sheet({ ...blind, ...open })
      expect(calculation.tension).toMatchObject({ state: 'open', asks: expect.stringMatching(asked) })
      expect(calculation.recommended.state).toBe('open')
      expect(calculation.target).toBeUndefined()
    }
    expect(inputsFrom('?thread=M8')).toMatchObject({ grade: '', lubrication: '' })
    expect(sheet({ ...blind, grade: '' }).strip.state).toBe('open')
    expect(answerOf(sheet({ ...blind, grade: '' }).fit)?.fit.verdict).toBe('good')
  })
  test('a printed torque without a class is judged by an assumed one, and that is said', () => {
    const { printedJudged, target } = sheet({ thread: 'M8', grade: '', lubrication: '', printed: '24 Nm' })
    expect(printedJudged).toMatchObject({ verdict: 'implausible', grade: '8.8' })
    expect(printedJudged?.doubts).toContain('grade_assumed')
    expect(target?.torqueNm).toBe(24)
  })
  test('a band with the recommended torque at its slipperiest end', () => {
    const calculation = sheet()
    const tight = answerOf(calculation.tension)
    expect(tight?.high.torqueNm).toBeGreaterThan(1.4 * (tight?.low.torqueNm ?? 0))
    const recommended = answerOf(calculation.recommended)
    expect(recommended?.torqueNm).toBeLessThanOrEqual(tight?.low.torqueNm ?? 0)
    expect(recommended?.torqueNm).toBeGreaterThan((tight?.low.torqueNm ?? 0) - 0.5)
  })
  test('stainless without a lubricant: said at its field, the line of the table grey, the others there', () => {
    const calculation = sheet({ grade: 'A2-70', lubrication: 'dry' })
    expect(calculation.errors.lubrication).toContain('A2-70 without a lubricant')
    expect(calculation.recommended.state).not.toBe('there')
    const thread = answerOf(calculation.thread)
    const rows = thread ? lubricationTable(calculation.inputs, thread) : []
    expect(rows.find(({ lubrication }) => lubrication === 'dry')?.why).toContain('seizes')
    expect(rows.find(({ lubrication }) => lubrication === 'paste')?.lowNm).toBeGreaterThan(0)
  })
  test('bronze and a taper thread are refused at their fields, and nothing is computed from them', () => {
    const bronze = sheet({ grade: 'bronze' })
    expect(bronze.errors.grade).toContain('bronze')
    expect(bronze.tension.state).toBe('refused')
    expect(bronze.target).toBeUndefined()
    const taper = sheet({ ...blind, thread: '1/4-18 NPT' })
    expect(taper.errors.thread).toContain('taper pipe thread')
    for (const part of [taper.tension, taper.strip, taper.fit, taper.recommended])
      expect(part).toMatchObject({ state: 'refused', field: 'thread' })
  })
  test('a printed torque is set beside the band: what it makes of the bolt, in proportion', () => {
    const tight = answerOf(sheet().tension)
    if (!tight) throw new Error('M10 has a band')
    const full = besideBand(tight, tight.low.torqueNm)
    expect(full.useHigh).toBeCloseTo(0.9, 12)
    expect(full.preloadHighN).toBeCloseTo(tight.low.preloadN, 6)
    expect(full.lies).toBe('within')
    expect(besideBand(tight, tight.low.torqueNm * 1.12)).toMatchObject({ pastYield: true })
    expect(besideBand(tight, 5)).toMatchObject({ lies: 'below', pastYield: false })
  })
})

describe('the hole', () => {
  test('a good bolt fits, and one too long bottoms: then no torque is recommended', () => {
    const good = sheet(blind)
    expect(answerOf(good.fit)?.fit.verdict).toBe('good')
    expect(answerOf(good.strip)?.lengthFrom).toBe('fit')
    expect(answerOf(good.recommended)?.holeKnown).toBe(true)
    const bottoms = sheet({ ...blind, length: '45' })
    expect(answerOf(bottoms.fit)?.fit.verdict).toBe('bottoms_out')
    expect(bottoms.recommended).toMatchObject({ state: 'open' })
    expect(bottoms.target).toBeUndefined()
    const printed = sheet({ ...blind, length: '45', printed: '20 Nm' })
    expect(printed.wrench).toMatchObject({
      state: 'open',
      asks: expect.stringMatching(/^No wrench is named/),
    })
  })
  test('what gives way first is said only where bolts and threads are that sure', () => {
    const first = (threadDepth: string) => {
      const strip = answerOf(sheet({ ...blind, length: '', holeDepth: '', threadDepth }).strip)
      return strip && givesWayFirst(strip.strip)
    }
    expect(['6', '12', '20'].map(first)).toEqual(['thread', 'close', 'bolt'])
  })
  test('a weak hole holds the torque down, and says so', () => {
    const weak = sheet({
      ...blind,
      grade: '12.9',
      material: 'cast_aluminium_gravity',
      length: '',
      threadDepth: '15',
    })
    expect(answerOf(weak.strip)?.strip.weakest).toBe('hole_thread')
    expect(answerOf(weak.recommended)?.held).toContain('strip first')
    const full = answerOf(weak.tension)?.low.torqueNm ?? 0
    expect(answerOf(weak.recommended)?.torqueNm).toBeLessThan(full)
  })
  test('beside “too short” and “it stands on its shank” nothing is recommended', () => {
    const short = sheet({ ...blind, length: '20' })
    expect(answerOf(short.fit)?.fit.verdict).toBe('too_short')
    expect(short.recommended).toMatchObject({ state: 'open' })
    const deep = { ...blind, stack: '20', threadDepth: '60', holeDepth: '65', length: '70' }
    expect(sheet(deep).recommended).toMatchObject({ state: 'open' })
    expect(sheet({ ...deep, boltThread: '70' }).recommended).toMatchObject({ state: 'there' })
    expect(sheet({ ...deep, boltThread: '26' }).recommended).toMatchObject({ state: 'open' })
  })
  test('without a bolt length there are the right lengths and no verdict to draw', () => {
    const fit = answerOf(sheet({ ...blind, length: '' }).fit)
    expect(fit?.section).toBeUndefined()
    expect(fit?.fit.rightLengthsMm.length).toBeGreaterThan(0)
    expect(answerOf(sheet({ ...blind, length: '', thread: 'M10x1.5x35' }).fit)).toMatchObject({
      lengthMm: 35,
      lengthFromThread: true,
    })
  })
  test('a refusal stands at the field it belongs to', () => {
    expect(sheet({ ...blind, holeDepth: '20' }).errors.holeDepth).toContain('deep')
    expect(sheet({ ...blind, insert: 'wire', insertLength: '40' }).errors.insertLength).toContain('insert')
    expect(sheet({ ...blind, insert: 'solid' }).errors.insertOuter).toContain('outer thread')
    expect(sheet({ ...blind, material: 'cheese' }).errors.material).toContain('cheese')
    expect(sheet({ threadDepth: '20' }).fit).toMatchObject({ state: 'open' })
  })
})

describe('what the manual prints', () => {
  test('it goes before the computed torque, with its own limits', () => {
    const calculation = sheet({ printed: '24 ±4 N•m (18 ±3 lb-ft)' })
    expect(calculation.target).toMatchObject({ torqueNm: 24, from: 'printed', limits: 'printed' })
    expect(calculation.target?.minNm).toBeCloseTo(20, 9)
    expect(calculation.printedBeside?.lies).toBe('below')
  })
  test('two units that disagree are both read out, and nothing is set from either', () => {
    const calculation = sheet({ printed: '95 N·m (70 in-lb)' })
    const { printed } = calculation
    expect(printed.state === 'read' && contradictionWords(printed.spec)).toMatch(/95.*70.*7\.9/s)
    expect(calculation.target).toBeUndefined()
    expect(calculation.wrench.state).toBe('open')
  })
  test('what is unclear is asked with its readings, and the computed torque does not take its place', () => {
    const calculation = sheet({ printed: '35' })
    expect(calculation.errors.printed).toContain('without a unit')
    expect(calculation.printed.state === 'refused' && calculation.printed.readings.length).toBeGreaterThan(1)
    expect(calculation.target).toBeUndefined()
  })
  test('of several torques the last is set, unless another is chosen', () => {
    const steps = '1st 20 Nm, 2nd 40 Nm, 3rd +90°'
    const three = printedOf({ ...inputsFrom(''), printed: steps })
    expect(three.state === 'read' && three.toSet?.pass).toBe(2)
    const first = printedOf({ ...inputsFrom(''), printed: steps, pass: '1' })
    expect(first.state === 'read' && first.toSet?.spec.nominalNm).toBe(20)
    expect(specPassWords({ kind: 'angle', nominalDeg: 90 }, format)).toBe('+90°')
    expect(specPassWords({ kind: 'torque', minNm: 20, maxNm: 28 }, format)).toBe('20 to 28 N·m')
  })
  test('one limit alone has the shop’s width on its open side', () => {
    expect(targetOf({ kind: 'torque', minNm: 50 }, undefined, 10)).toMatchObject({
      torqueNm: 50,
      minNm: 50,
      limits: 'percent',
    })
  })
  test('a torque is converted to every unit, and asked where it has none', () => {
    const read = convertedOf('100 N·m')
    expect(read.state === 'read' && read.rows.find(({ unit }) => unit === 'lbf·ft')?.shown).toBe('73.8')
    expect(convertedOf('100').state).toBe('refused')
    expect(convertedOf('').state).toBe('none')
    for (const absurd of ['1e24 Nm', '999999999999999999999999 Nm', '-1 Nm', '0 Nm', '0.0001 Nm'])
      expect(convertedOf(absurd).state, absurd).toBe('refused')
    expect(convertedOf('-1 Nm')).toMatchObject({
      why: '“-1 Nm” is not between 0.001 and 1000000 N·m. Enter a torque within.',
    })
  })
})

describe('the wrench', () => {
  const set = (but: Partial<Inputs>, wrenches?: Wrench[]) => answerOf(sheet(but, wrenches).wrench)
  test('a crowfoot straight out lowers the setting by the lever of each wrench', () => {
    const printed = '30 N·m'
    expect(set({ printed })?.ranked[0]?.setting?.value).toBe(30)
    const lever = { printed, adapterLength: '50', adapterAngle: '0' }
    const both = set(lever, [click('short', { lengthMm: 250 }), click('long', { lengthMm: 550 })])
    const value = (id: string) => both?.ranked.find(({ wrench }) => wrench.id === id)?.setting?.value
    expect(value('short')).toBe(25)
    expect(value('long')).toBe(27.5)
    expect(both?.drawn?.lever.adapterMm).toBe(50)
    expect(both?.drawn?.whose).toBe(both?.ranked[0]?.wrench.id)
  })
  test('a wrench of unknown length gets no number with an adapter, and is named to be measured', () => {
    const card = click('card')
    const { lengthMm, ...bare } = card
    expect(lengthMm).toBe(300)
    const lever = { printed: '30 N·m', adapterLength: '50' }
    const found = set(lever, [{ ...bare, id: 'bare' }, card])
    expect(found?.toMeasure.map(({ id }) => id)).toEqual(['bare'])
    expect(found?.ranked.map(({ wrench }) => wrench.id)).toEqual(['card'])
    const typed = set({ ...lever, wrenchLength: '450' }, [{ ...bare, id: 'bare' }])
    expect(typed?.toMeasure).toEqual([])
    expect(typed?.typed?.settingNm).toBeCloseTo(27, 9)
  })
  test('an adapter that reaches back to the hand is refused at its field', () => {
    const calculation = sheet({
      printed: '30 N·m',
      adapterLength: '400',
      adapterAngle: '180',
      wrenchLength: '300',
    })
    expect(calculation.errors.adapterLength).toContain('reaches back')
  })
  test('a band that is none is refused, and the shop’s stands', () => {
    const calculation = sheet({ printed: '30 N·m', tolerance: '0' })
    expect(calculation.errors.tolerance).toContain('cannot be worked to')
    expect(calculation.target?.tolerancePct).toBe(4)
  })
})

describe('the order', () => {
  test('a circle crosses over, rows go outward, and what cannot be drawn says so', () => {
    expect(answerOf(sheet({ count: '8' }).order)?.proposed.order.slice(0, 4)).toEqual([1, 5, 3, 7])
    const rows = answerOf(sheet({ pattern: 'rows', count: '10' }).order)
    expect(rows?.proposed.pattern).toBe('rows')
    expect([3, 8]).toContain(rows?.proposed.order[0])
    expect(sheet({ count: '1.5' }).errors.count).toContain('whole number')
    expect(sheet({ pattern: 'rows', count: '10', rows: '3' }).errors.rows).toContain('equal rows')
  })
})

test('every source the answers name stands once in the list for the paper', () => {
  const ids = basisOf(sheet({ ...blind, count: '8', insert: 'wire', insertLength: '15' }))
  expect(new Set(ids).size).toBe(ids.length)
  for (const id of ['vdi2230', 'strip', 'hole_fit', 'insert_wire', 'order_circle']) expect(ids).toContain(id)
})
describe('what is printed and cannot be', () => {
  test('a torque that breaks the bolt: no band, no recommendation, no wrench', () => {
    const sheet60 = sheet({ thread: 'M8', grade: '8.8', printed: '60 N·m' })
    expect(sheet60.printedJudged?.verdict).toBe('impossible')
    expect(sheet60.printedBeside).toBeUndefined()
    expect(sheet60.recommended).toMatchObject({ state: 'open' })
    expect(sheet60.target).toBeUndefined()
    expect(sheet60.wrench).toMatchObject({ state: 'open', asks: expect.stringContaining('cannot bear') })
  })
  test('above yield, contradicting or unreadable: nothing computed stands in its place', () => {
    for (const printed of ['40 N·m', '2.5 N·m', '95 N·m (70 in-lb)', '35'])
      expect(
        sheet({ thread: 'M8', grade: '8.8', lubrication: 'oil', printed }).recommended,
        printed,
      ).toMatchObject({
        state: 'open',
      })
    expect(sheet({ printed: '30 N·m' }).recommended).toMatchObject({ state: 'there' })
  })
  test('one voice: what is doubtful is looked at again, what holds is not spoken against', () => {
    const desk = (printed: string) => sheet({ thread: 'M8', printed })
    const doubtful = desk('36 N·m')
    expect(doubtful.printedJudged?.verdict).toBe('implausible')
    expect(doubtful.recommended).toMatchObject({
      asks: expect.stringMatching(/^The printed torque is doubtful/),
    })
    const usual = desk('24 N·m')
    expect(usual.printedBeside?.pastYield).toBe(true)
    expect(usual.printedJudged?.verdict).toBe('plausible')
    expect(usual.recommended).toMatchObject({ asks: expect.stringMatching(/^The printed torque holds/) })
  })
  test('the desk’s own width is judged with what is printed, and each pass of it', () => {
    expect(sheet({ thread: 'M8', printed: '27 N·m', tolerance: '10' }).printedJudged?.doubts).toContain(
      'past_yield',
    )
    expect(sheet({ thread: 'M8', printed: '27 N·m', tolerance: '1' }).printedJudged?.verdict).toBe(
      'plausible',
    )
    expect(sheet({ thread: 'M8', printed: '90 Nm, then 20 Nm' }).target).toBeUndefined()
    expect(sheet({ thread: 'M8', printed: '2 Nm, then 20 Nm' }).printedJudged?.verdict).toBe('plausible')
  })
  test('before an angle full use of the bolt alone is told; on a stronger bolt it is not', () => {
    const desk = (grade: string) => sheet({ thread: 'M8', grade, printed: '30 Nm + 90°' })
    expect(desk('8.8').printedJudged?.doubts).toContain('seats_past_full')
    expect(desk('8.8').target?.torqueNm).toBe(30)
    expect(desk('10.9').printedJudged?.verdict).toBe('plausible')
  })
  test('at most so much is a limit and nothing to set; what is computed above it is not recommended', () => {
    const most = sheet({ printed: 'max 12 Nm' })
    expect(most.target).toBeUndefined()
    expect(most.wrench).toMatchObject({ state: 'open', asks: expect.stringContaining('limit') })
    expect(most.recommended).toMatchObject({ state: 'open' })
  })
  test('a word of the address that is not exactly one thing brings its candidates', () => {
    expect(sheet({ lubrication: 'no oil' }).candidates.lubrication).toEqual(
      expect.arrayContaining(['dry', 'oil']),
    )
    expect(sheet({ ...blind, material: 'cast iron or aluminium' }).candidates.material).toContain('cast_iron')
  })
})

test('a torque that an angle follows is set, and not held against the band of one that clamps', () => {
  const calculation = sheet({ printed: '30 Nm + 90°' })
  expect(calculation.target?.torqueNm).toBe(30)
  expect(calculation.printedBeside).toBeUndefined()
  expect(sheet({ printed: '20 Nm, then 30 Nm' }).printedBeside?.torqueNm).toBe(30)
})
