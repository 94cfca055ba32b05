/**
 * A bench with one engine on it, from the first minute of its plan: what is done there goes through the rulebook, and a
 * refusal stops the test.
 */

import type { JobCommand } from '../../shared/job/commands'
import { decide } from '../../shared/job/decide'
import type { JobEvent } from '../../shared/job/events'
import { evolveAll, newJob } from '../../shared/job/evolve'
import type { PlannedJob } from '../../shared/job/types'
import { isRefusal } from '../../shared/log'
import { adopt } from '../../shared/plan/adopt'
import { indexPlan } from '../../shared/plan/read'
import type { AdoptedStep, Plan } from '../../shared/plan/types'
import { FIRST_TOLERANCES } from '../../shared/shop/evolve'
import type { Shop } from '../../shared/shop/types'
import { uuid } from './ids'
import { MINUTE, START } from './time'

/** `pace`: how long each command takes. */
export function benchWith({ shop, plan, pace = MINUTE }: { shop: Shop; plan: Plan; pace?: number }) {
  let now = START
  let count = 0
  let job = evolveAll(newJob('j'), [
    {
      type: 'JobOpened',
      by: 'suvi',
      doneAt: START,
      number: 'E-1',
      engine: { model: 'M', serial: '1' },
      owner: 'o',
      agreed: 'a',
    },
    { type: 'PlanAdopted', by: 'suvi', doneAt: START, plan: adopt(plan, FIRST_TOLERANCES) },
  ]) as PlannedJob
  const happens = (...events: JobEvent[]) => {
    job = evolveAll(job, events) as PlannedJob
  }
  const does = (command: JobCommand, by = 'bram') => {
    now += pace
    count += 1
    const outcome = decide(job, command, {
      shop,
      by,
      doneAt: now,
      commandId: uuid(count),
      through: 'sign_in',
    })
    if (isRefusal(outcome)) throw new Error(`${outcome.refused} ${JSON.stringify(outcome.data)}`)
    happens(...outcome)
  }
  return {
    shop,
    job: () => job,
    now: () => now,
    step: (id: string) => indexPlan(job.plan).stepById.get(id) as AdoptedStep,
    does,
    /** By events alone. */
    happens,
    later: (ms: number) => {
      now += ms
    },
    /** Signed by events alone: what a step needs is not what the test is about. */
    done(...ids: string[]) {
      for (const stepId of ids)
        happens({ type: 'StepSigned', by: 'suvi', doneAt: START, stepId, setId: 'step' })
    },
    clicks(jointId: string, pass: number, wrenchId: string, value: number, positions: number[]) {
      does({ type: 'EnterScale', jointId, pass, wrenchId, value })
      for (const position of positions)
        does({ type: 'TakeReading', jointId, position, pass, how: 'clicked', wrenchId })
    },
  }
}

export type Bench = ReturnType<typeof benchWith>
