/** A plan to be looked at, apart from any job: what it amounts to, its maps, its rules in words. */
import { counts } from '../../../shared/plan/counts'
import type { Interruption, Joint, Plan, PlanStep } from '../../../shared/plan/types'
import { counted, nounFor } from '../../../shared/words'
import type { Head } from '../../drawings/heads'
import { format } from '../../format'

/** The numbers a shop plans with, most telling first. */
export function figuresOf(plan: Plan): { figure: string; of: string }[] {
  const all = counts(plan)
  return [
    { figure: `${all.steps}`, of: nounFor(all.steps, 'step') },
    { figure: `${all.fasteners}`, of: nounFor(all.fasteners, 'fastener') },
    { figure: `${all.byClass.A}`, of: 'of class A' },
    { figure: `${all.byClass.B}`, of: 'of class B' },
    { figure: `${all.byClass.C}`, of: 'of class C' },
    { figure: `${all.oneUse}`, of: 'one-use' },
    { figure: `${all.entries}`, of: `${nounFor(all.entries, 'entry', 'entries')} at the bench` },
    { figure: `${all.secondSignatures}`, of: nounFor(all.secondSignatures, 'second signature') },
    { figure: format.duration(all.minutes.likely), of: 'likely' },
  ]
}

export const cautionWords = (n: number): string => (n === 0 ? 'no cautions' : counted(n, 'caution'))

/** The joint's heads as planned, none of them touched. */
export function plannedHeads(joint: Joint): Head[] {
  const turn = new Map(joint.order?.map((n, index) => [n, index + 1]))
  const renumbered = [...turn].some(([n, place]) => n !== place)
  return joint.positions.map(({ n, label }) => {
    const beside = [renumbered ? `no. ${n}` : '', label ?? ''].filter(Boolean).join(' · ')
    return { n, figure: `${turn.get(n) ?? n}`, ...(beside ? { label: beside } : {}), state: 'open' }
  })
}

export function mapLabel(joint: Joint): string {
  const order = joint.order ? `tightened in the order ${joint.order.join(', ')}` : 'in any order'
  return `${joint.title}: ${counted(joint.positions.length, 'position')}, ${order}`
}

/** What to do when a round is broken off or an angle overshot. */
export function interruptionWords({ torqueOnly, afterAngle, overshootDeg }: Interruption): string {
  const torque =
    torqueOnly === 'restart_pass'
      ? 'Interrupted: start the pass again.'
      : 'Interrupted: slacken, and start the joint again.'
  if (!afterAngle) return torque
  const angle = afterAngle === 'new_fasteners' ? 'new fasteners' : 'slacken, and start the joint again'
  const over =
    overshootDeg === undefined ? '' : `, or turned more than ${format.number(overshootDeg)}° too far`
  return `${torque} Once an angle is turned${over}: ${angle}.`
}

export const stepsOf = (plan: Plan, stageId: string): PlanStep[] =>
  plan.steps.filter(({ stage }) => stage === stageId)
