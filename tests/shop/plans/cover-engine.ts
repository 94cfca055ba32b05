/**
 * The floor's plan with one cover more: a hood that hides class A bolts and has no fastener of its own, and a duct that
 * hides nothing. Every value is made up.
 */
import { adopt } from '../../../shared/plan/adopt'
import type { PlanStep } from '../../../shared/plan/types'
import { answer, claim, type Given, secondSign, sign } from '../acts'
import { step } from '../plan'
import { testShop } from '../shop'
import { pumpSigned } from '../stories'
import { START } from '../time'
import { floorPlan } from './floor-engine'

const bare = (id: string, some: Partial<PlanStep> = {}) =>
  step(id, { stage: 'build', kind: 'fit', minutes: { low: 1, likely: 2, high: 3 }, ...some })

const hood = bare('hood', {
  hides: [{ joint: 'JP' }],
  gates: [
    { id: 'clips', kind: 'count', text: 'Clips closed', expect: 4 },
    { id: 'gap', kind: 'look', text: 'Even gap all round' },
  ],
})

const plan = adopt(
  { ...floorPlan, id: 'cover-engine', steps: [...floorPlan.steps, hood, bare('duct')] },
  testShop.tolerances,
)

/** Instead of the floor's plan: adopted as a job would hold it. */
export const coverAdopted: Given = { type: 'PlanAdopted', by: 'dee', doneAt: START, plan }

/** The pump bolts proven, and the hood over them, signed. */
export const hoodOn = (): Given[] => [
  pumpSigned(),
  secondSign('pump'),
  claim('hood', { by: 'cy' }),
  answer('clips', { stepId: 'hood', count: 4, by: 'cy' }),
  answer('gap', { stepId: 'hood', by: 'cy' }),
  sign('hood', { by: 'cy' }),
]
