/**
 * A whole build of the demo engine as the commands two people would send: claim, set the wrench, every
 * fastener in every pass in its order, measurements, looks and counts, both signatures. In the middle of the
 * band throughout, so that hardly a flag stands.
 */

import type { JobCommand, TakeReading } from '../../../shared/job/commands'
import { positionsOf, roundOf, signatureSets } from '../../../shared/plan/read'
import type { Joint, Measurement, Plan, PlanStep } from '../../../shared/plan/types'
import { DIAL } from './shop'

export interface Sent {
  by: 'doer' | 'second'
  command: JobCommand
}

export function wholeBuild(plan: Plan): Sent[] {
  return plan.steps.flatMap((step) => [...stepOf(step)])
}

function* stepOf(step: PlanStep): Generator<Sent> {
  const stepId = step.id
  const doer = (command: JobCommand): Sent => ({ by: 'doer', command })
  yield doer({ type: 'ClaimStep', stepId })
  for (const set of signatureSets(step)) {
    for (const { joint: jointId, positions } of set.covers) {
      const joint = step.joints.find(({ id }) => id === jointId)
      const [first] = positions
      if (!joint || first === undefined) continue
      const members = new Set(positions)
      const round = roundOf(step, jointId, first).positions.filter((n) => members.has(n))
      for (const command of passesOver(joint, round)) yield doer(command)
    }
    if (set.remainder) {
      for (const measurement of step.measurements)
        for (const place of measurement.places) {
          const value = middleOf(measurement)
          const instrument = measurement.instrument ?? 'rule'
          yield doer({
            type: 'TakeMeasurement',
            stepId,
            measurementId: measurement.id,
            place,
            value,
            instrument,
          })
        }
      for (const gate of step.gates)
        if (gate.kind === 'look') yield doer({ type: 'AnswerGate', stepId, gateId: gate.id })
        else if (gate.kind === 'count')
          yield doer({ type: 'AnswerGate', stepId, gateId: gate.id, count: gate.expect })
    }
    yield doer({ type: 'SignStep', stepId, setId: set.id })
    if (step.signatures === 2)
      yield { by: 'second', command: { type: 'SecondSignStep', stepId, setId: set.id } }
  }
}

function* passesOver(joint: Joint, round: readonly number[]): Generator<JobCommand> {
  for (const [index, asked] of joint.passes.entries()) {
    const pass = index + 1
    const jointId = joint.id
    if (asked.kind === 'torque' && asked.torqueNm !== null) {
      const wrenchId = asked.wrench ?? DIAL
      yield { type: 'EnterScale', jointId, pass, wrenchId, value: asked.torqueNm }
      for (const position of round)
        yield { type: 'TakeReading', jointId, position, pass, how: 'clicked', wrenchId }
    } else if (asked.kind === 'angle') {
      const wrenchId = asked.wrench
      for (const position of round)
        yield {
          type: 'TakeReading',
          jointId,
          position,
          pass,
          how: 'turned',
          value: asked.angleDeg,
          ...(wrenchId ? { wrenchId } : {}),
        }
    } else if (asked.kind === 'slacken') {
      for (const position of round) yield { type: 'TakeReading', jointId, position, pass, how: 'slackened' }
    }
  }
}

function middleOf({ min, max }: Measurement): number {
  if (min !== undefined && max !== undefined) return Number(((min + max) / 2).toFixed(3))
  return min ?? (max === undefined ? 1 : Number((max / 2).toFixed(3)))
}

/** Every torque reading a plan has room for, each once: what fifty hands share out among them. */
export function everyReading(plan: Plan): TakeReading[] {
  return plan.steps.flatMap(({ joints }) =>
    joints.flatMap((joint) =>
      joint.passes.flatMap((asked, index) =>
        asked.kind === 'torque' && asked.torqueNm !== null
          ? positionsOf({ joint: joint.id }, joint).map(
              (position): TakeReading => ({
                type: 'TakeReading',
                jointId: joint.id,
                position,
                pass: index + 1,
                how: 'indicated',
                wrenchId: DIAL,
                value: asked.torqueNm as number,
              }),
            )
          : [],
      ),
    ),
  )
}
