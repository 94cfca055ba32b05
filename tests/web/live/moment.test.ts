/** The moment a page reckons its views at: it moves when a clock of the job runs out, and at no other time. */
import { describe, expect, test } from 'vitest'
import { newJob } from '../../../shared/job/evolve'
import { stepView } from '../../../web/job/step/step-view'
import { standingWords } from '../../../web/job/step/step-words'
import { momentAfter } from '../../../web/live/clock-moment'
import { floor } from '../../shop/given'
import { sealDone } from '../../shop/stories'
import { START } from '../../shop/time'
import { words } from '../../shop/words'

const minute = (n: number) => START + n * 60_000
const CURED = minute(107 + 720)
const { job } = floor(sealDone())

describe('the moment', () => {
  test('stands still while a bead cures, and moves once it is over', () => {
    expect(momentAfter(job, minute(110), minute(300))).toBe(minute(110))
    expect(momentAfter(job, minute(110), CURED)).toBe(CURED)
    expect(momentAfter(job, CURED, CURED + 1)).toBe(CURED)
  })
  test('stands still where nothing runs, and goes back with a clock that was put right', () => {
    expect(momentAfter(newJob('x'), 5, 9)).toBe(5)
    expect(momentAfter(job, minute(400), minute(110))).toBe(minute(110))
  })
  test('a step that waits for a cure says until when', () => {
    const fill = job.plan.steps.find(({ id }) => id === 'fill')
    const said = (now: number) => fill && standingWords(stepView(job, fill, now), words)
    expect(said(minute(110))).toBe('waits for sealant to cure until 21:47')
    expect(said(CURED)).toBe('ready')
  })
})
