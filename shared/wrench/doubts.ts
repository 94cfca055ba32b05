/** The wrench as a fact keeps it, and why it would be doubted at a number on its scale. */

import type { Flag } from '../job/kinds'
import type { WrenchThen } from '../job/types'
import type { Instant } from '../log'
import type { Wrench } from '../shop/types'

/** The wrench as an event keeps it. */
export function wrenchThen(wrench: Wrench): WrenchThen {
  const { id, kind, unit, min, max, state } = wrench
  return {
    id,
    kind,
    unit,
    min,
    max,
    state,
    ...(wrench.lastCheckedAt === undefined ? {} : { lastCheckedAt: wrench.lastCheckedAt }),
    ...(wrench.dueAt === undefined ? {} : { dueAt: wrench.dueAt }),
  }
}

/** Reasons to doubt a wrench at this number on its scale, at this moment. */
export function wrenchDoubts(wrench: WrenchThen | undefined, value: number | undefined, at: Instant): Flag[] {
  if (!wrench) return ['wrench_unknown']
  const flags: Flag[] = []
  if (value !== undefined && (value < wrench.min || value > wrench.max)) flags.push('wrench_out_of_range')
  if (wrench.dueAt !== undefined && at > wrench.dueAt) flags.push('wrench_out_of_date')
  if (wrench.state !== 'in_service') flags.push('wrench_failed')
  return flags
}
