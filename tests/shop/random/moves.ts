/**
 * A shop full of people who do anything at all, but mostly something that makes sense.
 *
 * A history is a list of moves drawn by fast-check; each is read against the job as it stands, so that steps
 * do get finished, signed, second-signed, covered and disturbed again, and shrinking still works. About a
 * quarter of the moves are wild: names that do not exist, other people's steps, absurd numbers.
 */
import fc from 'fast-check'
import type { JobCommand } from '../../../shared/job/commands'
import type { Context } from '../../../shared/job/context'
import type { Job, PlannedJob } from '../../../shared/job/types'
import {
  setViews,
  standingMeasurement,
  standingOf,
  stepState,
  takesReading,
} from '../../../shared/job/verdicts'
import { roundOf } from '../../../shared/plan/read'
import type { AdoptedStep } from '../../../shared/plan/types'
import { uuid } from '../ids'
import { people } from '../people'
import { testPlan } from '../plans/test-engine'
import { contextOf } from '../run'
import { testShop } from '../shop'
import { crib } from '../wrenches'

export interface Move {
  who: string
  kind: (typeof KINDS)[number]
  /** Two choices and a number; what they choose depends on the move. */
  a: number
  b: number
  value: number
  minutes: number
  grant: boolean
}

const KINDS = [
  'claim',
  'put down',
  'scale',
  'work',
  'work',
  'work',
  'work on',
  'work on',
  'put right',
  'measure',
  'answer',
  'sign',
  'sign',
  'second',
  'second',
  'strike',
  'wild',
  'wild reading',
] as const

const hands = ['ana', 'ana', 'ana', 'bo', 'bo', 'cy', 'dee', 'wim']

export const moveArbitrary: fc.Arbitrary<Move> = fc.record({
  who: fc.constantFrom(...hands),
  kind: fc.constantFrom(...KINDS),
  a: fc.nat(1000),
  b: fc.nat(1000),
  value: fc.double({ min: 0, max: 1_000_000, noNaN: true }),
  minutes: fc.nat(40),
  grant: fc.boolean(),
})

/** Long enough that engines get finished, and often short enough to read. */
export const historyArbitrary = fc.array(moveArbitrary, { minLength: 1, maxLength: 300, size: 'max' })

export const pick = <T>(list: readonly T[], n: number): T | undefined => list[n % Math.max(1, list.length)]
export const strange = ['none', 'constructor', '__proto__', 'toString', '']

