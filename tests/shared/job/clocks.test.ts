/** What the clock alone changes: a step that waits for a cure, the reason, the summary and the moment it names. */
import { describe, expect, test } from 'vitest'
import { nextChangeAt } from '../../../shared/job/clocks'
import { reasonSentence } from '../../../shared/job/reason'
import { reasonFor } from '../../../shared/job/reason-for'
import { summarise } from '../../../shared/job/summary'
import { standingOf } from '../../../shared/job/verdicts'
import { indexPlan } from '../../../shared/plan/read'
import { bead, claim, closed, type Given, putDown, raise } from '../../shop/acts'
import { floor } from '../../shop/given'
import { sealDone } from '../../shop/stories'
import { START } from '../../shop/time'
import { words } from '../../shop/words'

const at = (minute: number) => START + minute * 60_000

/** Closed at minute 107, cured twelve hours later. */
const CURED = at(107 + 720)

const only = (ids: string[], ...happened: Given[]) => {
  const { job } = floor(...happened)
  return { ...job, plan: { ...job.plan, steps: job.plan.steps.filter(({ id }) => ids.includes(id)) } }
}

const fillAt = (now: number | undefined, ...happened: Given[]) => {
  const job = only(['seal', 'fill'], ...happened)
  const fill = indexPlan(job.plan).stepById.get('fill')
  return fill && standingOf(job, fill, now)
}

describe('[VW15] a step that must wait for a cure', () => {
  test('is not ready while it runs, and ready at its end', () => {
    expect(fillAt(at(110), sealDone())).toBe('not_ready')
    expect(fillAt(CURED - 1, sealDone())).toBe('not_ready')
    expect(fillAt(CURED, sealDone())).toBe('ready')
  })
  test('as if every clock had run out where nobody names a moment', () => {
    expect(fillAt(undefined, sealDone())).toBe('ready')
  })
  test('says until when on its cell, and nothing of a clock where more than the clock keeps it', () => {
    const cell = (now: number, ...happened: Given[]) =>
      summarise(only(['seal', 'fill'], ...happened), now).cells.find(({ stepId }) => stepId === 'fill')
    expect(cell(at(110), sealDone())).toMatchObject({ standing: 'not_ready', curesAt: CURED })
    expect(cell(CURED, sealDone())).not.toHaveProperty('curesAt')
    expect(
      cell(at(110), claim('seal', { at: 100 }), bead('seal', { at: 100 }), closed('seal', { at: 107 })),
    ).toEqual({
      stepId: 'fill',
      stage: 0,
      minutes: 10,
      standing: 'not_ready',
    })
    expect(cell(at(110), sealDone(), raise(['fill']))).toMatchObject({ standing: 'on_hold' })
  })
  test('is not among what can be taken, until then', () => {
    const ready = (now: number) => summarise(only(['seal', 'fill'], sealDone()), now).ready
    expect(ready(at(110))).toBeUndefined()
    expect(ready(CURED)).toMatchObject([{ stepId: 'fill' }])
  })
})

describe('the reason while a bead cures', () => {
  test('[VW11] is the cure when nothing else can be done, with its end and what comes then', () => {
    const job = only(['seal', 'fill'], sealDone())
    const reason = reasonFor(job, at(110))
    expect(reason).toEqual({
      code: 'curing',
      step: 'seal',
      title: 'Step seal',
      until: CURED,
      next: 'Step fill',
    })
    expect(reasonSentence(reason, words)).toBe(
      'The sealant of “Step seal” cures until 21:47. Next: Step fill.',
    )
    expect(reasonFor(job, CURED)).toMatchObject({ code: 'nobody_on_it', step: 'fill' })
  })
  test('[VW11] is other work where there is some', () => {
    const job = only(['seal', 'fill', 'trial'], sealDone())
    expect(reasonFor(job, at(110))).toMatchObject({ code: 'nobody_on_it', step: 'trial', ready: 1 })
  })
  test('[VW11] a hold does not say that other work goes on when only the clock keeps it', () => {
    const ready = (now: number) => {
      const reason = reasonFor(only(['seal', 'fill', 'trial'], sealDone(), raise(['trial'])), now)
      return reason.code === 'on_hold' ? reason.ready : undefined
    }
    expect([ready(at(110)), ready(CURED)]).toEqual([0, 1])
  })
})

describe('the moment a summary names', () => {
  test('[VW14] [VW15] is the end of the cure, and none once nothing runs', () => {
    const { job } = floor(sealDone())
    expect(summarise(job, at(110)).changesAt).toBe(CURED)
    expect(summarise(job, at(110)).changesAt).toBe(nextChangeAt(job, at(110)))
    expect(summarise(job, CURED)).not.toHaveProperty('changesAt')
    expect(summarise(floor(claim('trial'), putDown('trial')).job, at(5))).not.toHaveProperty('changesAt')
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
