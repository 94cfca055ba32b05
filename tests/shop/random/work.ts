/** Whole pieces of work for the random floor, done as they should be and broken off anywhere. */
import type { Proposal } from '../../../shared/fastener'
import type { JobCommand } from '../../../shared/job/commands'
import type { Context } from '../../../shared/job/context'
import { proposeFor } from '../../../shared/job/proposal'
import type { Job, NewPhoto, PlannedJob } from '../../../shared/job/types'
import {
  fastenerFault,
  isDone,
  isSigned,
  setViews,
  standingMeasurement,
  standingOf,
  stepState,
} from '../../../shared/job/verdicts'
import { indexPlan } from '../../../shared/plan/read'
import type { AdoptedStep } from '../../../shared/plan/types'
import { testShop } from '../shop'
import type { FloorMove } from './floor-move'
import { nextReading, pick } from './moves'

/** One thing asked, by whom, and how long after the one before. */
export interface Asked extends Partial<Omit<Context, 'by' | 'doneAt' | 'shop'>> {
  command: JobCommand
  by: string
  after?: number
}

/** Hands out what is asked, and takes the job as it is after it. */
export type Scene = Generator<Asked, void, Job>

export const HEAD = 'a'.repeat(64)

/** Everything that is left, by people who know what to do: so that releases and what comes after them are reached. */
export function* finishAll(start: PlannedJob, move: FloorMove): Scene {
  let job = start
  const { a, b } = move
  for (const hold of job.holds)
    yield { by: 'wim', command: { type: 'ClearHold', holdId: hold.id, how: 'came' } }
  for (let round = 0; round < 14 && b % 8 !== round; round++) {
    const before = job.version
    job = yield* getOn(job, { ...move, who: 'ana', a: 9, b: round * 2 + 1 })
    if (job.version === before) break
  }
  if (a % 2 === 0) return
  for (const photo of job.photos)
    yield { by: 'ana', command: { type: 'ConfirmPhoto', photoId: photo.id }, bytesHere: () => true }
  if (b % 4 === 0) yield { by: 'dee', command: { type: 'Release', kind: 'to_fitting' }, after: 800 }
  for (const kind of ['to_fitting', 'to_owner'] as const)
    yield { by: 'dee', command: { type: 'Release', kind }, head: HEAD, after: 800 }
}

/** One step as it should be done, left off after `a % 10` of its parts. Returns the job as it is then. */
export function* getOn(start: PlannedJob, { who, a, b }: FloorMove): Generator<Asked, PlannedJob, Job> {
  let job = start
  const by = b % 5 === 0 ? who : b % 4 === 0 ? 'bo' : 'ana'
  const upto = a % 10
  const open = job.plan.steps.filter((one) => !isDone(job, one))
  const held = open.filter(({ id }) => stepState(job, id).claim?.by === by)
  const ready = open.filter((one) => ['ready', 'stopped', 'awaiting_second'].includes(standingOf(job, one)))
  const step = pick(held, b) ?? pick(ready, b % 2 ? 0 : b) ?? pick(open, b)
  if (!step) return job
  const stepId = step.id
  const say = function* (command: JobCommand, more: Partial<Asked> = {}): Generator<Asked, void, Job> {
    job = (yield { by, command, ...more }) as PlannedJob
  }
  const { claim } = stepState(job, stepId)
  if (claim && claim.by !== by) yield* say({ type: 'HandOverStep', stepId, to: by }, { by: claim.by })
  else if (!claim && !isSigned(job, step)) {
    yield* say({ type: 'ClaimStep', stepId })
    if (b % 3 !== 0) yield* say({ type: 'ClaimStep', stepId, hidesKnowingly: true }, { after: 700 })
  }
  if (upto === 0) return job
  if (step.sealant && !standingBead(job, step)) yield* say({ type: 'StartSealant', stepId }, { after: 1 })
  if (b % 6 !== 5) for (const joint of step.joints) yield* makeRight(job, joint.id, say)
  const torqued = upto < 3 ? upto : 60
  for (let n = 0; n < torqued; n++) {
    const next = nextReading(job, step)
    if (!next) break
    const joint = step.joints.find(({ id }) => id === next.jointId)
    const asked = joint?.passes[next.pass - 1]
    if (asked?.kind === 'torque' && asked.torqueNm === null && !job.settled[next.jointId]?.[next.pass])
      yield* say(settleByWord(next.jointId, next.pass, 12), { by: 'dee' })
    const waits = joint?.passes[next.pass - 2]
    const before = job.version
    yield* say(next.command(b % 7 === 0 ? b + n : 1), waits?.kind === 'wait' ? { after: waits.minutes } : {})
    if (job.version === before) break
  }
  if (upto < 3) {
    if (b % 3 === 0) yield* say({ type: 'PutDownStep', stepId, note: 'gone home' })
    return job
  }
  for (const { joint: jointId, position } of setViews(job, step).flatMap((view) => view.flagged))
    if (b % 2) yield* say({ type: 'TakeReading', jointId, position, pass: 1, how: 'slackened' })
  if (standingBead(job, step) === 'open')
    yield* say({ type: 'CloseSealant', stepId }, { after: b % 6 ? 2 : 30 })
  if (upto === 3) return job
  for (const { id, places, min = 0, max = 1 } of step.measurements)
    for (const place of places)
      if (b % 4 !== 3 && !standingMeasurement(stepState(job, stepId), id, place))
        yield* say(measured(stepId, id, place, b % 5 ? (min + max) / 2 : max + 1))
  for (const gate of step.gates) yield* say(answerOf(step, gate.id, b % 10 === 0 ? 1 : 0))
  for (const gate of step.gates)
    if (gate.kind === 'photo')
      for (const place of gate.places) {
        const photo = photoOf(`${gate.id}-${place}`, { stepId, gateId: gate.id, place })
        yield* say({ type: 'AddPhoto', photo })
        if (upto > 5) yield* say({ type: 'ConfirmPhoto', photoId: photo.id }, { bytesHere: () => true })
      }
  if (upto === 4) return job
  for (const { set } of setViews(job, step)) yield* say({ type: 'SignStep', stepId, setId: set.id })
  if (upto < 7) return job
  for (const { set, asks } of setViews(job, step)) {
    // Most have another person look, as they should.
    if (asks === 2 && upto < 9)
      yield* say({ type: 'RecheckOwnWork', stepId, setId: set.id }, { after: b % 2 ? 35 : 5 })
    if (asks === 2 && upto > 7)
      yield* say({ type: 'SecondSignStep', stepId, setId: set.id }, { by: by === 'ana' ? 'bo' : 'ana' })
  }
  return job
}

