/** Taking a step, and leaving it. */
import { describe, expect, test } from 'vitest'
import { stepState } from '../../../../shared/job/verdicts'
import { claim, click, measure, putDown, scale, secondSign, shows, sign } from '../../../shop/acts'
import { given } from '../../../shop/given'
import { people } from '../../../shop/people'
import { capsReady, capTorqued, headProven, headSigned, headTurned } from '../../../shop/stories'
import { START } from '../../../shop/time'

describe('claiming a step', () => {
  test('[CL11] the first who asks has it, from that minute', () => {
    const then = given().when(claim('head', { at: 40 }))
    then.gives({ type: 'StepClaimed', stepId: 'head', by: 'ana' })
    expect(stepState(then.job, 'head').claim).toEqual({ by: 'ana', doneAt: START + 40 * 60_000 })
  })
  test('[CL1] a step the plan has not', () => {
    given().when(claim('none')).refuses('step_not_found', { stepId: 'none' })
    given().when(claim('constructor')).refuses('step_not_found')
  })
  test('[CL2] a second tap by the same hand changes nothing', () => {
    given(claim('head')).when(claim('head')).thenNothing()
  })
  test('[CL3] two want one step: the second is told who has it and since when', () => {
    given(claim('head', { at: 10 }))
      .when(claim('head', { by: 'bo' }))
      .refuses('already_claimed', { stepId: 'head', by: 'ana', since: START + 600_000 })
  })
  test('[CL3] [FW2] comes before what else might be said of the person', () => {
    given(claim('head'))
      .when(claim('head', { by: 'wim' }))
      .refuses('already_claimed')
  })
  test('[CL4] a signed step is not taken up again, whoever asks', () => {
    given(headSigned())
      .when(claim('head', { by: 'bo' }))
      .refuses('step_already_signed', { by: 'ana' })
    given(headProven())
      .when(claim('head', { by: 'wim' }))
      .refuses('step_already_signed', { by: 'ana' })
  })
  test('[CL4] a step of several sets is signed when the last of them is', () => {
    given(capsReady(), putDown('caps'))
      .when(claim('caps', { by: 'bo' }))
      .gives({ type: 'StepClaimed' })
    given(capsReady(), sign('caps'))
      .when(claim('caps', { by: 'bo' }))
      .refuses('step_already_signed')
  })
  test('[CL5] class and family are looked at', () => {
    given()
      .when(claim('head', { by: 'cy' }))
      .refuses('not_entitled', { class: 'A', family: 'diesel' })
    given()
      .when(claim('reseat', { by: 'cy' }))
      .refuses('not_entitled', { class: 'B' })
    given()
      .when(claim('sump', { by: 'wim' }))
      .refuses('not_entitled', { class: 'C' })
    const bo = { ...people.bo, mayDo: { ...people.bo.mayDo, families: ['petrol'] } }
    given()
      .inShop({ people: { ...people, bo } })
      .when(claim('head', { by: 'bo' }))
      .refuses('not_entitled', { class: 'A', family: 'diesel' })
  })
  test('[CL5] [FW2] comes before open needs, which come before what would be hidden', () => {
    given()
      .when(claim('cover', { by: 'wim' }))
      .refuses('not_entitled')
    given().when(claim('cover')).refuses('needs_open')
    given(headSigned()).when(claim('cover')).refuses('would_hide_unproven')
  })
  test('[CL7] a need is met by its doer’s word, not before', () => {
    given(headTurned())
      .when(claim('cover'))
      .refuses('needs_open', { needs: [{ id: 'head', title: 'Step head' }] })
  })
  test('[CL9] a class A joint is not covered before both have signed it', () => {
    given(headSigned())
      .when(claim('cover', { by: 'cy' }))
      .refuses('would_hide_unproven', { stepId: 'cover', behind: [{ joint: 'JH', title: 'Joint JH' }] })
    given(headProven())
      .when(claim('cover', { by: 'cy' }))
      .gives({ type: 'StepClaimed', stepId: 'cover' })
  })
  test('[CL9] holds though the plan names no need, and for the positions named only', () => {
    given()
      .when(claim('sump'))
      .refuses('would_hide_unproven', { behind: [{ joint: 'JC', positions: [3, 4] }] })
    given(
      claim('caps'),
      capTorqued(2),
      sign('caps', { setId: 'cap-2' }),
      secondSign('caps', { setId: 'cap-2' }),
    )
      .when(claim('sump', { by: 'cy' }))
      .gives({ type: 'StepClaimed', stepId: 'sump' })
  })
})

describe('putting a step down', () => {
  test('[PD4] it is free for the next', () => {
    given(claim('head')).when(putDown('head')).gives({ type: 'StepPutDown', stepId: 'head', by: 'ana' })
    given(claim('head'), putDown('head'))
      .when(claim('head', { by: 'bo' }))
      .gives({ type: 'StepClaimed', by: 'bo' })
  })
  test('[PD1] a step the plan has not', () => {
    given().when(putDown('none')).refuses('step_not_found', { stepId: 'none' })
  })
  test('[PD2] what nobody holds is put down already', () => {
    given().when(putDown('head')).thenNothing()
    given(claim('head'), putDown('head')).when(putDown('head')).thenNothing()
  })
  test('[PD3] the one who holds it puts it down, or a supervisor for them', () => {
    given(claim('head'))
      .when(putDown('head', { by: 'bo' }))
      .refuses('not_your_step', { by: 'ana' })
    given(claim('head'))
      .when(putDown('head', { by: 'dee' }))
      .gives({ type: 'StepPutDown', by: 'dee' })
  })
  test('[PD4] what was done stays; the number on the scale is forgotten, on this step only', () => {
    const then = given(
      claim('head'),
      scale('JH', 30),
      click('JH', 2),
      claim('reseat'),
      scale('JR', 20, { wrenchId: 'foot' }),
      measure('cap 1', 0.05),
    ).when(putDown('head'))
    expect(then.before).toHaveProperty('scales.click')
    expect(Object.keys(then.job.scales)).toEqual(['foot'])
    expect(then.job.scaleLog).toHaveLength(2)
    expect(then.job.readings.JH).toHaveLength(1)
    given(claim('head'), scale('JH', 30), putDown('head'), claim('head'))
      .when(click('JH', 2))
      .flags('scale_not_entered')
    given(claim('head'), scale('JH', 30)).when(click('JH', 2)).flags()
    given(claim('head'))
      .when(shows('JH', 2, 30))
      .flags()
  })
})
