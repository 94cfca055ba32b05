/** A shop with a decimal comma reads a comma in what the pages themselves say, and in what they put into their fields. */
import { expect, test, vi } from 'vitest'
import { roomWords } from '../../web/pages/bench/wrench'
import { EMPTY_FORM, settle, valuesShown } from '../../web/pages/settle/form'
import { finishOf } from '../../web/pages/shop/draft/finish'
import { numberFrom, textOf } from '../../web/pages/shop/numbers'
import { interruptionWords } from '../../web/pages/shop/plan-look'
import { toleranceDraft } from '../../web/pages/shop/tolerances'
import { calculate } from '../../web/pages/spec-desk/calculation'
import { inputsFrom } from '../../web/pages/spec-desk/inputs'
import { frictionWords } from '../../web/pages/spec-desk/words'
import { padText } from '../../web/ui/pad-text'
import { withJoint } from '../shared/plan/faults'
import { wrench } from '../shop/wrenches'

vi.mock('../../web/format', async () => {
  const { DEFAULT_FORMAT, makeFormat } = await import('../../shared/format')
  return { format: makeFormat({ ...DEFAULT_FORMAT, decimalMark: ',', timeZone: 'UTC' }) }
})

const settled = () => {
  const form = { ...EMPTY_FORM, kind: 'word' as const, value: '24.5', min: '25.5', max: '23.5' }
  const answer = settle('J1', 1, form, { refusals: [] }, 10)
  return 'errors' in answer ? [answer.errors.min, answer.errors.max] : []
}
const desk = (query: string) => Object.values(calculate(inputsFrom(query), CRIB).errors)
const CRIB = { wrenches: [], now: 0, tolerancePct: 5 }
const room = { low: 20.5, high: 22.5, can: true, marginPct: 4, deviationPct: 4.5 }
const picked = { wrench: wrench('TW-1'), planned: false, fits: true, against: [], room }

const SAID: Record<string, () => readonly (string | undefined)[]> = {
  'a torque decided here': settled,
  'limits proposed for it': () => {
    const { min, max } = valuesShown({ ...EMPTY_FORM, value: '24.5' }, undefined, 10)
    return [min, max]
  },
  'a plan in draft': () =>
    finishOf(withJoint({ passes: [{ kind: 'torque', torqueNm: -1.5 }] }))
      .faults.map(({ problem }) => problem)
      .filter((problem) => problem.endsWith('is no torque')),
  'a plan looked at': () => [
    interruptionWords({ torqueOnly: 'restart_pass', afterAngle: 'new_fasteners', overshootDeg: 7.5 }),
  ],
  'what a field of the shop holds': () => [
    textOf(12.25),
    toleranceDraft({ percent: { A: 2.5, B: 7.5, C: 12.5 }, angleDeg: 2.5 }).A,
  ],
  'the room of a wrench': () => [roomWords(picked), roomWords({ ...picked, room: { ...room, can: false } })],
  'the spec desk': () => [
    ...desk('?band=-2.5'),
    ...desk('?bolts=2.5'),
    ...desk('?thread=M8&length=-2.5'),
    frictionWords({ low: 0.1, high: 0.16 }, ' to '),
  ],
  'the pad': () => [padText('12.5')],
}

test.each(Object.entries(SAID))('%s', (_, sentencesOf) => {
  const sentences = sentencesOf()
  expect(sentences.length).toBeGreaterThan(0)
  for (const sentence of sentences)
    expect(sentence?.replaceAll('M8x1.25', '')).toMatch(/^(?!.*\d\.\d).*\d,\d/)
})

test('both ends of a friction have as many decimals, and a field reads back what it was filled with', () => {
  expect(frictionWords({ low: 0.1, high: 0.16 }, '–')).toBe('0,10–0,16')
  expect(numberFrom(textOf(12.25))).toBe(12.25)
})
