/** Who is offered to say that a cover is off again, and what the step's row says then. */
import { expect, test } from 'vitest'
import { stepView } from '../../../web/job/step/step-view'
import { hiddenByWords } from '../../../web/job/step/step-words'
import { mayTakeOff } from '../../../web/pages/engine/cover-off'
import { claim, type Given, open, takeOff } from '../../shop/acts'
import { fresh } from '../../shop/given'
import { coverAdopted, hoodOn } from '../../shop/plans/cover-engine'
import { testShop } from '../../shop/shop'

const job = (...happened: Given[]) => fresh(open(), coverAdopted, hoodOn(), ...happened).job

test('whoever holds a step of this engine, and who leads', () => {
  const offered = (who: string | undefined, ...happened: Given[]) =>
    mayTakeOff(job(...happened), testShop, who)
  expect(offered('dee')).toBe(true)
  expect(offered('ana')).toBe(false)
  expect(offered('ana', claim('trial'))).toBe(true)
  expect(offered('wim', claim('trial'))).toBe(false)
  expect(offered(undefined)).toBe(false)
})

test('what it covered is covered no longer, and will be again', () => {
  const covered = (...happened: Given[]) => {
    const told = job(...happened)
    const pump = told.plan.steps.find(({ id }) => id === 'pump')
    const hood =
      pump && hiddenByWords(stepView(told, pump).hiddenBy).find(({ text }) => text.startsWith('hood'))
    return hood && [hood.covered, hood.text]
  }
  expect(covered()).toEqual([true, 'hood covers joint JP'])
  expect(covered(takeOff('hood'))).toEqual([false, 'hood will cover joint JP'])
})
