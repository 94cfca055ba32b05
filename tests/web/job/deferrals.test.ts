/** What was left out on purpose: where it is named, how it ended, which commands its dialogs make. Played through `decide`. */
import { describe, expect, test } from 'vitest'
import type { JobCommand } from '../../../shared/job/commands'
import type { PlannedJob } from '../../../shared/job/types'
import { format } from '../../../web/format'
import {
  deferralViews,
  dueHere,
  dueTitle,
  endedWords,
  laterSteps,
  leaveOut,
  leftOutOf,
  takeBackLabel,
} from '../../../web/job/deferrals/deferrals'
import { claim, leaveOut as leave, leaveStep, shows } from '../../shop/acts'
import { floor } from '../../shop/given'
import { tell, words } from '../../shop/small-engine'
import { START as SHOP_START, START } from '../../shop/time'

const MINUTE = 60_000
const HOUR = 60 * MINUTE
const leftOut: [string, JobCommand] = [
  'bram',
  {
    type: 'Defer',
    what: { kind: 'fasteners', joint: 'J-sump', positions: [3] },
    dueStepId: 'C2',
    reason: 'stand in the way',
  },
]

test('named at the step it was left out of, and at the one where it is due', () => {
  const { job } = tell(leftOut)
  const [view] = leftOutOf(job, 'C1')
  expect(view).toMatchObject({
    what: 'Sump bolts, bolt 3',
    due: { id: 'C2', title: 'Plug' },
    deferral: { reason: 'stand in the way' },
    state: 'open',
  })
  expect(view && dueTitle(view)).toBe('C2 Plug')
  expect(view && endedWords(view, words)).toBeUndefined()
  expect(dueHere(job, 'C2').map(({ what }) => what)).toEqual(['Sump bolts, bolt 3'])
  expect(dueHere(job, 'C1')).toEqual([])
  expect(leftOutOf(job, 'S1')).toEqual([])
})

test('a withdrawn one is left out of no step; its reason stays readable', () => {
  const id = tell(leftOut).job.deferrals[0]?.id ?? ''
  const { job } = tell(leftOut, [
    'bram',
    { type: 'WithdrawDeferral', deferralId: id, reason: 'bracket is here' },
  ])
  expect(leftOutOf(job, 'C1')).toEqual([])
  expect(dueHere(job, 'C2')).toEqual([])
  const [view] = deferralViews(job)
  expect(view?.state).toBe('withdrawn')
  expect(view && endedWords(view, words)).toBe('No longer left out: bracket is here. Bram, +3 min.')
})

test('T2: open ones, the oldest first; what is final is closed', () => {
  const openOf = (job: PlannedJob) => deferralViews(job).filter(({ state }) => state === 'open')
  const { job } = floor(leave('JB', [7], 'lift', { at: 0 }), leaveStep('trial', 'lift', { at: 1440 }))
  const days = (at: number) => format.age(at, SHOP_START + 2.5 * 24 * HOUR)
  expect(openOf(job).map(({ what, deferral, due }) => [what, days(deferral.made.doneAt), due.id])).toEqual([
    ['Joint JB, bolt 7', 'for 2 days', 'lift'],
    ['trial Step trial', 'for 1 day', 'lift'],
  ])
  expect(openOf(floor(leave('JB', [7], 'lift'), claim('lift'), shows('JB', 7, 22)).job)).toEqual([])
  expect(deferralViews(floor().job)).toEqual([])
})

test('how long it has been left out: in hours, from a day on by the calendar', () => {
  expect([0, HOUR, 5 * HOUR, 24 * HOUR, 120 * HOUR].map((age) => format.age(START, START + age))).toEqual([
    'for less than an hour',
    'for 1 hour',
    'for 5 hours',
    'for 1 day',
    'for 5 days',
  ])
})

describe('leaving out', () => {
  const { job } = tell()
  const draft = {
    what: { kind: 'fasteners' as const, joint: 'J-sump', positions: [3] },
    dueStepId: 'C2',
    reason: ' later ',
  }

  test('it can be due at any step after its own', () => {
    expect(laterSteps(job, 'S3').map(({ id }) => id)).toEqual(['C1', 'C2'])
    expect(laterSteps(job, 'C2')).toEqual([])
  })

  test('what is missing is said, then the command is made', () => {
    expect(leaveOut({ ...draft, what: { ...draft.what, positions: [] } })).toMatch(/^Tick the positions/)
    expect(leaveOut({ ...draft, dueStepId: '' })).toMatch(/^Choose the step/)
    expect(leaveOut({ ...draft, reason: ' ' })).toMatch(/^Say why/)
    expect(leaveOut(draft)).toEqual({ type: 'Defer', ...draft, reason: 'later' })
  })

  test('a fastener is fitted after all, a step done', () => {
    const [deferral] = tell(leftOut).job.deferrals
    expect(deferral && takeBackLabel(deferral)).toBe('Fit it now')
    expect(deferral && takeBackLabel({ ...deferral, what: { kind: 'step', stepId: 'C1' } })).toBe('Do it now')
  })
})