/** The commands a move comes to; `work on` is a whole round in one go. */
export function commandsOf(job: Job, move: Move): JobCommand[] {
  if (!job.plan) return [{ type: 'AdoptPlan', planId: testPlan.id, edition: 1 }]
  const planned = job as PlannedJob
  const { steps } = planned.plan
  const { who, a, b, value } = move
  const mine = steps.filter(({ id }) => stepState(planned, id).claim?.by === who)
  const step = pick(mine, a) ?? pick(steps, b)
  if (!step) return []
  const stepId = step.id
  // Who holds nothing mostly keeps their hands off.
  if (
    mine.length === 0 &&
    ['scale', 'work', 'work on', 'sign', 'put right'].includes(move.kind) &&
    b % 8 !== 0
  )
    return []
  switch (move.kind) {
    case 'claim': {
      const ready = steps.filter((one) => standingOf(planned, one) === 'ready')
      return [{ type: 'ClaimStep', stepId: (pick(ready, a) ?? step).id }]
    }
    case 'put down':
      return a % 4 === 0 ? [{ type: 'PutDownStep', stepId }] : []
    case 'scale': {
      const next = nextReading(planned, step)
      if (!next) return []
      const target = next.band?.kind === 'torque' ? (next.band.minNm + next.band.maxNm) / 2 : 12
      const wrenchId = b % 5 === 0 ? 'foot' : 'click'
      return [{ type: 'EnterScale', jointId: next.jointId, pass: next.pass, wrenchId, value: target }]
    }
    case 'work': {
      const next = nextReading(planned, step)
      return next ? [next.command(b)] : []
    }
    case 'work on': {
      const next = nextReading(planned, step)
      const rest = next ? next.round.slice(next.round.indexOf(next.position)) : []
      return next ? rest.map((position) => ({ ...next.command(1), position })) : []
    }
    case 'put right': {
      const flagged = pick(
        setViews(planned, step).flatMap((view) => view.flagged),
        b,
      )
      if (!flagged) return []
      const { joint: jointId, position } = flagged
      return [{ type: 'TakeReading', jointId, position, pass: 1, how: 'slackened' }]
    }
    case 'measure': {
      const open = step.measurements.flatMap(({ id, places, min = 0, max = 1 }) =>
        places
          .filter((place) => b % 7 === 0 || !standingMeasurement(stepState(planned, stepId), id, place))
          .map((place) => ({ measurementId: id, place, value: b % 11 === 0 ? max + 1 : (min + max) / 2 })),
      )
      return open.map((one) => ({ type: 'TakeMeasurement', stepId, ...one, instrument: 'feeler' }))
    }
    case 'answer':
      return [pick(step.gates, a)]
        .filter((gate) => gate !== undefined)
        .filter(({ kind }) => kind === 'count' || kind === 'look' || b % 5 === 0)
        .map((gate) =>
          gate.kind === 'count'
            ? { type: 'AnswerGate', stepId, gateId: gate.id, count: b % 9 === 0 ? 3 : gate.expect }
            : { type: 'AnswerGate', stepId, gateId: gate.id },
        )
    case 'sign': {
      const unsigned = setViews(planned, step).filter(({ state }) => !state.first)
      return unsigned.map(({ set }) => ({ type: 'SignStep', stepId, setId: set.id }))
    }
    case 'second': {
      const waiting = steps.flatMap((one) =>
        setViews(planned, one)
          .filter(({ state }) => one.signatures === 2 && state.first && !state.second)
          .map(({ set }) => ({ stepId: one.id, setId: set.id })),
      )
      if (waiting.length === 0 && b % 8 !== 0) return []
      return [{ type: 'SecondSignStep', ...(pick(waiting, a) ?? { stepId }) }]
    }
    case 'strike': {
      if (a % 4 !== 0) return []
      const entries = steps.flatMap(({ id }) => stepState(planned, id).measurements)
      const entry = pick(entries, b)
      if (b % 2 === 0 && entry) return [{ type: 'StrikeMeasurement', entryId: entry.id, reason: 'mistyped' }]
      const reading = pick(Object.values(job.readings).flat(), b)
      return reading ? [{ type: 'StrikeReading', readingId: reading.id, reason: 'mistyped' }] : []
    }
    case 'wild reading':
      return a % 8 === 0 ? [wildReading(planned, move)] : []
    case 'wild':
      return wild(step, a, b, value)
  }
}

/** The next reading a step asks for, taken as it should be. */
export function nextReading(job: PlannedJob, step: AdoptedStep) {
  const [open] = setViews(job, step).flatMap((view) => view.open)
  const joint = step.joints.find(({ id }) => id === open?.joint)
  if (!open || !joint) return undefined
  const round = roundOf(step, joint.id, open.position).positions
  const done = (n: number, pass: number) =>
    job.readings[joint.id]?.some((r) => r.position === n && r.pass === pass && !r.struck && !r.superseded)
  const going = joint.passes.findIndex(
    (_, index) => takesReading(joint, index + 1) && round.some((n) => !done(n, index + 1)),
  )
  const pass = going < 0 ? open.nextPass - 1 : going
  const position = round.find((n) => !done(n, pass + 1)) ?? open.position
  const asked = joint.passes[pass]
  const band = joint.bands[pass] ?? null
  const at = { type: 'TakeReading', jointId: joint.id, position, pass: pass + 1 } as const
  const command = (how: number): JobCommand => {
    if (asked?.kind === 'slacken') return { ...at, how: 'slackened' }
    if (asked?.kind === 'angle')
      return { ...at, how: 'turned', wrenchId: 'gauge', value: how % 13 === 0 ? 120 : asked.angleDeg }
    if (how % 6 === 0) return { ...at, how: 'clicked', wrenchId: how % 12 === 0 ? 'foot' : 'click' }
    const middle = band?.kind === 'torque' ? (band.minNm + band.maxNm) / 2 : 12
    return { ...at, how: 'indicated', wrenchId: 'dial', value: how % 17 === 0 ? middle * 1.4 : middle }
  }
  return { jointId: joint.id, pass: pass + 1, position, band, round, command }
}