type Say = (command: JobCommand, more?: Partial<Asked>) => Generator<Asked, void, Job>

/** What the fasteners of a joint need before anybody tightens them: to be said, or begun again. */
function* makeRight(job: PlannedJob, jointId: string, say: Say): Generator<Asked, void, Job> {
  const joint = job.plan.steps.flatMap(({ joints }) => joints).find(({ id }) => id === jointId)
  if (!joint) return
  for (const mark of job.interrupted[jointId] ?? [])
    if (mark.asks !== 'nothing')
      yield* say({ type: 'RestartRound', jointId, position: mark.position, how: mark.asks })
  for (const { n: position } of joint.positions)
    if (fastenerFault(job, joint, position) === 'hole_stripped') {
      const insert = { kind: 'wire', lengthMm: 12 } as const
      yield* say({ type: 'RecordHole', jointId, position, condition: 'insert', insert })
    }
  const wrong = joint.positions
    .map(({ n }) => n)
    .filter((n) => !['hand_tight', undefined].includes(fastenerFault(job, joint, n)))
  if (wrong.length > 0) yield* say({ type: 'PlaceFasteners', jointId, positions: wrong, condition: 'new' })
}

const standingBead = (job: PlannedJob, step: AdoptedStep): 'open' | 'closed' | undefined => {
  const clock = stepState(job, step.id).sealant.at(-1)
  return clock && (clock.closed ? 'closed' : 'open')
}
export const settleByWord = (jointId: string, pass: number, torqueNm: number, off = 1): JobCommand => ({
  type: 'SettleValue',
  jointId,
  pass,
  torqueNm,
  minNm: torqueNm - off,
  maxNm: torqueNm + off,
  basis: { kind: 'word', competence: 'thirty years of bronze' },
  reason: 'bronze, low pressure',
})
/** A value as the page reckons it; some are forged, some reach too far, some are reckoned for no known material. */
export function settleByReckoning(job: PlannedJob, jointId: string, b: number): JobCommand | undefined {
  const joint = indexPlan(job.plan).jointById.get(jointId)
  const added = { holeMaterial: 'cast iron', engagementMm: 18 }
  const answer = joint && proposeFor({ ...job, holes: {} }, joint, 1, testShop.tolerances, added)
  if (!answer || 'refusals' in answer) return undefined
  const { results } = answer.proposal
  const proposal: Proposal = [
    answer.proposal,
    { ...answer.proposal, results: { ...results, torqueNm: results.torqueNm + 1 } },
    { ...answer.proposal, added: { ...added, holeMaterial: 'glass' } },
  ][b % 3] as Proposal
  const { torqueNm, minNm, maxNm, ceilingNm } = results
  return {
    type: 'SettleValue',
    jointId,
    pass: 1,
    torqueNm,
    minNm,
    maxNm: b % 4 === 0 ? ceilingNm + 1 : maxNm,
    basis: { kind: 'computed', method: 'preload', inputs: 'as computed', proposal },
    reason: 'nothing is printed',
  }
}
export const measured = (
  stepId: string,
  measurementId: string,
  place: string,
  value: number,
): JobCommand => ({
  type: 'TakeMeasurement',
  stepId,
  measurementId,
  place,
  value,
  instrument: 'feeler',
})
export const answerOf = (step: AdoptedStep, gateId: string, off: number): JobCommand => {
  const gate = step.gates.find(({ id }) => id === gateId)
  const count = gate?.kind === 'count' ? { count: gate.expect + off } : {}
  return { type: 'AnswerGate', stepId: step.id, gateId, ...count }
}
export const photoOf = (id: string, some: Partial<NewPhoto> = {}): NewPhoto => ({
  id,
  sha256: 'b'.repeat(64),
  bytes: 9000,
  mime: 'image/webp',
  widthPx: 1600,
  heightPx: 1200,
  ...some,
})
