/** What is on hold and why, in which order; what a hold's dialogs ask and which command they make. Played through `decide`. */
import { describe, expect, test } from 'vitest'
import type { JobCommand } from '../../../shared/job/commands'
import { HOLD_KINDS } from '../../../shared/job/kinds'
import { jobCommandSchema } from '../../../shared/job/schema'
import { TEXT_LENGTHS } from '../../../shared/job/text-lengths'
import { kindsOf } from '../../../shared/kinds'
import {
  changeHold,
  clearedLabel,
  HOLD_FORMS,
  holdWords,
  isLate,
  openHolds,
  raiseHold,
} from '../../../web/job/holds/holds'
import { tell, words } from '../../shop/small-engine'
import { START } from '../../shop/time'

const MINUTE = 60_000
const raise = (what: string, expectedAt?: number): [string, JobCommand] => [
  'suvi',
  {
    type: 'RaiseHold',
    kind: 'part',
    stepIds: ['C1', 'C2'],
    what,
    ...(expectedAt === undefined ? {} : { expectedAt }),
  },
]
const now = START + 60 * MINUTE

describe('open holds', () => {
  test('the late one first, then by date, then those nobody knows of; each with its when', () => {
    const { job } = tell(raise('a'), raise('b', now + 5 * MINUTE), raise('c', now - 5 * MINUTE))
    const holds = openHolds(job)
    expect(holds.map((hold) => [hold.what, isLate(hold, now)])).toEqual([
      ['c', true],
      ['b', false],
      ['a', false],
    ])
    expect(holds.map((hold) => holdWords(hold, now, words))).toEqual([
      'part: c, was expected +55 min',
      'part: b, expected +65 min',
      'part: a, no date known',
    ])
  })

  test('the soonest expected first; without a date, in the order they were raised', () => {
    const { job } = tell(raise('gasket'), raise('shim'), raise('plug', now), raise('bolts', START))
    expect(openHolds(job).map(({ what }) => what)).toEqual(['bolts', 'plug', 'gasket', 'shim'])
  })

  test('of one step, those that hold it', () => {
    const { job } = tell(raise('a'))
    expect(openHolds(job, 'C2').map(({ what }) => what)).toEqual(['a'])
    expect(openHolds(job, 'S1')).toEqual([])
  })

  test('a cleared one is gone from the list', () => {
    const { job } = tell(raise('a'))
    const holdId = job.holds[0]?.id ?? ''
    const cleared = tell(raise('a'), ['bram', { type: 'ClearHold', holdId, how: 'came by van' }])
    expect(openHolds(cleared.job)).toEqual([])
  })
})

describe('putting on hold', () => {
  const draft = { kind: 'part' as const, what: ' head gasket ', stepIds: ['C1'], expectedAt: undefined }

  test('what is missing is said, the kind first', () => {
    expect(raiseHold({ ...draft, kind: undefined, what: '' })).toBe('Choose what it waits for.')
    expect(raiseHold({ ...draft, what: ' ' })).toMatch(/^Say what it waits for/)
    expect(raiseHold({ ...draft, stepIds: [] })).toMatch(/^Tick at least one step/)
  })

  test('the command, with a date only where one is known', () => {
    expect(raiseHold(draft)).toEqual({
      type: 'RaiseHold',
      kind: 'part',
      what: 'head gasket',
      stepIds: ['C1'],
    })
    expect(raiseHold({ ...draft, expectedAt: now })).toMatchObject({ expectedAt: now })
  })

  test('a change without a date takes the date back', () => {
    expect(changeHold('h', { what: 'gasket ', expectedAt: undefined })).toEqual({
      type: 'ChangeHold',
      holdId: 'h',
      what: 'gasket',
      expectedAt: null,
    })
    expect(changeHold('h', { what: '', expectedAt: now })).toMatch(/^Say what it waits for/)
  })
})

describe('clearing', () => {
  test('an approval asks who agreed, another hold how it was settled', () => {
    expect(clearedLabel({ kind: 'approval' })).toBe(
      'Who agreed, when, by telephone or letter, and to what amount',
    )
    expect(clearedLabel({ kind: 'part' })).toBe('How it was settled')
  })

  test('one press clears every kind but an approval', () => {
    expect(kindsOf(HOLD_KINDS).filter((kind) => HOLD_FORMS[kind].cleared === undefined)).toEqual(['approval'])
  })
})

describe('a field takes as many characters as the schema, and no more', () => {
  const takes = (command: object) =>
    jobCommandSchema.safeParse({ ...command, commandId: '00000000-0000-7000-8000-000000000001', doneAt: 1 })
      .success
  test.each([
    ['reason', (what: string) => ({ type: 'RaiseHold', kind: 'part', stepIds: ['C1'], what })],
    ['reason', (how: string) => ({ type: 'ClearHold', holdId: 'h', how })],
    ['reason', (reason: string) => ({ type: 'WithdrawDeferral', deferralId: 'd', reason })],
    ['note', (text: string) => ({ type: 'AddNote', text })],
    ['story', (note: string) => ({ type: 'PutDownStep', stepId: 'C1', note })],
  ] as const)('%s', (length, command) => {
    expect(takes(command('x'.repeat(TEXT_LENGTHS[length])))).toBe(true)
    expect(takes(command('x'.repeat(TEXT_LENGTHS[length] + 1)))).toBe(false)
  })
})
