/** A job played through the real `decide`, from acts or from events; what is refused stops the test. */
import type { Context } from '../../shared/job/context'
import { decide } from '../../shared/job/decide'
import type { JobEvent } from '../../shared/job/events'
import { evolveAll } from '../../shared/job/evolve'
import type { Job } from '../../shared/job/types'
import { isRefusal } from '../../shared/log'
import type { Shop } from '../../shared/shop/types'
import type { Act, Given } from './acts'
import { uuid } from './ids'
import { MINUTE, START } from './time'

const isAct = (given: Act | JobEvent): given is Act => 'command' in given

export function contextOf(act: Act, count: number, shop: Shop): Context {
  const { command: _, at = count, ...rest } = act
  return { shop, commandId: uuid(count), through: 'sign_in', ...rest, doneAt: START + at * MINUTE }
}

/** The job after all that; `count` goes on for the next command's id and minute. */
export function run(
  start: Job,
  happened: readonly Given[],
  shop: Shop,
  from = 1,
): { job: Job; count: number } {
  let job = start
  let count = from
  for (const one of happened.flat(9) as (Act | JobEvent)[]) {
    if (isAct(one)) {
      const outcome = decide(job, one.command, contextOf(one, count, shop))
      if (isRefusal(outcome))
        throw new Error(`given, but refused: ${outcome.refused} ${JSON.stringify(outcome.data)}`)
      job = evolveAll(job, outcome)
    } else job = evolveAll(job, [one])
    count += 1
  }
  return { job, count }
}
