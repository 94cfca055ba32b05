/** The form that settles a torque nobody published: three ways, values proposed until typed, and what is missing named. */
import { describe, expect, test } from 'vitest'
import { type ProposalJoint, propose } from '../../../shared/fastener'
import { jobCommandSchema } from '../../../shared/job/schema'
import type { ValueBasis } from '../../../shared/job/types'
import { settleHref } from '../../../web/hrefs'
import { settledWords, settlings } from '../../../web/job/settled/settled-words'
import {
  addedIn,
  EMPTY_FORM,
  numberIn,
  OWN_MATERIAL,
  proposalOf,
  type SettleForm,
  settle,
  valuesShown,
} from '../../../web/pages/settle/form'
import { figures } from '../../shop/words'

const BOLT: ProposalJoint = {
  fastener: 'bolt',
  thread: 'M8x1.25',
  grade: '8.8',
  lubrication: 'oil',
  pass: 1,
  holeMaterial: 'cast aluminium',
  engagementMm: 20,
  tolerancePct: 10,
}
const STEEL = propose(BOLT)
const PLUG = propose({ ...BOLT, fastener: 'plug', grade: 'bronze' })
const form = (some: Partial<SettleForm>): SettleForm => ({ ...EMPTY_FORM, ...some })
const source = form({
  kind: 'source',
  title: ' Plug sheet ',
  edition: '2',
  page: '12',
  value: '30',
  min: '28,5',
  max: '32',
  reason: ' same plug ',
})
const made = (some: SettleForm, proposed = PLUG) => settle('J-plug', 1, some, proposed, 10)
const errorsIn = (some: SettleForm, proposed = PLUG) => {
  const one = made(some, proposed)
  return 'errors' in one ? Object.keys(one.errors) : []
}
const command = (some: SettleForm, proposed = PLUG) => {
  const one = made(some, proposed)
  if ('errors' in one) throw new Error(JSON.stringify(one.errors))
  return one.command
}

describe('a source, a word', () => {
  test('become the command, with their basis and only that', () => {
    expect(command(source)).toEqual({
      type: 'SettleValue',
      jointId: 'J-plug',
      pass: 1,
      torqueNm: 30,
      minNm: 28.5,
      maxNm: 32,
      basis: { kind: 'source', title: 'Plug sheet', edition: '2', page: '12' },
      reason: 'same plug',
    })
    expect(command({ ...source, kind: 'word', competence: 'Ada, fitter' }).basis).toEqual({
      kind: 'word',
      competence: 'Ada, fitter',
    })
  })
  test('what is missing is named, for the way chosen', () => {
    expect(errorsIn({ ...source, kind: '' })).toEqual(['kind'])
    expect(errorsIn({ ...source, page: ' ' })).toEqual(['page'])
    expect(errorsIn({ ...source, kind: 'word' })).toEqual(['competence'])
    expect(errorsIn({ ...source, value: '', reason: '' })).toEqual(['value', 'reason'])
    expect(errorsIn({ ...source, value: '33' })).toEqual(['max'])
    expect(errorsIn({ ...source, value: '28' })).toEqual(['min'])
  })
  test('limits are proposed from the class’s tolerance, never wider by rounding, until somebody types their own', () => {
    expect(valuesShown(form({ value: '12' }), undefined, 10)).toEqual({
      value: '12',
      min: '10.8',
      max: '13.2',
    })
    expect(valuesShown(form({ value: '9.99' }), undefined, 5)).toEqual({
      value: '9.99',
      min: '9.5',
      max: '10.48',
    })
    expect(valuesShown(form({ value: '12', max: '12.5' }), undefined, 10).max).toBe('12.5')
    expect(valuesShown(form({ value: 'x' }), undefined, 10)).toEqual({ value: 'x', min: '', max: '' })
  })
})

