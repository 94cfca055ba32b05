/** A hold: anybody raises one, and it stops what is signed, not what is recorded. */
import { describe, expect, test } from 'vitest'
import { jobCommandSchema } from '../../../../shared/job/schema'
import { changeHold, claim, clear, raise, shows, sign } from '../../../shop/acts'
import { floor } from '../../../shop/given'
import { entry, uuid } from '../../../shop/ids'
import { all } from '../../../shop/stories'
import { START } from '../../../shop/time'

describe('a hold', () => {
  const held = raise(['twin', 'trial'])
  test('[HD3] anybody raises one; no step of it is claimed or signed', () => {
    floor()
      .when(raise(['twin'], { by: 'wim' }))
      .gives({ type: 'HoldRaised', kind: 'part', what: 'a shim' })
    floor(held).when(claim('twin')).refuses('on_hold', { stepId: 'twin', kind: 'part', what: 'a shim' })
    floor(held).when(claim('pump')).gives({ type: 'StepClaimed' })
    floor(claim('pump'), all('JP', [1, 2, 3], 30), raise(['pump']))
      .when(sign('pump'))
      .refuses('on_hold', { stepId: 'pump' })
  })
  test('[CL6] [SG7] cleared, it goes on', () => {
    floor(held, clear(entry(1)))
      .when(claim('twin'))
      .gives({ type: 'StepClaimed' })
    floor(claim('pump'), all('JP', [1, 2, 3], 30), raise(['pump']), clear(entry(5)))
      .when(sign('pump'))
      .gives({ type: 'StepSigned' })
  })
  test('[CL6] a fact is recorded all the same', () => {
    floor(claim('pump'), raise(['pump']))
      .when(shows('JP', 1, 30))
      .flags()
  })
  test('[HD1] on steps of the plan', () => {
    floor()
      .when(raise(['twin', 'none']))
      .refuses('step_not_found', { stepId: 'none' })
  })
  test('[HD2] the same hold again', () => {
    floor(held).when(held).thenNothing()
    floor(held, clear(entry(1)))
      .when(held)
      .gives({ type: 'HoldRaised' })
  })
  test('[HD6] expected otherwise', () => {
    const then = floor(held).when(changeHold(entry(1), { expectedAt: START }))
    then.gives({ type: 'HoldChanged', expectedAt: START })
    expect(then.job.holds).toMatchObject([{ what: 'a shim', expectedAt: START }])
    floor(held, changeHold(entry(1), { expectedAt: START }))
      .when(changeHold(entry(1), { what: 'a shim', expectedAt: START }))
      .thenNothing()
  })
  test('[HD4] [HD5] [HD7] one that the job has and that stands', () => {
    floor()
      .when(changeHold('none', { what: 'x' }))
      .refuses('hold_not_found')
    floor(held, clear(entry(1)))
      .when(changeHold(entry(1), { what: 'x' }))
      .refuses('hold_cleared', { by: 'ana' })
    floor().when(clear('none')).refuses('hold_not_found')
  })
  test('[HD9] an expected date is taken back; taken back already, nothing', () => {
    const dated = raise(['twin'], { expectedAt: START })
    const then = floor(dated).when(changeHold(entry(1), { expectedAt: null }))
    then.gives({ type: 'HoldChanged', undated: true })
    expect(then.events[0]).not.toHaveProperty('expectedAt')
    expect(then.job.holds[0]).not.toHaveProperty('expectedAt')
    floor(held)
      .when(changeHold(entry(1), { expectedAt: null }))
      .thenNothing()
    const again = floor(dated, changeHold(entry(1), { expectedAt: null, what: 'two' }))
    expect(again.job.holds).toMatchObject([{ what: 'two' }])
    again.when(changeHold(entry(1), { expectedAt: START })).gives({ type: 'HoldChanged', expectedAt: START })
  })
  test('[HD10] an approval is cleared by the office, with how it was said; the rest by anybody', () => {
    const asked = raise(['twin'], { kind: 'approval', what: 'new liners' })
    const how = 'Mr Vane by telephone, 14:10: yes to 1,240'
    floor(asked)
      .when(clear(entry(1), { by: 'ana', how }))
      .refuses('role_needed', { roles: ['service_writer', 'supervisor', 'owner'] })
    for (const by of ['wim', 'dee'])
      floor(asked)
        .when(clear(entry(1), { by, how }))
        .gives({ type: 'HoldCleared', how })
    floor(asked, clear(entry(1), { by: 'wim' }))
      .when(clear(entry(1), { by: 'ana' }))
      .thenNothing()
    floor(raise(['twin'], { kind: 'question' }))
      .when(clear(entry(1), { by: 'ana' }))
      .gives({ type: 'HoldCleared' })
    const sent = { type: 'ClearHold', holdId: 'x', commandId: uuid(1) }
    expect(jobCommandSchema.safeParse({ ...sent, how: ' ' }).success).toBe(false)
    expect(jobCommandSchema.safeParse({ ...sent, how }).success).toBe(true)
  })
  test('[HD8] cleared once', () => {
    floor(held)
      .when(clear(entry(1)))
      .gives({ type: 'HoldCleared', how: 'it came' })
    floor(held, clear(entry(1)))
      .when(clear(entry(1)))
      .thenNothing()
  })
})
