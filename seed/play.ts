/**
 * Plays work at the bench through the desk: what a person would send, at the time they would have sent it.
 *
 * Only commands, never rows. A command that is refused is a mistake in the script, so it ends the play with the
 * refusal's own sentence.
 */

import { bodyHash, type Desk, type StreamName } from '../server/desk'
import type { JobCommand } from '../shared/job/types'
import type { Instant } from '../shared/log'
import { indexPlan, roundOf, type SignatureSetView, signatureSets } from '../shared/plan/read'
import type { AdoptedJoint, AdoptedPlan, AdoptedStep, Gate, Measurement } from '../shared/plan/types'
import type { ShopCommand, Wrench } from '../shared/shop/types'
import { fromNm, roundTo, type TorqueUnit } from '../shared/units'

const SECOND = 1000
const MINUTE = 60 * SECOND

export interface Play {
  send(stream: StreamName, person: string, at: Instant, commands: (JobCommand | ShopCommand)[]): Promise<void>
  /** Claims, does, signs and has it second-signed where two are asked. */
  doStep(
    jobId: string,
    stepId: string,
    doer: string,
    at: Instant,
    second?: string,
    values?: Values,
  ): Promise<void>
  /** Claims, and tightens a joint as far as told: full passes, then some positions of the next. */
  beginJoint(jobId: string, stepId: string, doer: string, at: Instant, upTo: UpTo): Promise<void>
}

/** Readings the scenario names, by measurement; one for each place. */
export type Values = Record<string, number[]>
export interface UpTo {
  joint: string
  fullPasses: number
  /** Of the pass after those, up to and with this position. */
  throughPosition: number
}

interface Entry {
  person: string
  command: JobCommand | ShopCommand
  doneAt: Instant
}

export function playThrough(desk: Desk, newId: () => string): Play {
  async function submit(stream: StreamName, entries: Entry[]) {
    // Sent without waiting, so that they share a commit; the desk keeps their order.
    const answers = entries.map(({ person, command, doneAt }) => {
      const sent = { ...command, commandId: newId(), doneAt }
      return desk.submit({
        stream,
        command: sent,
        bodyHash: bodyHash(stream, sent),
        asker: { person, through: 'sign_in' },
        receivedAt: doneAt + 400,
      })
    })
    for (const [index, answer] of (await Promise.all(answers)).entries())
      if (!answer.ok) {
        const { person, command } = entries[index] as Entry
        throw new Error(
          `${stream}, ${command.type} by ${person}: ${answer.sentence} ${JSON.stringify(command)}`,
        )
      }
  }

  async function planned(jobId: string, stepId: string) {
    const plan = (await desk.job(jobId))?.plan
    const step = plan && indexPlan<AdoptedStep>(plan as AdoptedPlan).stepById.get(stepId)
    if (!step) throw new Error(`Job ${jobId} has no step ${stepId}.`)
    const crib = Object.values((await desk.shop()).wrenches)
    return { step, crib }
  }

  return {
    send: (stream, person, at, commands) =>
      submit(
        stream,
        commands.map((command, n) => ({ person, command, doneAt: at + n * SECOND })),
      ),
    async doStep(jobId, stepId, doer, at, second, values = {}) {
      const { step, crib } = await planned(jobId, stepId)
      const entries = new Script(doer, at)
      entries.add({ type: 'ClaimStep', stepId }, 2 * MINUTE)
      declareFasteners(entries, step)
      if (step.sealant) entries.add({ type: 'StartSealant', stepId }, 30 * SECOND)
      for (const set of signatureSets(step)) {
        tightenSet(entries, step, set, crib)
        if (set.remainder) {
          if (step.sealant) entries.add({ type: 'CloseSealant', stepId }, 20 * SECOND)
          for (const one of step.measurements) measure(entries, stepId, one, values[one.id])
          for (const gate of step.gates) answerGate(entries, stepId, gate)
        }
        entries.add({ type: 'SignStep', stepId, setId: set.id }, MINUTE)
      }
      if (step.signatures === 2) {
        if (!second) throw new Error(`Step ${stepId} asks for a second signature; name who looks.`)
        entries.wait(5 * MINUTE)
        for (const set of signatureSets(step))
          entries.add({ type: 'SecondSignStep', stepId, setId: set.id }, 40 * SECOND, second)
      }
      await submit(`job:${jobId}`, entries.list)
    },
    async beginJoint(jobId, stepId, doer, at, { joint: jointId, fullPasses, throughPosition }) {
      const { step, crib } = await planned(jobId, stepId)
      const joint = step.joints.find(({ id }) => id === jointId)
      if (!joint) throw new Error(`Step ${stepId} has no joint ${jointId}.`)
      const { positions } = roundOf(step, jointId, throughPosition)
      const entries = new Script(doer, at)
      entries.add({ type: 'ClaimStep', stepId }, 2 * MINUTE)
      declareFasteners(entries, step)
      for (let pass = 1; pass <= fullPasses; pass++) tighten(entries, joint, pass, positions, crib)
      const some = positions.slice(0, positions.indexOf(throughPosition) + 1)
      tighten(entries, joint, fullPasses + 1, some, crib)
      entries.add({ type: 'PutDownStep', stepId }, 30 * SECOND)
      await submit(`job:${jobId}`, entries.list)
    },
  }
}

