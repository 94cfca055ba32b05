/** A plan file on its way in: faults at their place in the text; and a plan looked at, apart from any job. */
import { describe, expect, test } from 'vitest'
import { readPlanText } from '../../../shared/plan/schema'
import type { Joint, Plan } from '../../../shared/plan/types'
import { excerpt, placeOf, withAsPrinted } from '../../../web/pages/shop/fault-place'
import { figuresOf, interruptionWords, mapLabel, plannedHeads } from '../../../web/pages/shop/plan-look'
import { countWords, editions, latest } from '../../../web/shop/plan-library'
import { keysOf, placeWords } from '../../../web/shop/plan-place'
import { figures } from '../../shop/words'
import { PLAN } from '../../shop/yard'

const TEXT = JSON.stringify(PLAN, null, 2)
const lineOf = (text: string, path: string) => text.split('\n')[placeOf(text, path).line - 1]?.trim()
const faultsOf = (text: string) => {
  const reading = readPlanText(text, figures)
  return 'faults' in reading ? reading.faults : []
}

describe('a torque taken as printed', () => {
  test('is written beside that very value, in a copy', () => {
    const page = { photo: 'a'.repeat(64), reason: 'confirmed by letter' }
    const joint = PLAN.steps.findIndex(({ joints }) => joints.length > 0)
    const path = `steps[${joint}] S › joints[0] J › passes[0].torqueNm`
    const taken = withAsPrinted(PLAN, path, page)
    const pass = taken.steps[joint]?.joints[0]?.passes[0]
    expect(pass).toMatchObject({ kind: 'torque', asPrinted: page })
    expect(pass?.kind === 'torque' && pass.asPrinted?.torqueNm === pass.torqueNm).toBe(true)
    const highest = pass?.kind === 'torque' && (pass.limits?.maxNm ?? pass.torqueNm)
    expect(pass).toMatchObject({ asPrinted: { maxNm: highest } })
    expect(JSON.stringify(PLAN)).not.toContain('asPrinted')
    expect(withAsPrinted(PLAN, 'steps[99].joints[0]', page)).toBe(PLAN)
  })
})

