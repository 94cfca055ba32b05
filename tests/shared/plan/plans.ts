/** Plans for tests: the two of the demo shop as files, and a small one that a test bends as it needs. */
import { expect } from 'vitest'
import orrath from '../../../seed/plans/orrath-q31.json'
import ottersby from '../../../seed/plans/ottersby-s9.json'
import { readPlan } from '../../../shared/plan/schema'
import type { Joint, Plan, PlanStep } from '../../../shared/plan/types'

export const orrathQ31 = (): Plan => mustRead(orrath)
export const ottersbyS9 = (): Plan => mustRead(ottersby)

function mustRead(value: unknown): Plan {
  const read = readPlan(value)
  if ('faults' in read) throw new Error(JSON.stringify(read.faults, null, 2))
  return read.plan
}

export function joint(id: string, more: Partial<Joint> = {}): Joint {
  return {
    id,
    title: `Bolts ${id}`,
    fastener: 'bolt',
    thread: 'M8x1.25',
    grade: '8.8',
    lubrication: 'dry',
    class: 'B',
    use: { kind: 'reusable' },
    positions: [1, 2, 3, 4].map((n) => ({ n, x: n * 20, y: 0 })),
    passes: [{ kind: 'torque', torqueNm: 22 }],
    interruption: { torqueOnly: 'restart_pass' },
    ...more,
  }
}

export function step(id: string, more: Partial<PlanStep> = {}): PlanStep {
  return {
    id,
    stage: 'A',
    title: `Step ${id}`,
    kind: 'tighten',
    needs: [],
    hides: [],
    minutes: { low: 1, likely: 2, high: 3 },
    signatures: 1,
    joints: [],
    measurements: [],
    parts: [],
    gates: [],
    ...more,
  }
}

export function plan(...steps: PlanStep[]): Plan {
  return {
    format: 'paintmark-plan/1',
    id: 'small',
    edition: 1,
    title: 'Small plan',
    family: 'diesel',
    source: 'Made up for a test.',
    stages: [{ id: 'A', title: 'All of it' }],
    steps,
  }
}

/** The one fault of a plan, as a sentence: place, problem, fix. */
export function onlyFault(value: unknown): string {
  const read = readPlan(value)
  const faults = 'faults' in read ? read.faults : []
  expect(faults).toHaveLength(1)
  return `${faults[0]?.path}: ${faults[0]?.problem}. ${faults[0]?.fix}`
}

/** A plan of one step with one joint. */
export const withJoint = (more: Partial<Joint>, other: Partial<PlanStep> = {}) =>
  plan(step('A1', { joints: [joint('J1', more)], ...other }))
