/** A bead and its clock: closed in its window, cured before it is loaded. */
import { describe, expect, test } from 'vitest'
import { sealantState } from '../../../../shared/job/clocks'
import { indexPlan } from '../../../../shared/plan/read'
import { bead, claim, closed, putDown, sign, waive } from '../../../shop/acts'
import { floor } from '../../../shop/given'
import { all, sealDone } from '../../../shop/stories'
import { START } from '../../../shop/time'

describe('the sealant’s clock', () => {
  test('[SE4] a bead starts it, another starts a new one', () => {
    floor().when(bead('seal')).gives({ type: 'SealantStarted', stepId: 'seal' })
    const then = floor(sealDone()).when(bead('seal', { at: 300 }))
    then.gives({ type: 'SealantStarted' }, { type: 'SignaturesLapsed', because: 'sealant' })
    expect(then.job.steps.seal?.sealant).toHaveLength(2)
  })
  test('[SE1] [SE2] [SE5] a step that asks for sealant', () => {
    floor().when(bead('none')).refuses('step_not_found')
    floor().when(bead('twin')).refuses('no_sealant_asked', { stepId: 'twin' })
    floor().when(closed('none')).refuses('step_not_found')
  })
  test('[SE3] [SE7] the same tap again', () => {
    floor(bead('seal', { at: 9 }))
      .when(bead('seal', { at: 9 }))
      .thenNothing()
    floor(bead('seal'), closed('seal')).when(closed('seal')).thenNothing()
    floor(bead('seal')).when(closed('seal')).gives({ type: 'SealantClosed' })
  })
  test('[SE6] nothing to close', () => {
    floor().when(closed('seal')).refuses('sealant_not_started')
  })
  const tight = (at: number) => [
    claim('seal'),
    bead('seal', { at: 122 }),
    all('JE', [1, 2], 9, { at: 125 }),
    closed('seal', { at }),
  ]
  test('[SE8] [SG14] T15: the window to the exact minute', () => {
    floor(tight(130))
      .when(sign('seal', { at: 140 }))
      .gives({ type: 'StepSigned' })
    floor(tight(130 + 1 / 60))
      .when(sign('seal', { at: 140 }))
      .refuses('sealant_open', { state: 'late', minutes: 8 })
    floor(claim('seal'), all('JE', [1, 2], 9))
      .when(sign('seal'))
      .refuses('sealant_open', { state: 'not_started' })
    floor(claim('seal'), bead('seal'), all('JE', [1, 2], 9))
      .when(sign('seal', { at: 500 }))
      .refuses('sealant_open', { state: 'open' })
  })
  test('[SE8] what arrives late counts when it happened', () => {
    floor(tight(130), putDown('seal', { at: 900 }), claim('seal', { at: 901 }))
      .when(sign('seal', { at: 902 }))
      .gives({ type: 'StepSigned' })
  })
  test('[SE9] [CL8] T15: cured at the end of its last minute, and not before', () => {
    floor(sealDone())
      .when(claim('fill', { at: 826.99 }))
      .refuses('still_curing', { of: 'seal', until: START + 827 * 60_000 })
    floor(sealDone())
      .when(claim('fill', { at: 827 }))
      .gives({ type: 'StepClaimed' })
    const { job } = floor(sealDone())
    const step = indexPlan(job.plan).stepById.get('seal')
    expect(step && sealantState(job, step, START + 827 * 60_000)).toEqual({
      state: 'cured',
      since: START + 827 * 60_000,
    })
  })
  test('[WV7] a late bead accepted is not the next one accepted', () => {
    const late = [tight(140), waive({ kind: 'sealant', stepId: 'seal' })]
    floor(late)
      .when(sign('seal', { at: 150 }))
      .gives({ type: 'StepSigned' })
    floor(late, bead('seal', { at: 200 }), closed('seal', { at: 220 }))
      .when(sign('seal', { at: 230 }))
      .refuses('sealant_open', { state: 'late' })
  })
})
