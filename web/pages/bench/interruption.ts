/**
 * A round that was broken off: what its rule asks before the work goes on, and the presses that record it. Pure.
 *
 * Doing more than the rule asks is always right: slackened instead of again, new fasteners instead of slackened.
 */

import { asksInWords } from '../../../shared/job/ask-words'
import { RESTARTS, type RestartHow } from '../../../shared/job/kinds'
import type { PlannedJob, StoppedAt } from '../../../shared/job/types'
import { kindsOf } from '../../../shared/kinds'
import { numberWords } from '../../../shared/plan/order'
import type { Round } from './work'

interface RestartWay {
  how: RestartHow
  /** The words on its press: a thing that was done. */
  done: string
}

export interface BrokenOff {
  mark: StoppedAt
  title: string
  /** `Stopped in pass 2, bolt 5 next.` */
  where: string
  /** What the rule asks, as a whole sentence. */
  asks: string
  /** The one the rule asks first, then those that do more. */
  ways: RestartWay[]
  /** What happens to readings without it. */
  without: string
}

const WAYS = kindsOf(RESTARTS)

/** The open interruption of this round, if its rule asks for anything; one cap does not hold up another. */
export function brokenOff(job: PlannedJob, round: Round): BrokenOff | undefined {
  const { joint } = round
  const mark = job.interrupted[joint.id]?.find(({ positions }) =>
    positions.some((position) => round.positions.includes(position)),
  )
  if (!mark || mark.asks === 'nothing') return undefined
  return {
    mark,
    title: `Interrupted: ${joint.title}`,
    where: `Interrupted in pass ${mark.pass} of ${joint.passes.length}; ${joint.fastener} ${numberWords(joint, mark.position)} was next.`,
    asks: `The plan says: ${asksInWords(mark)}.`,
    ways: WAYS.slice(WAYS.indexOf(mark.asks)).map((how) => ({
      how,
      done: RESTARTS[how].done(mark.pass, joint.fastener),
    })),
    without: 'Unless that is done, readings are flagged and stop the signature.',
  }
}
