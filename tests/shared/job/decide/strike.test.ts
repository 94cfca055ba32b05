/** Crossing out a wrong entry: both stay readable. */
import { describe, expect, test } from 'vitest'
import { claim, measure, shows, sign, slacken, strike, strikeMeasured } from '../../../shop/acts'
import { given } from '../../../shop/given'
import { entry } from '../../../shop/ids'
import { headProven, headTurned } from '../../../shop/stories'
import { START } from '../../../shop/time'

describe('striking a reading', () => {
  test('[ST4] it stays in its place, crossed out, with who, when and why', () => {
    const then = given(claim('head'), shows('JH', 2, 45)).when(
      strike(entry(2), { at: 30, reason: 'read the wrong bolt' }),
    )
    then.gives({ type: 'ReadingStruck', jointId: 'JH', readingId: entry(2), reason: 'read the wrong bolt' })
    expect(then.job.readings.JH).toMatchObject([
      { torqueNm: 45, struck: { by: 'ana', doneAt: START + 30 * 60_000, reason: 'read the wrong bolt' } },
    ])
  })
  test('[ST4] its pass is to go again', () => {
    given(headTurned(), strike(entry(9)))
      .when(sign('head'))
      .refuses('positions_open', { joint: 'JH', positions: [3], pass: 2, passes: 2 })
  })
  test('[ST1] a reading this job has not', () => {
    given(claim('head')).when(strike('none')).refuses('reading_not_found', { readingId: 'none' })
  })
  test('[ST2] struck once is struck, whoever asks', () => {
    given(claim('head'), shows('JH', 2, 45), strike(entry(2)))
      .when(strike(entry(2)))
      .thenNothing()
    given(claim('head'), shows('JH', 2, 45), strike(entry(2)))
      .when(strike(entry(2), { by: 'cy' }))
      .thenNothing()
  })
  test('[ST3] it is for the one who entered it, and for the supervisor', () => {
    const taken = given(claim('head'), shows('JH', 2, 45))
    taken.when(strike(entry(2), { by: 'bo' })).refuses('not_yours_to_strike', { by: 'ana' })
    taken.when(strike(entry(2), { by: 'wim' })).refuses('not_yours_to_strike')
    taken.when(strike(entry(2), { by: 'dee' })).gives({ type: 'ReadingStruck', by: 'dee' })
  })
  test('[LP1] signatures over it lapse', () => {
    const then = given(headProven()).when(strike(entry(2)))
    then.gives(
      { type: 'ReadingStruck' },
      { type: 'SignaturesLapsed', stepId: 'head', setId: 'step', because: 'strike' },
    )
    expect(then.job.steps.head?.sets.step).toEqual({})
  })
  test('[FW3] what a struck slackening took back stays taken back', () => {
    const { job } = given(claim('head'), shows('JH', 2, 30), slacken('JH', 2)).when(strike(entry(3)))
    expect(job.readings.JH).toMatchObject([
      { superseded: { because: 'slackened' } },
      { struck: { by: 'ana' } },
    ])
  })
})

describe('striking a measurement', () => {
  test('[ME9] it stays, crossed out', () => {
    const then = given(measure('cap 1', 0.5)).when(strikeMeasured(entry(1)))
    then.gives({ type: 'MeasurementStruck', stepId: 'caps', entryId: entry(1), reason: 'mistyped' })
    expect(then.job.steps.caps?.measurements).toMatchObject([
      { value: 0.5, struck: { by: 'ana', reason: 'mistyped' } },
    ])
  })
  test('[ME6] a measurement this job has not', () => {
    given().when(strikeMeasured('none')).refuses('entry_not_found', { entryId: 'none' })
  })
  test('[ME7] struck once is struck', () => {
    given(measure('cap 1', 0.5), strikeMeasured(entry(1)))
      .when(strikeMeasured(entry(1), { by: 'cy' }))
      .thenNothing()
  })
  test('[ME8] it is for the one who entered it, and for the supervisor', () => {
    const taken = given(measure('cap 1', 0.5))
    taken.when(strikeMeasured(entry(1), { by: 'bo' })).refuses('not_yours_to_strike', { by: 'ana' })
    taken.when(strikeMeasured(entry(1), { by: 'dee' })).gives({ type: 'MeasurementStruck' })
  })
})