/** A reading of something that exists, in whatever way. */
export function wildReading(
  job: PlannedJob,
  { a, b, value }: Move,
): Extract<JobCommand, { type: 'TakeReading' }> {
  const joints = job.plan.steps.flatMap(({ joints: some }) => some)
  const joint = pick(joints, a) as (typeof joints)[number]
  const how = pick(['clicked', 'indicated', 'turned', 'slackened'] as const, a + b) ?? 'clicked'
  const wrenchId = pick([...Object.keys(crib), undefined, ...strange], a * 7 + b)
  return {
    type: 'TakeReading',
    jointId: joint.id,
    position: pick(joint.positions, b)?.n ?? 1,
    pass: (a % joint.passes.length) + 1,
    how,
    ...(wrenchId === undefined ? {} : { wrenchId }),
    ...(how === 'clicked' || how === 'slackened' ? {} : { value }),
    ...(b % 3 === 0 ? { readsSo: true } : {}),
  }
}

/** Names that may not exist, numbers that make no sense. */
function wild(step: AdoptedStep, a: number, b: number, value: number): JobCommand[] {
  const stepId = a % 3 === 0 ? (pick(strange, b) ?? '') : step.id
  const name = pick(strange, a) ?? ''
  const jointId = b % 3 === 0 ? name : (step.joints[0]?.id ?? name)
  const all: JobCommand[] = [
    { type: 'OpenJob', number: name, engine: { model: name, serial: '' }, owner: name, agreed: name },
    { type: 'AdoptPlan', planId: name, edition: a },
    { type: 'ClaimStep', stepId },
    { type: 'PutDownStep', stepId },
    {
      type: 'EnterScale',
      jointId,
      pass: a % 5,
      wrenchId: pick([...Object.keys(crib), ...strange], a) ?? '',
      value,
    },
    {
      type: 'EnterScale',
      jointId,
      pass: 1,
      wrenchId: 'click',
      value,
      adapter: { wrenchMm: 1 + (a % 500), adapterMm: b, angleDeg: a % 361 },
    },
    { type: 'TakeReading', jointId, position: b % 6, pass: a % 6, how: 'indicated', wrenchId: name, value },
    { type: 'TakeReading', jointId, position: 1, pass: 1, how: 'turned' },
    { type: 'StrikeReading', readingId: name, reason: name },
    {
      type: 'TakeMeasurement',
      stepId,
      measurementId: b % 2 ? 'gap' : name,
      place: name,
      value: -value,
      instrument: '',
    },
    { type: 'StrikeMeasurement', entryId: name, reason: name },
    { type: 'AnswerGate', stepId, gateId: b % 2 ? 'picture' : name, count: a },
    { type: 'SignStep', stepId, ...(b % 2 ? { setId: name } : {}) },
    { type: 'SecondSignStep', stepId, ...(b % 2 ? { setId: name } : {}) },
  ]
  const one = pick(all, b)
  return one ? [one] : []
}

export function contextFor(job: Job, move: Move, count: number, at: number): Context {
  const { grant, who, a } = move
  return {
    ...contextOf({ command: { type: 'PutDownStep', stepId: '' }, by: who, at }, count, testShop),
    commandId: uuid(count),
    ...(grant ? { through: 'grant', sawVersion: Math.max(0, job.version - (a % 4)) } : {}),
  }
}

export const everybody = Object.keys(people)
