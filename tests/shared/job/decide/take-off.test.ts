/** A cover without fasteners of its own: off again, and what it hid can be reached until it goes on. */
import { describe, expect, test } from 'vitest'
import { reasonFor } from '../../../../shared/job/reason-for'
import { hiddenBy, isSigned, stepState } from '../../../../shared/job/verdicts'
import { indexPlan } from '../../../../shared/plan/read'
import {
  answer,
  claim,
  type Given,
  open,
  secondSign,
  shows,
  sign,
  slacken,
  takeOff,
  waive,
} from '../../../shop/acts'
import { fresh } from '../../../shop/given'
import { coverAdopted, hoodOn } from '../../../shop/plans/cover-engine'
import { pumpSigned } from '../../../shop/stories'

const covered = (...happened: Given[]) => fresh(open(), coverAdopted, hoodOn(), ...happened)
const over = (...happened: Given[]) => hiddenBy(covered(...happened).job, 'JP', [1]).map(({ id }) => id)

describe('taking a cover off', () => {
  test('[TO1] a step the plan has not', () => {
    covered().when(takeOff('none')).refuses('step_not_found', { stepId: 'none' })
  })
  test('[TO2] one with fasteners says it by them, one that hides nothing covers nothing', () => {
    covered(shows('JS', 1, 9))
      .when(takeOff('shroud'))
      .thenNothing()
    covered(claim('duct'), sign('duct')).when(takeOff('duct')).thenNothing()
  })
  test('[TO3] not on, or off already', () => {
    fresh(open(), coverAdopted, pumpSigned(), secondSign('pump'), claim('hood'))
      .when(takeOff('hood'))
      .thenNothing()
    covered(takeOff('hood')).when(takeOff('hood')).thenNothing()
  })
  test('[TO4] is recorded, anybody’s, and takes back both signatures of its own sets', () => {
    const then = covered().when(takeOff('hood', { by: 'wim' }))
    then.gives(
      { type: 'StepTakenOff', stepId: 'hood', by: 'wim' },
      { type: 'SignaturesLapsed', stepId: 'hood', setId: 'step', because: 'taken_off' },
    )
    const hood = indexPlan(then.job.plan).stepById.get('hood')
    expect(hood && isSigned(then.job, hood)).toBe(false)
    expect(stepState(then.job, 'pump').sets.step?.second?.by).toBe('bo')
  })
  test('[TO5] what it hid is in reach, until its next fact', () => {
    expect(over()).toEqual(['hood'])
    expect(over(takeOff('hood'))).toEqual([])
    covered(takeOff('hood'), claim('hood')).when(slacken('JP', 1)).flags('not_claimed')
    covered().when(slacken('JP', 1)).flags('not_claimed', 'out_of_reach')
    expect(over(takeOff('hood'), claim('hood', { by: 'cy' }))).toEqual([])
    const on = [takeOff('hood'), claim('hood', { by: 'cy' }), answer('gap', { stepId: 'hood', by: 'cy' })]
    expect(over(on)).toEqual(['hood'])
  })
  test('[TO5] [CL9] it does not go on again over what is not proven', () => {
    covered(takeOff('hood'), slacken('JP', 1)).when(claim('hood')).refuses('would_hide_unproven')
    expect(reasonFor(covered(takeOff('hood'), slacken('JP', 1)).job)).not.toMatchObject({
      code: 'second_late',
    })
  })
  test('[TO6] counts and looks were of the cover as it was on: they are taken again, also where one was accepted', () => {
    covered(takeOff('hood'), claim('hood')).when(sign('hood')).refuses('gate_open', { text: 'Clips closed' })
    covered(takeOff('hood'), claim('hood', { by: 'cy' }))
      .when(answer('clips', { stepId: 'hood', count: 4, by: 'cy' }))
      .gives({ type: 'GateAnswered' })
    const waived = [
      answer('clips', { stepId: 'hood', count: 3 }),
      waive({ kind: 'gate', stepId: 'hood', gateId: 'clips' }),
    ]
    expect(covered(waived, takeOff('hood')).job.waivers).toMatchObject([{ lapsed: { by: 'ana' } }])
  })
})