/** Commands one after the other, each a while after the one before. */
class Script {
  readonly list: Entry[] = []
  constructor(
    private readonly doer: string,
    private at: Instant,
  ) {}
  wait(ms: number) {
    this.at += ms
  }
  add(command: JobCommand, takesMs: number, person = this.doer) {
    this.list.push({ person, command, doneAt: this.at })
    this.at += takesMs
  }
}

/** What is one-use or counted is said to be new before it is tightened. */
function declareFasteners(entries: Script, step: AdoptedStep) {
  for (const joint of step.joints) {
    if (joint.use.kind === 'reusable' || joint.recheckOf) continue
    const positions = joint.positions.map(({ n }) => n)
    entries.add({ type: 'PlaceFasteners', jointId: joint.id, positions, condition: 'new' }, 5 * SECOND)
  }
}

function tightenSet(entries: Script, step: AdoptedStep, set: SignatureSetView, crib: readonly Wrench[]) {
  for (const cover of set.covers) {
    const joint = step.joints.find(({ id }) => id === cover.joint)
    const [first] = cover.positions
    if (!joint || first === undefined) continue
    const { positions } = roundOf(step, joint.id, first)
    for (let pass = 1; pass <= joint.passes.length; pass++) tighten(entries, joint, pass, positions, crib)
  }
}

/** One pass over some positions, with the plan's wrench or another of the crib that fits. */
function tighten(
  entries: Script,
  joint: AdoptedJoint,
  pass: number,
  positions: readonly number[],
  crib: readonly Wrench[],
) {
  const asked = joint.passes[pass - 1]
  const at = { jointId: joint.id, pass }
  const each = (rest: { how: 'clicked' | 'turned' | 'slackened'; wrenchId?: string; value?: number }) => {
    for (const position of positions)
      entries.add({ type: 'TakeReading', ...at, position, ...rest }, 12 * SECOND)
  }
  if (asked?.kind === 'wait') return entries.wait(asked.minutes * MINUTE)
  if (asked?.kind === 'slacken') return each({ how: 'slackened' })
  if (asked?.kind === 'angle') {
    const gauge = crib.find(({ kind }) => kind === 'angle_gauge')
    return each({ how: 'turned', wrenchId: asked.wrench ?? gauge?.id, value: asked.angleDeg })
  }
  if (asked?.kind !== 'torque' || asked.torqueNm === null)
    throw new Error(`${joint.id} pass ${pass} has no published value; a script cannot tighten it.`)
  const wrench = wrenchFor(asked.torqueNm, asked.wrench, crib)
  const value = roundTo(fromNm(asked.torqueNm, wrench.unit as TorqueUnit), wrench.increment ?? 0.1)
  entries.add({ type: 'EnterScale', ...at, wrenchId: wrench.id, value }, 40 * SECOND)
  each({ how: 'clicked', wrenchId: wrench.id })
}

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

function measure(entries: Script, stepId: string, asked: Measurement, told: number[] | undefined) {
  const { id: measurementId, places, instrument = 'by eye' } = asked
  for (const [index, place] of places.entries()) {
    const value = told?.[index] ?? within(asked, index)
    entries.add({ type: 'TakeMeasurement', stepId, measurementId, place, value, instrument }, 45 * SECOND)
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

/** Photos, cures and what is reckoned from signatures are not answered by hand. */
function answerGate(entries: Script, stepId: string, gate: Gate) {
  const { id: gateId, kind } = gate
  if (kind === 'count') entries.add({ type: 'AnswerGate', stepId, gateId, count: gate.expect }, 30 * SECOND)
  if (kind === 'look') entries.add({ type: 'AnswerGate', stepId, gateId }, 30 * SECOND)
}
