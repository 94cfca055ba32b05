/**
 * A step of a plan turned into what a person would send for it: claim, fasteners, scales, heads, clocks,
 * measurements, gates, signatures, each at its time.
 *
 * Written from the plan alone, never from the answers: the desk decides each command when it comes, and one
 * that is refused is a mistake in the script.
 */
import type { JobCommand } from '../shared/job/commands'
import type { Instant } from '../shared/log'
import { roundOf, type SignatureSetView, signatureSets } from '../shared/plan/read'
import type { Gate, Joint, Measurement, PlanStep } from '../shared/plan/types'
import type { Wrench } from '../shared/shop/types'
import { fromNm, roundTo, type TorqueUnit } from '../shared/units'
import type { ShopClock } from './clock'
import { type Picture, portDrawing } from './pictures'

const SECOND = 1000
const MINUTE = 60 * SECOND

export interface Sent {
  at: Instant
  person: string
  command: JobCommand
}

export interface Work {
  step: PlanStep
  jobId: string
  doer: string
  day: number
  time: string
  clock: ShopClock
  /** The crib as it hangs at that moment. */
  crib: readonly Wrench[]
}

export interface How {
  /** Who looks, for every set or set by set; a set not named gets no second signature. */
  second?: string | Record<string, string>
  /** Measurements the scenario names, by id; one for each place. */
  values?: Record<string, number[]>
  instruments?: Record<string, string>
  /**
   * Times the scenario names: `bead`, `G-D1/4` (the first head of that pass, or its count), `G-B4 6/3` (one head
   * of it), `second`, `second cap-1`.
   */
  pins?: Record<string, string>
  /** Named sets in the order they were worked at; the step's own comes last. */
  setOrder?: string[]
  leaveOut?: { joint: string; position: number; due: string; reason: string; at: string }
  /** Yes to hiding class B and C work that is not proven. */
  hidesKnowingly?: true
}

export interface StopAt {
  joint: string
  fullPasses: number
  /** Of the pass after those, up to and with this position. */
  through: number
  at: string
  note?: string
  pins?: Record<string, string>
}

/** Claims, does, signs and has it second-signed. */
export function doStep(work: Work, how: How): { sent: Sent[]; pictures: Picture[] } {
  const { step, jobId } = work
  const stepId = step.id
  const script = new Script(work, how.pins ?? {})
  const pictures: Picture[] = []
  const { second, hidesKnowingly } = how
  script.add({ type: 'ClaimStep', stepId, ...(hidesKnowingly ? { hidesKnowingly } : {}) }, 2 * MINUTE)
  declareFasteners(script, step)
  if (step.sealant) {
    script.goTo('bead')
    script.add({ type: 'StartSealant', stepId }, 30 * SECOND)
  }
  for (const set of inOrder(signatureSets(step), how.setOrder)) {
    tightenSet(script, work, set, how)
    if (set.remainder) {
      if (step.sealant) script.add({ type: 'CloseSealant', stepId }, 20 * SECOND)
      for (const one of step.measurements)
        measure(script, stepId, one, how.values?.[one.id], how.instruments?.[one.id])
      for (const gate of step.gates) pictures.push(...answerGate(script, jobId, stepId, gate))
    }
    const looker = step.signatures === 2 ? lookerOf(second, set.id) : undefined
    const looksAt = script.pinned(`second ${set.id}`) ?? script.pinned('second')
    // Reading the hands alone takes minutes; the step took what the plan says, or nearly.
    if (set === signatureSets(step).at(-1) && looksAt === undefined)
      script.notBefore(script.began + step.minutes.likely * 0.8 * MINUTE)
    script.add({ type: 'SignStep', stepId, setId: set.id }, 30 * SECOND)
    if (looker)
      script.addAt(looksAt ?? script.now + 4 * MINUTE, looker, {
        type: 'SecondSignStep',
        stepId,
        setId: set.id,
      })
  }
  return { sent: script.list, pictures }
}

