/**
 * May this bolt be fitted again: one-use and cycle limits, and stretch by length, by neck or by the torque it still takes.
 *
 * Limits are the maker's and are given; nothing is assumed. What was measured is said beside the verdict.
 */
import { impossible, partsOf, shown } from './numbers'
import { type FastenerRefusal, no } from './refusals'

export type FastenerUse = { kind: 'reusable' } | { kind: 'one_use' } | { kind: 'cycles'; limit: number }

export interface UseCheck {
  mayFit: boolean
  why: 'free' | 'first_use' | 'one_use_spent' | 'cycles_left' | 'cycles_spent'
  /** Tightenings left after those done; `null` where there is no limit. */
  left: number | null
}

/** Whether a bolt tightened `cyclesDone` times may be tightened once more. Trial fits count. */
export function checkUse(use: FastenerUse, cyclesDone: number): UseCheck | FastenerRefusal {
  const fault = impossible('Tightenings done', cyclesDone, 'count')
  if (fault) return fault
  const parts = partsOf(use) as { kind?: unknown; limit?: number }
  if (parts.kind === 'reusable') return { mayFit: true, why: 'free', left: null }
  if (parts.kind === 'one_use') {
    const fresh = cyclesDone === 0
    return { mayFit: fresh, why: fresh ? 'first_use' : 'one_use_spent', left: fresh ? 1 : 0 }
  }
  if (parts.kind !== 'cycles')
    return no('number_impossible', {
      name: 'Use',
      given: shown(parts.kind),
      must: 'reusable, one-use or a cycle limit',
    })
  const limitFault = impossible('Cycle limit', parts.limit, 'count')
  if (limitFault) return limitFault
  const left = Math.max(0, (parts.limit ?? 0) - cyclesDone)
  return { mayFit: left > 0, why: left > 0 ? 'cycles_left' : 'cycles_spent', left }
}

export type StretchInput =
  /** Free length against the maker's greatest; the new length is shown beside it where it is known. */
  | { by: 'length'; measuredMm: number; maxMm: number; newMm?: number }
  /** Thread diameter at two places, near the head and near the end: the difference is limited. */
  | { by: 'neck'; upperMm: number; lowerMm: number; maxDifferenceMm: number }
  /** Thinnest diameter against the maker's least. */
  | { by: 'diameter'; measuredMm: number; minMm: number }
  /** Torque after the turn against the maker's least: a bolt that takes less has lost its strength. */
  | { by: 'torque_after_turn'; measuredNm: number; minNm: number }

export interface StretchCheck {
  by: StretchInput['by']
  reusable: boolean
  /** What is compared with the limit: a length, a difference, a diameter (mm) or a torque (N·m). */
  value: number
  limit: number
  /** How far inside the limit; negative when outside. Exactly on it is inside. */
  margin: number
  /** By length: growth against new. */
  stretchedMm?: number
}

/** Whether a bolt has stretched too far, by the rule its maker gives. On the limit is within it. mm or N·m. */
export function checkStretch(input: StretchInput): StretchCheck | FastenerRefusal {
  const parts = partsOf(input) as Record<string, unknown> & { by?: unknown }
  const number = (key: string) => parts[key] as number
  if (parts.by === 'length') {
    const fault =
      impossible('Measured length', parts.measuredMm, 'length') ??
      impossible('Longest length allowed', parts.maxMm, 'length') ??
      (parts.newMm === undefined ? undefined : impossible('New length', parts.newMm, 'length'))
    if (fault) return fault
    return {
      ...judged('length', number('measuredMm'), number('maxMm'), 'most'),
      ...(parts.newMm === undefined ? {} : { stretchedMm: tidy(number('measuredMm') - number('newMm')) }),
    }
  }
  if (parts.by === 'neck') {
    const fault =
      impossible('Upper diameter', parts.upperMm, 'length') ??
      impossible('Lower diameter', parts.lowerMm, 'length') ??
      impossible('Greatest difference', parts.maxDifferenceMm, 'length')
    return (
      fault ??
      judged('neck', Math.abs(number('upperMm') - number('lowerMm')), number('maxDifferenceMm'), 'most')
    )
  }
  if (parts.by === 'diameter') {
    const fault =
      impossible('Measured diameter', parts.measuredMm, 'length') ??
      impossible('Least diameter', parts.minMm, 'length')
    return fault ?? judged('diameter', number('measuredMm'), number('minMm'), 'least')
  }
  if (parts.by === 'torque_after_turn') {
    const fault =
      impossible('Torque after the turn', parts.measuredNm, 'torque') ??
      impossible('Least torque', parts.minNm, 'torque')
    return fault ?? judged('torque_after_turn', number('measuredNm'), number('minNm'), 'least')
  }
  return no('number_impossible', {
    name: 'Way of measuring',
    given: shown(parts.by),
    must: 'by length, neck, diameter or torque after the turn',
  })
}

/** To a nanometre: what a float adds below that is not the bolt's. */
const tidy = (value: number) => Math.round(value * 1e6) / 1e6

function judged(by: StretchInput['by'], raw: number, limit: number, side: 'most' | 'least'): StretchCheck {
  const value = tidy(raw)
  const margin = tidy(side === 'most' ? limit - value : value - limit)
  return { by, reusable: margin >= 0, value, limit, margin }
}