describe('a proposal', () => {
  test('stands in the fields by itself, and goes into the command with its figures', () => {
    const computed = form({ kind: 'computed', reason: 'as reckoned' })
    const { results } = proposalOf(computed, STEEL) ?? expect.fail('no proposal')
    const said = command(computed, STEEL)
    expect(said).toMatchObject({
      torqueNm: results.torqueNm,
      basis: { kind: 'computed', proposal: { results } },
    })
    expect(said.basis.kind === 'computed' && said.basis.inputs).toMatch(
      /^M8x1\.25, 8\.8, oil: friction 0\.08 to 0\.16/,
    )
    const sent = { commandId: '01900000-0000-7000-8000-000000000001', ...said }
    expect(jobCommandSchema.safeParse(sent).error).toBeUndefined()
  })
  test('is not taken over for a source or a word', () => {
    expect(valuesShown(form({ kind: 'word' }), proposalOf(form({ kind: 'word' }), STEEL), 10).value).toBe('')
  })
  test('a value of one’s own is taken up to what the weakest link bears', () => {
    const lower = form({ kind: 'computed', reason: 'softer', value: '15' })
    expect(command(lower, STEEL)).toMatchObject({ torqueNm: 15, minNm: 13.5, maxNm: 16.5 })
    expect(errorsIn(form({ kind: 'computed', reason: 'more', value: '25' }), STEEL)).toEqual(['max'])
  })
  test('where the formulas do not hold there is nothing to choose', () => {
    expect(errorsIn(form({ kind: 'computed', reason: 'x', value: '12' }))).toEqual(['kind'])
  })
  test('empty fields add nothing; what is no number is named and not reckoned with', () => {
    expect(addedIn(EMPTY_FORM)).toEqual({ added: {}, errors: {} })
    expect(addedIn(form({ material: 'steel', engagement: '12,5', frictionLow: '0.1' })).added).toEqual({
      holeMaterial: 'steel',
      engagementMm: 12.5,
      friction: { low: 0.1, high: 0.1 },
    })
    expect(Object.keys(addedIn(form({ engagement: 'long', utilisation: '1.2' })).errors)).toEqual([
      'engagement',
      'utilisation',
    ])
    expect(addedIn(form({ material: OWN_MATERIAL })).errors).toHaveProperty('shear')
    expect(
      addedIn(form({ material: OWN_MATERIAL, shear: '90', materialWords: 'maker’s sheet' })).added,
    ).toEqual({
      holeMaterial: { words: 'maker’s sheet', shearMPa: 90 },
    })
  })
})

test('reads a number with either mark and nothing else', () => {
  expect(['24', '24.5', ' 24,5 ', '2.4.5', '1e3', '-3', ''].map(numberIn)).toEqual([
    24,
    24.5,
    24.5,
    undefined,
    undefined,
    undefined,
    undefined,
  ])
})

test('every value this pass had is told, the one in force first', () => {
  const value = (torqueNm: number) => ({
    torqueNm,
    by: 'ada',
    doneAt: 0,
    band: { kind: 'torque' as const, minNm: 1, maxNm: 2, from: 'shop' as const },
    basis: { kind: 'word' as const, competence: 'Ada' },
    reason: 'so',
  })
  expect(settlings({ ...value(3), earlier: [value(1), value(2)] }).map(({ torqueNm }) => torqueNm)).toEqual([
    3, 2, 1,
  ])
  expect(settlings(undefined)).toEqual([])
})

test('a joint’s name is safe in an address', () => {
  expect(settleHref('e-101', 'G/F6 a', 1)).toBe('/jobs/e-101/settle/G%2FF6%20a/1')
})

test('in a line a value says what it rests on, its reason, and what it replaces', () => {
  const value = (torqueNm: number, basis: ValueBasis) => ({
    torqueNm,
    by: 'Ada',
    doneAt: 0,
    band: { kind: 'torque' as const, minNm: 17, maxNm: 19, from: 'shop' as const },
    basis,
    reason: 'It came by post',
  })
  const leaflet = { kind: 'source' as const, title: 'Leaflet', edition: '3', page: 'page 7' }
  const words = { ...figures, person: (id: string) => id, moment: () => '09:00', date: String }
  const before = value(17.5, { kind: 'word', competence: 'Ada, fitter' })
  expect(settledWords({ ...value(18, leaflet), earlier: [before] }, words)).toBe(
    'Not published; decided by Ada 09:00, source: Leaflet, edition 3, page 7. It came by post. It replaces 17.5 N·m.',
  )
})

test('at the bench a computed value says what a hand can check, one reckoned by hand its method', () => {
  const proposal = proposalOf(form({ kind: 'computed' }), STEEL) ?? expect.fail('no proposal')
  const value = (basis: ValueBasis) =>
    settledWords(
      {
        torqueNm: 18,
        by: 'Ada',
        doneAt: 0,
        band: { kind: 'torque', minNm: 17, maxNm: 19, from: 'shop' },
        basis,
        reason: 'So.',
      },
      { ...figures, person: (id) => id, moment: () => '09:00', date: String },
    )
  const said = { kind: 'computed' as const, method: 'a table', inputs: 'M8' }
  expect(value({ ...said, proposal })).toBe(
    'Not published; decided by Ada 09:00, computed for oil, cast aluminium, 20 mm of thread. So.',
  )
  expect(value(said)).toBe('Not published; decided by Ada 09:00, computed: a table (M8). So.')
})
