/** Dimensions, counts and looks; a measurement struck. */
import { describe, expect, test } from 'vitest'
import { answer, claim, measure, secondSign, sign, strikeMeasured } from '../../../shop/acts'
import { given } from '../../../shop/given'
import { entry } from '../../../shop/ids'
import { capsReady } from '../../../shop/stories'

describe('taking a measurement', () => {
  test('[ME4] anybody’s is recorded, and judged against limits that are in themselves', () => {
    const inBand = (value: number) =>
      given()
        .when(measure('cap 1', value, { by: 'wim' }))
        .events.map((event) => 'inBand' in event && event.inBand)
    expect(inBand(0.03)).toEqual([true])
    expect(inBand(0.08)).toEqual([true])
    expect(inBand(0.029)).toEqual([false])
    expect(inBand(0.081)).toEqual([false])
  })
  test('[ME4] one limit judges one side', () => {
    const float = (value: number) =>
      given()
        .when(measure('crank', value, { measurementId: 'float' }))
        .events.map((event) => 'inBand' in event && event.inBand)
    expect(float(-5)).toEqual([true])
    expect(float(0.3)).toEqual([true])
    expect(float(0.31)).toEqual([false])
  })
  test('[ME1] a step the plan has not', () => {
    given()
      .when(measure('none', 1, { stepId: 'none' }))
      .refuses('step_not_found', { stepId: 'none' })
  })
  test('[ME2] a measurement the step does not ask for', () => {
    given()
      .when(measure('none', 1, { measurementId: 'none' }))
      .refuses('measurement_not_found', { measurementId: 'none' })
  })
  test('[ME3] a place it is not taken at', () => {
    given()
      .when(measure('cap 9', 1))
      .refuses('place_not_found', { place: 'cap 9', places: ['cap 1', 'cap 2'] })
  })
  test('[ME5] a second at the same place supersedes the first; another place and a struck one are let be', () => {
    const { job } = given(
      measure('cap 1', 0.5),
      strikeMeasured(entry(1)),
      measure('cap 1', 0.6),
      measure('cap 2', 0.7),
    ).when(measure('cap 1', 0.05, { by: 'bo' }))
    const [struck, first, other, second] = job.steps.caps?.measurements ?? []
    expect(struck).not.toHaveProperty('superseded')
    expect(first).toMatchObject({ value: 0.6, superseded: { by: 'bo', because: 'retaken' } })
    expect(other).not.toHaveProperty('superseded')
    expect(second).toMatchObject({ value: 0.05, by: 'bo' })
    expect(second).not.toHaveProperty('superseded')
  })
  test('[LP2] the step’s own signatures lapse, a cap’s do not', () => {
    const then = given(capsReady(), sign('caps'), secondSign('caps')).when(measure('cap 1', 0.05))
    then.gives(
      { type: 'MeasurementTaken' },
      { type: 'SignaturesLapsed', setId: 'step', because: 'measurement' },
    )
    expect(then.job.steps.caps?.sets).toMatchObject({ 'cap-1': { first: { by: 'ana' } }, step: {} })
    const struck = given(capsReady(), sign('caps')).when(strikeMeasured(entry(8)))
    struck.gives(
      { type: 'MeasurementStruck' },
      { type: 'SignaturesLapsed', setId: 'step', because: 'strike' },
    )
  })
})

describe('answering a gate', () => {
  test('[GA5] a look and a count are recorded, anybody’s, a wrong count too', () => {
    given()
      .when(answer('turns', { by: 'wim' }))
      .gives({ type: 'GateAnswered', gateId: 'turns', by: 'wim' })
    const then = given().when(answer('shells', { count: 3 }))
    then.gives({ type: 'GateAnswered', gateId: 'shells', count: 3 })
    expect(then.job.steps.caps?.gates.shells).toMatchObject({ by: 'ana', count: 3 })
  })
  test('[GA1] a step the plan has not', () => {
    given()
      .when(answer('turns', { stepId: 'none' }))
      .refuses('step_not_found', { stepId: 'none' })
  })
  test('[GA2] a gate the step has not', () => {
    given().when(answer('none')).refuses('gate_not_found', { stepId: 'caps', gateId: 'none' })
  })
  test('[GA3] a photo is no word, and what is reckoned is not answered', () => {
    given().when(answer('picture')).refuses('gate_not_for_answering', { kind: 'photo' })
    const proof = { stepId: 'proof' }
    given().when(answer('head-proven', proof)).refuses('gate_not_for_answering', { kind: 'proven' })
    given().when(answer('sealed', proof)).refuses('gate_not_for_answering', { kind: 'cured' })
    given().when(answer('none-open', proof)).refuses('gate_not_for_answering', { kind: 'no_open_class_a' })
  })
  test('[GA4] the same answer by the same hand changes nothing', () => {
    given(answer('shells', { count: 4 }))
      .when(answer('shells', { count: 4 }))
      .thenNothing()
    given(answer('turns')).when(answer('turns')).thenNothing()
    given(answer('shells', { count: 4 }))
      .when(answer('shells', { count: 3 }))
      .gives({ type: 'GateAnswered', count: 3 })
    given(answer('turns'))
      .when(answer('turns', { by: 'bo' }))
      .gives({ type: 'GateAnswered', by: 'bo' })
  })
  test('[LP2] the step’s own signatures lapse', () => {
    given(capsReady(), sign('caps'))
      .when(answer('shells', { count: 3 }))
      .gives({ type: 'GateAnswered' }, { type: 'SignaturesLapsed', setId: 'step', because: 'gate' })
    given(claim('caps'))
      .when(answer('shells', { count: 3 }))
      .gives({ type: 'GateAnswered' })
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
