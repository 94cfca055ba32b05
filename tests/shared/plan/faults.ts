/** A plan of one joint, and what is wrong with a plan. */
import { expect } from 'vitest'
import { readPlan } from '../../../shared/plan/schema'
import type { Joint, PlanStep } from '../../../shared/plan/types'
import { joint, planOf, step } from '../../shop/plan'
import { figures } from '../../shop/words'

/** The one fault of a plan, as a sentence for its file: place, problem, fix. */
export function onlyFault(value: unknown): string {
  const read = readPlan(value, figures)
  const faults = 'faults' in read ? read.faults : []
  expect(faults).toHaveLength(1)
  return `${faults[0]?.path}: ${faults[0]?.problem}. ${faults[0]?.inFile ?? faults[0]?.fix}`
}

/** A plan of one step with one joint. */
export const withJoint = (more: Partial<Joint>, other: Partial<PlanStep> = {}) =>
  planOf(step('A1', { joints: [joint('J1', more)], ...other }))