/** Claims, tightens a joint as far as told, and leaves it there. */
export function beginJoint(
  work: Work,
  { joint: jointId, fullPasses, through, at, note, pins }: StopAt,
): Sent[] {
  const { step } = work
  const joint = step.joints.find(({ id }) => id === jointId)
  if (!joint) throw new Error(`Step ${step.id} has no joint ${jointId}.`)
  const { positions } = roundOf(step, jointId, through)
  const script = new Script(work, { ...pins, stop: at })
  script.add({ type: 'ClaimStep', stepId: step.id }, 2 * MINUTE)
  declareFasteners(script, step)
  for (let pass = 1; pass <= fullPasses; pass++) tighten(script, work, joint, pass, positions)
  tighten(script, work, joint, fullPasses + 1, positions.slice(0, positions.indexOf(through) + 1))
  script.goTo('stop')
  script.add({ type: 'PutDownStep', stepId: step.id, ...(note ? { note } : {}) }, 0)
  return script.list
}

/** Commands one after the other, each a while after the one before. */
class Script {
  readonly list: Sent[] = []
  readonly began: Instant
  now: Instant
  constructor(
    private readonly work: Work,
    private readonly pins: Record<string, string>,
  ) {
    this.began = work.clock.at(work.day, work.time)
    this.now = this.began
  }
  wait(ms: number) {
    this.now += ms
  }
  notBefore(at: Instant) {
    this.now = Math.max(this.now, at)
  }
  pinned(name: string): Instant | undefined {
    const time = this.pins[name]
    return time === undefined ? undefined : this.work.clock.at(this.work.day, time)
  }
  goTo(name: string) {
    const at = this.pinned(name)
    if (at === undefined) return
    if (at < this.now)
      throw new Error(`${this.work.jobId} ${this.work.step.id}: the work is past ${name} ${this.pins[name]}.`)
    this.now = at
  }
  add(command: JobCommand, takesMs: number) {
    this.list.push({ at: this.now, person: this.work.doer, command })
    this.now += takesMs
  }
  addAt(at: Instant, person: string, command: JobCommand) {
    this.list.push({ at, person, command })
  }
}

const lookerOf = (second: How['second'], setId: string): string | undefined =>
  typeof second === 'string' ? second : second?.[setId]

function inOrder(
  sets: readonly SignatureSetView[],
  order: string[] | undefined,
): readonly SignatureSetView[] {
  if (!order) return sets
  const place = ({ id, remainder }: SignatureSetView) => (remainder ? order.length : order.indexOf(id))
  return [...sets].sort((a, b) => place(a) - place(b))
}

/** What is one-use or counted is said to be new, or tightened before, ahead of its first pass. */
function declareFasteners(script: Script, step: PlanStep) {
  for (const joint of step.joints) {
    if (joint.use.kind === 'reusable' || joint.recheckOf) continue
    const positions = joint.positions.map(({ n }) => n)
    // Bolts with a count have had one tightening: the trial fit that gave the clearance.
    const fitted =
      joint.use.kind === 'one_use'
        ? ({ condition: 'new' } as const)
        : ({ condition: 'reused', cycle: 2 } as const)
    script.add({ type: 'PlaceFasteners', jointId: joint.id, positions, ...fitted }, 5 * SECOND)
  }
}

function tightenSet(script: Script, work: Work, set: SignatureSetView, { leaveOut }: How) {
  for (const cover of set.covers) {
    const joint = work.step.joints.find(({ id }) => id === cover.joint)
    const [first] = cover.positions
    if (!joint || first === undefined) continue
    const { positions: all } = roundOf(work.step, joint.id, first)
    const left = leaveOut?.joint === joint.id ? leaveOut : undefined
    const positions = all.filter((n) => n !== left?.position)
    for (let pass = 1; pass <= joint.passes.length; pass++) tighten(script, work, joint, pass, positions)
    if (left)
      script.addAt(work.clock.at(work.day, left.at), work.doer, {
        type: 'Defer',
        what: { kind: 'fasteners', joint: joint.id, positions: [left.position] },
        dueStepId: left.due,
        reason: left.reason,
      })
    if (left) script.notBefore(work.clock.at(work.day, left.at) + MINUTE)
  }
}

