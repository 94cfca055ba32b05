/** Leaving a step: where it stopped, what its rule asks then, and giving it to another. */
import { describe, expect, test } from 'vitest'
import { nextChangeAt } from '../../../../shared/job/clocks'
import { handoverNote, stoppedAt } from '../../../../shared/job/stops'
import { interruptionOf, standingOf, stepState } from '../../../../shared/job/verdicts'
import { indexPlan } from '../../../../shared/plan/read'
import {
  bead,
  claim,
  closed,
  type Given,
  handOver,
  leaveOut,
  putDown,
  restart,
  scale,
  shows,
  turn,
} from '../../../shop/acts'
import { floor, given } from '../../../shop/given'
import { all, headSigned, headTorqued, twinTurned } from '../../../shop/stories'
import { START } from '../../../shop/time'
import { words } from '../../../shop/words'

const left = [claim('twin'), all('JT', [1], 20)]
const marks = (...happened: Given[]) => {
  const { job } = floor(...happened)
  const step = indexPlan(job.plan).stepById.get('twin')
  return step ? stoppedAt(job, step) : []
}

describe('stopped at', () => {
  test('[PD5] in the middle of a torque pass: the pass again, from its first position', () => {
    floor(left)
      .when(putDown('twin', { note: 'phone' }))
      .gives({
        type: 'StepStopped',
        note: 'phone',
        at: [{ jointId: 'JT', pass: 1, position: 2, positions: [1, 2], midPass: true, asks: 'again' }],
      })
  })
  test('[PD5] after any angle: the joint’s own rule, and new fasteners where it is silent', () => {
    expect(marks(claim('twin'), all('JT', [1, 2], 20), turn('JT', 1, 60))).toMatchObject([
      { pass: 2, position: 2, midPass: true, asks: 'new_fasteners' },
    ])
    const { job } = given(headTorqued(), turn('JH', 2, 90), putDown('head'))
    expect(job.steps.head?.stopped?.at).toMatchObject([{ position: 1, asks: 'new_fasteners' }])
  })
  test('[PD5] between two passes it asks nothing; what is final has no marker', () => {
    expect(marks(claim('twin'), all('JT', [1, 2], 20))).toMatchObject([{ pass: 2, asks: 'nothing' }])
    expect(marks(claim('twin'), twinTurned('left'))).toEqual([])
    floor(claim('twin'), twinTurned('left')).when(putDown('twin')).gives({ type: 'StepPutDown' })
  })
  test('[PD5] every pass reached and a flag standing is not final either', () => {
    expect(marks(claim('twin'), all('JT', [1, 2], 20), turn('JT', 1, 60), turn('JT', 2, 90))).toMatchObject([
      { pass: 2, position: 2, midPass: false, asks: 'nothing' },
    ])
  })
  test('[PD5] what is due here from elsewhere has its marker here', () => {
    const { job } = floor(leaveOut('JB', [6, 7], 'lift'), claim('lift'), shows('JB', 6, 22), putDown('lift'))
    expect(job.steps.lift?.stopped?.at).toMatchObject([{ jointId: 'JB', position: 7, positions: [6, 7] }])
  })
  test('[CL11] going on clears the marker of the step, not the one of the round', () => {
    const { job } = floor(left, putDown('twin'), claim('twin', { by: 'bo' }))
    expect(stepState(job, 'twin')).not.toHaveProperty('stopped')
    expect(interruptionOf(job, 'JT', 1)).toMatchObject({ asks: 'again' })
    expect(
      standingOf(floor(left, putDown('twin')).job, indexPlan(job.plan).stepById.get('twin') as never),
    ).toBe('stopped')
  })
})

describe('a round broken off', () => {
  const broken = [left, putDown('twin'), claim('twin')]
  test('[RD24] goes on only after what its rule asks', () => {
    floor(broken)
      .when(shows('JT', 2, 20))
      .flags('not_restarted')
    floor(broken, restart('JT', 2))
      .when(shows('JT', 1, 20))
      .flags()
  })
  test('[RD24] [RN11] one cap’s interruption does not hold up the other', () => {
    floor(broken)
      .when(shows('JT', 3, 20))
      .flags()
    const { job } = floor(broken, shows('JT', 3, 20), putDown('twin'), claim('twin'), restart('JT', 3))
    expect(job.interrupted.JT).toMatchObject([{ positions: [1, 2] }])
    expect(floor(broken, restart('JT', 1)).job.interrupted).toEqual({})
  })
  test('[RN11] less than the rule asks is recorded and leaves the mark; more lifts it', () => {
    const turned = [claim('twin'), all('JT', [1, 2], 20), turn('JT', 1, 60), putDown('twin'), claim('twin')]
    floor(turned, restart('JT', 1, { how: 'slackened' }))
      .when(shows('JT', 1, 20))
      .flags('not_restarted')
    floor(turned, restart('JT', 1, { how: 'new_fasteners' }))
      .when(shows('JT', 1, 20))
      .flags()
    floor(broken, restart('JT', 1, { how: 'new_fasteners' }))
      .when(shows('JT', 1, 20))
      .flags()
  })
  test('[RN11] broken off twice it keeps the mark that asks for more', () => {
    const twice = [
      broken,
      shows('JT', 2, 20),
      turn('JT', 1, 60),
      putDown('twin'),
      claim('twin'),
      restart('JT', 1),
    ]
    expect(floor(twice).job.interrupted.JT).toMatchObject([{ asks: 'new_fasteners' }])
  })
  test('[DE7] leaving out the rest is no way round it', () => {
    floor(broken)
      .when(leaveOut('JT', [2], 'lift'))
      .refuses('round_broken_off', { joint: 'JT' })
  })
})