describe('the place of a fault', () => {
  test('a path as keys, without the ids beside it', () => {
    expect(keysOf('steps[4] B2 › joints[0] G-B2.1 › passes[1].torqueNm')).toEqual([
      'steps',
      4,
      'joints',
      0,
      'passes',
      1,
      'torqueNm',
    ])
    expect(keysOf('the plan')).toEqual([])
  })

  test('in words, without a path or an id of the file', () => {
    const joint = PLAN.steps.findIndex(({ joints }) => joints.length > 0)
    const { id, title, joints } = PLAN.steps[joint] as (typeof PLAN.steps)[number]
    expect(placeWords(PLAN, `steps[${joint}] ${id} › joints[0] ${joints[0]?.id} › passes[1].torqueNm`)).toBe(
      `${id} ${title}: ${joints[0]?.title}, pass 2, torque`,
    )
    expect(placeWords(PLAN, `steps[${joint}] ${id} › minutes.low`)).toBe(`${id} ${title}: minutes, lowest`)
    expect(placeWords(PLAN, 'the plan')).toBe('The plan')
    // Of a file that is no plan yet, as far as it can be followed.
    expect(placeWords({ steps: [{}] }, 'steps[0].joints')).toBe('Step 1: joints')
    expect(placeWords(undefined, 'line 4, column 7')).toBe('Line 4')
  })

  test.each([
    ['"torqueNm": 20', '"torqueNm": "twenty"', '"torqueNm": "twenty",'],
    ['"edition": 1', '"edition": 0', '"edition": 0,'],
    ['"stage": "A"', '"stage": "Z"', '"stage": "Z",'],
    ['"title": "Step S2"', '"titel": "Step S2"', '{'],
  ])('%s as %s is found on its line', (good, bad, line) => {
    const text = TEXT.replace(good, bad)
    expect(text).not.toBe(TEXT)
    const [fault] = faultsOf(text)
    expect(lineOf(text, fault?.path ?? '')).toBe(line)
  })

  test('in the second step and not in the first; braces and commas within text do not mislead', () => {
    const text = TEXT.replace('"Step S1"', '"Step, {S1} [\\"x\\"]: 1"').replace(
      '"likely": 20,\n        "high": 40\n      },\n      "signatures": 2',
      '"likely": 90,\n        "high": 40\n      },\n      "signatures": 2',
    )
    const [fault] = faultsOf(text)
    expect(fault?.path).toBe('steps[1] S2 › minutes')
    expect(placeOf(text, fault?.path ?? '').offset).toBe(text.lastIndexOf('"minutes"'))
  })

  test('broken JSON names its line and column', () => {
    const text = TEXT.replace('"edition": 1,', '"edition": 1')
    const [fault] = faultsOf(text)
    const place = placeOf(text, fault?.path ?? '')
    expect(excerpt(text, place).find(({ at }) => at)?.n).toBe(place.line)
    expect(text.slice(place.offset)).toMatch(/^"title"/)
  })

  test('what is missing stands where the rest of its path ends', () => {
    const text = TEXT.replace('"signatures": 2,', '')
    const [fault] = faultsOf(text)
    expect(fault?.path).toBe('steps[1] S2 › signatures')
    expect(text.slice(placeOf(text, fault?.path ?? '').offset)).toMatch(/^\{\s+"id": "S2"/)
  })

  test('a file on one line is cut to what lies round the place', () => {
    const text = JSON.stringify(PLAN).replace('"minutes":{"low":1', '"minutes":{"low":5')
    const [fault] = faultsOf(text)
    const [line] = excerpt(text, placeOf(text, fault?.path ?? ''))
    expect(line?.text.length).toBeLessThan(120)
    expect(line?.text).toContain('"low":5')
  })

  test('a text that is no plan at all has a place too', () => {
    for (const text of ['', '{', '[]', '"x"', '{"format":'])
      for (const { path } of faultsOf(text)) expect(placeOf(text, path).line).toBe(1)
  })
})

describe('a plan looked at', () => {
  const joint = PLAN.steps[0]?.joints[0] as Joint

  test('its size in words and figures', () => {
    expect(countWords(PLAN)).toBe('2 steps, 6 fasteners, 3 of class A, about 40 min of work')
    expect(figuresOf(PLAN)).toContainEqual({ figure: '1', of: 'second signature' })
  })

  test('heads wear their turn; the number stands beside where it is another', () => {
    expect(plannedHeads(joint).map(({ figure }) => figure)).toEqual(['1', '2', '3'])
    const [first, second] = plannedHeads({ ...joint, order: [2, 1, 3] })
    expect([first?.figure, first?.label, second?.figure]).toEqual(['2', 'no. 1', '1'])
    expect(mapLabel({ ...joint, order: [2, 1, 3] })).toBe(
      'Joint J1: 3 positions, tightened in the order 2, 1, 3',
    )
  })

  test('what an interruption asks', () => {
    expect(interruptionWords({ torqueOnly: 'restart_pass' })).toBe('Interrupted: start the pass again.')
    expect(
      interruptionWords({ torqueOnly: 'restart_pass', afterAngle: 'new_fasteners', overshootDeg: 5 }),
    ).toBe(
      'Interrupted: start the pass again. Once an angle is turned, or turned more than 5° too far: new fasteners.',
    )
  })

  test('the library by title, the newest edition first', () => {
    const at = (title: string, edition: number): Plan => ({ ...PLAN, id: title, title, edition })
    const all = editions({ b: { 1: at('B', 1), 2: at('B', 2) }, a: { 1: at('A', 1) } })
    expect(all.map(({ title, edition }) => `${title}${edition}`)).toEqual(['A1', 'B2', 'B1'])
    expect(latest({ b: { 1: at('B', 1), 10: { ...at('A newer title', 10), id: 'B' } } })).toMatchObject([
      { title: 'A newer title', edition: 10 },
    ])
  })
})