/** One pass over some positions, with the plan's wrench or another of the crib that fits. */
function tighten(
  script: Script,
  { crib, step }: Work,
  joint: Joint,
  pass: number,
  positions: readonly number[],
) {
  const asked = joint.passes[pass - 1]
  const at = { jointId: joint.id, pass }
  const each = (rest: { how: 'clicked' | 'turned' | 'slackened'; wrenchId?: string; value?: number }) => {
    script.goTo(`${joint.id}/${pass}`)
    for (const position of positions) {
      script.goTo(`${joint.id} ${position}/${pass}`)
      script.add({ type: 'TakeReading', ...at, position, ...rest }, 12 * SECOND)
    }
  }
  if (asked?.kind === 'wait') return script.wait(asked.minutes * MINUTE)
  if (asked?.kind === 'slacken') return each({ how: 'slackened' })
  if (asked?.kind === 'angle')
    return each({ how: 'turned', wrenchId: asked.wrench ?? 'AG-02', value: asked.angleDeg })
  if (asked?.kind !== 'torque') throw new Error(`${step.id} ${joint.id} has no pass ${pass}.`)
  const torqueNm = asked.torqueNm ?? SETTLED_NM[joint.id]
  if (torqueNm === undefined)
    throw new Error(`${joint.id} pass ${pass} has no published value; settle it before its step.`)
  const wrench = wrenchFor(torqueNm, asked.wrench, crib)
  const value = roundTo(fromNm(torqueNm, wrench.unit as TorqueUnit), wrench.increment ?? 0.1)
  script.add({ type: 'EnterScale', ...at, wrenchId: wrench.id, value }, 40 * SECOND)
  if (joint.class === 'A' || positions.length === 1) return each({ how: 'clicked', wrenchId: wrench.id })
  // Class B and C in one press, with the count.
  script.wait(positions.length * 6 * SECOND)
  script.goTo(`${joint.id}/${pass}`)
  script.add({ type: 'CountRound', ...at, wrenchId: wrench.id, count: positions.length }, 0)
}

/** What Odile settled where nothing is published; entered before the step that needs it. */
export const SETTLED_NM: Readonly<Record<string, number>> = { 'G-F6': 12 }

function wrenchFor(torqueNm: number, named: string | undefined, crib: readonly Wrench[]): Wrench {
  const fits = ({ kind, unit, min, max, state }: Wrench) => {
    if (kind !== 'click' || unit === 'deg' || state !== 'in_service') return false
    const setting = fromNm(torqueNm, unit)
    return setting >= min && setting <= max
  }
  const wrench = crib.find((one) => one.id === named && fits(one)) ?? crib.find(fits)
  if (!wrench) throw new Error(`No wrench of the crib reaches ${torqueNm} N·m.`)
  return wrench
}

export function measure(
  script: Script,
  stepId: string,
  asked: Measurement,
  told: number[] | undefined,
  with_: string | undefined,
) {
  const instrument = with_ ?? asked.instrument ?? 'by eye'
  for (const [index, place] of asked.places.entries()) {
    const value = told?.[index] ?? within(asked, index)
    script.add(
      { type: 'TakeMeasurement', stepId, measurementId: asked.id, place, value, instrument },
      20 * SECOND,
    )
  }
}

/** Well inside the limits, and not the same number at every place. */
function within({ min, max }: Measurement, index: number): number {
  const spread = 0.05 * ((index * 7) % 5)
  if (min !== undefined && max !== undefined) return roundTo(min + (max - min) * (0.4 + spread), 0.001)
  if (min !== undefined) return roundTo(min * (1.2 + spread), 0.01)
  if (max !== undefined) return roundTo(max * (0.4 + spread), 0.001)
  return 1
}

/** Cures and what is reckoned from signatures are not answered by hand. */
function answerGate(script: Script, jobId: string, stepId: string, gate: Gate): Picture[] {
  const { id: gateId, kind } = gate
  if (kind === 'count') script.add({ type: 'AnswerGate', stepId, gateId, count: gate.expect }, 30 * SECOND)
  if (kind === 'look') script.add({ type: 'AnswerGate', stepId, gateId }, 30 * SECOND)
  if (kind !== 'photo') return []
  return gate.places.map((place, index) => {
    const picture = portDrawing({ id: `${jobId}-${stepId}-${index + 1}`, stepId, gateId, place })
    script.add({ type: 'AddPhoto', photo: picture.photo }, 5 * SECOND)
    script.add({ type: 'ConfirmPhoto', photoId: picture.photo.id }, 10 * SECOND)
    return picture
  })
}