describe('handing over', () => {
  test('[HO6] it is theirs, with the marker and the note', () => {
    const then = floor(left, scale('JT', 20)).when(handOver('twin', 'bo', { note: 'nut 2 is dry' }))
    then.gives({ type: 'StepHandedOver', from: 'ana', to: 'bo' })
    expect(then.events[0]).toMatchObject({ at: [{ position: 2, asks: 'again' }] })
    expect(then.job.steps.twin).toMatchObject({ claim: { by: 'bo' }, stopped: { note: 'nut 2 is dry' } })
    expect(then.job.scales).toEqual({})
  })
  test('[HO1] a step the plan has not', () => {
    floor().when(handOver('none', 'bo')).refuses('step_not_found')
  })
  test('[HO2] whom it is for has it already', () => {
    floor(claim('twin', { by: 'bo' }))
      .when(handOver('twin', 'bo'))
      .thenNothing()
  })
  test('[HO3] by the holder, or a supervisor for them', () => {
    floor().when(handOver('twin', 'bo')).refuses('not_your_step', { stepId: 'twin' })
    floor(claim('twin'))
      .when(handOver('twin', 'bo', { by: 'cy' }))
      .refuses('not_your_step', { by: 'ana' })
    floor(claim('twin'))
      .when(handOver('twin', 'bo', { by: 'dee' }))
      .gives({ type: 'StepHandedOver', by: 'dee', to: 'bo' })
  })
  test('[HO4] to somebody who works here', () => {
    floor(claim('twin')).when(handOver('twin', 'zoe')).refuses('person_unknown', { by: 'zoe' })
    floor(claim('twin')).when(handOver('twin', '__proto__')).refuses('person_unknown')
  })
  test('[HO5] T11: not to somebody who may not do its class', () => {
    floor(claim('twin'))
      .when(handOver('twin', 'cy'))
      .refuses('receiver_not_entitled', { to: 'cy', class: 'B' })
    floor(claim('trial')).when(handOver('trial', 'cy')).gives({ type: 'StepHandedOver', to: 'cy' })
  })
  test('[VW13] T11: the note is drawn from the record', () => {
    const { job } = given(headTorqued(), turn('JH', 2, 90), putDown('head', { note: 'front one is stiff' }))
    const step = indexPlan(job.plan).stepById.get('head')
    const note = step && handoverNote(job, step, words)
    expect(note).toMatchObject({
      done: [],
      stands: [
        'Joint JH: pass 2 of 2, bolt 1 (2nd in order) next; fit new fasteners and start again at pass 1.',
      ],
      mustNot: ['Do not begin cover Step cover: it covers Joint JH, not signed off yet.'],
      said: 'front one is stiff',
    })
    const { job: signed } = given(headSigned())
    const after = step && handoverNote(signed, step, words)
    expect(after?.done).toContain('Joint JH: all 4 final.')
    expect(after?.stands).toEqual(['Nothing is interrupted.'])
  })
})

describe('what changes by itself', () => {
  test('[VW14] the end of a window, then the end of the cure, never now', () => {
    const laid = floor(claim('seal'), bead('seal', { at: 100 }))
    const minute = (at: number) => START + at * 60_000
    expect(nextChangeAt(laid.job, minute(101))).toBe(minute(108) + 1)
    expect(nextChangeAt(laid.job, minute(108))).toBe(minute(108) + 1)
    expect(nextChangeAt(laid.job, minute(108) + 1)).toBeUndefined()
    const { job } = floor(claim('seal'), bead('seal', { at: 100 }), closed('seal', { at: 107 }))
    expect(nextChangeAt(job, minute(110))).toBe(minute(827))
    expect(nextChangeAt(job, minute(827))).toBeUndefined()
  })
})
