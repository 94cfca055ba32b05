/** Taking a step, putting it down where one stands, and handing it over. */
import { describe, expect, test } from 'vitest'
import { sentenceFor } from '../../../../shared/job/refusals'
import { handoverNote, stoppedAt } from '../../../../shared/job/stops'
import { interruptionOf, standingOf, stepState } from '../../../../shared/job/verdicts'
import type { Refusal } from '../../../../shared/log'
import { indexPlan } from '../../../../shared/plan/read'
import {
  claim,
  click,
  type Given,
  handOver,
  leaveOut,
  measure,
  putDown,
  scale,
  secondSign,
  shows,
  sign,
  turn,
} from '../../../shop/acts'
import { floor, given } from '../../../shop/given'
import { people } from '../../../shop/people'
import {
  all,
  capsReady,
  capTorqued,
  headProven,
  headSigned,
  headTorqued,
  headTurned,
  housingSigned,
  pumpSigned,
  twinTurned,
} from '../../../shop/stories'
import { START } from '../../../shop/time'
import { words } from '../../../shop/words'

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
  test('[CL13] held by somebody who has left: put down for them, with a note, then claimed', () => {
    const left = { ana: { by: 'dee', at: START } }
    const held = given(claim('head')).inShop({ left })
    const then = held.when(claim('head', { by: 'bo', at: 30 }))
    then.gives(
      { type: 'StepPutDown', by: 'bo', note: `${people.ana.name} has left the shop.` },
      { type: 'StepClaimed', by: 'bo' },
    )
    expect(stepState(then.job, 'head').claim?.by).toBe('bo')
    const broken = given(headTorqued(), turn('JH', 2, 90)).inShop({ left })
    expect(stepState(broken.job, 'head').claim?.by).toBe('ana')
    broken.when(claim('head', { by: 'bo' })).gives({ type: 'StepStopped', by: 'bo' }, { type: 'StepClaimed' })
    held.when(claim('head', { by: 'wim' })).refuses('not_entitled')
    held.when(handOver('head', 'bo', { by: 'dee' })).gives({ type: 'StepHandedOver', from: 'ana', to: 'bo' })
  })
  test('[CL12] claimed earlier by the clock and there later: told both times, and the first there keeps it', () => {
    const late = given(claim('head', { at: 10 })).when(claim('head', { by: 'bo', at: 4 }))
    late.refuses('already_claimed', { by: 'ana', since: START + 600_000, wished: START + 240_000 })
    expect(sentenceFor(late.outcome as Refusal, words)).toMatch(
      /^ana claimed head at .*\. Your claim was of .*, before that, but theirs reached the shop first, and the first there gets the step\. Ask them/,
    )
    const { reading } = given(claim('head', { at: 10 })).when(shows('JH', 2, 30, { by: 'bo', at: 5 }))
    expect(reading).toMatchObject({ by: 'bo', flags: ['not_claimed'] })
    given(claim('head', { at: 10 }))
      .when(sign('head', { by: 'bo', at: 6 }))
      .refuses('not_your_step', { by: 'ana' })
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

describe('asked once before hiding', () => {
  test('[CL10] class B and C: yes is recorded with what it hides', () => {
    const pump = [pumpSigned(), secondSign('pump')]
    floor(pump)
      .when(claim('shroud'))
      .refuses('asks_before_hiding', { behind: [{ joint: 'JB', positions: [1, 2] }] })
    floor(pump)
      .when(claim('shroud', { hidesKnowingly: true }))
      .gives({ type: 'StepClaimed', hidesKnowingly: ['JB'] })
    const none = floor(pump, housingSigned(), secondSign('housing')).when(
      claim('shroud', { hidesKnowingly: true }),
    )
    expect(none.events[0]).not.toHaveProperty('hidesKnowingly')
  })
})

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
        'Joint JH: interrupted in pass 2 of 2, before bolt 1 (2nd in order). Next: fit new fasteners and start again at pass 1.',
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
