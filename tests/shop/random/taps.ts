/** Single taps for the random floor, right and wrong: every command that `random.ts` does not ask for. */

import type { JobCommand } from '../../../shared/job/commands'
import { type FastenerCondition, HOLE_CONDITIONS } from '../../../shared/job/kinds'
import { againstRelease, stepsOf } from '../../../shared/job/release'
import type { Deferred, PlannedJob, Waived } from '../../../shared/job/types'
import {
  classAsked,
  hiddenBy,
  interruptionOf,
  setViews,
  standingReading,
  stands,
  stepState,
} from '../../../shared/job/verdicts'
import { kindsOf } from '../../../shared/kinds'
import type { AdoptedStep } from '../../../shared/plan/types'
import type { FloorMove } from './floor-move'
import { commandsOf, pick, strange } from './moves'
import { type Asked, answerOf, HEAD, photoOf, settleByReckoning, settleByWord } from './work'

const DAY = 86_400_000
const dayAfter = (at: number, days: number) => new Date(at + days * DAY).toISOString().slice(0, 10)

/** One tap, or two. */
export function taps(job: PlannedJob, step: AdoptedStep, move: FloorMove, now: number): Asked[] {
  const { who: by, kind, a, b, grant } = move
  const stepId = step.id
  const { steps } = job.plan
  const joint =
    pick(step.joints, a) ??
    pick(
      steps.flatMap(({ joints }) => joints),
      a,
    )
  const position = pick(joint?.positions ?? [], b)?.n ?? 1
  const jointId = joint?.id ?? 'none'
  const saw = grantedOn(job, a)
  const one = (command: JobCommand, more: Partial<Asked> = {}): Asked[] => [{ by, command, ...more }]
  const lead = a % 3 === 0 ? by : 'dee'
  switch (kind) {
    case 'claim':
      if (b % 2) return olderTaps(job, move)
      return one({ type: 'ClaimStep', stepId: pick(steps, a)?.id ?? stepId, hidesKnowingly: b % 3 === 0 })
    case 'put down':
      return one({ type: 'PutDownStep', stepId, ...(b % 2 ? { note: 'gone home' } : {}) })
    case 'hand over':
      return one({ type: 'HandOverStep', stepId, to: pick(['bo', 'cy', 'wim', 'ana', 'nobody'], b) ?? '' })
    case 'count': {
      if (!joint) return []
      const pass = (b % joint.passes.length) + 1
      const open = joint.positions.filter(({ n }) => !standingReading(job, joint, n, pass)).length
      const wrenchId = joint.passes[pass - 1]?.kind === 'angle' ? 'gauge' : 'click'
      const target = joint.bands[pass - 1]
      const at = target?.kind === 'torque' ? target.minNm : 12
      return [
        ...one({ type: 'EnterScale', jointId, pass, wrenchId: 'click', value: at }),
        ...one({
          type: 'CountRound',
          jointId,
          pass,
          wrenchId,
          count: b % 5 === 0 ? open + 1 : open,
          ...(a % 3 ? {} : { position }),
        }),
      ]
    }
    case 'restart': {
      const how = pick(['again', 'slackened', 'new_fasteners'] as const, a + b) ?? 'again'
      const asks = interruptionOf(job, jointId, position)?.asks
      return one({ type: 'RestartRound', jointId, position, how: asks && asks !== 'nothing' ? asks : how })
    }
    case 'fasteners': {
      const conditions: FastenerCondition[] = ['new', 'reused', 'hand_tight', 'temporary', 'removed']
      const condition = pick(conditions, b) ?? 'new'
      const positions = a % 2 ? [position] : (joint?.positions.map(({ n }) => n) ?? [])
      const cycle = b % 4 === 0 ? { cycle: (a % 3) + 1 } : {}
      return one({ type: 'PlaceFasteners', jointId, positions, condition, ...cycle })
    }
    case 'slacken':
      return one({ type: 'TakeReading', jointId, position, pass: 1, how: 'slackened' })
    case 'sealant':
      return one({ type: b % 2 ? 'StartSealant' : 'CloseSealant', stepId: pick(steps, b)?.id ?? stepId })
    case 'gate':
      return step.gates.flatMap(({ id }) => one(answerOf(step, id, b % 3 === 0 ? 1 : 0)))
    case 'look': {
      const setId = pick(setViews(job, step), b)?.set.id ?? 'step'
      return one({ type: 'NoteLook', stepId, setId, personId: pick(['bo', 'dee', 'nobody'], b) ?? '' })
    }
    case 'note':
      return one({ type: 'AddNote', text: 'a note', ...(b % 2 ? { stepId } : {}) })
    case 'photo':
      return one({ type: 'AddPhoto', photo: photoOf(`p${b % 9}`, b % 2 ? { stepId } : {}) })
    case 'bytes': {
      const photoId = pick(job.photos, b)?.id ?? 'none'
      return one({ type: 'ConfirmPhoto', photoId }, { bytesHere: () => a % 3 !== 0 })
    }
    case 'second':
    case 'recheck': {
      const owed = steps.flatMap((other) =>
        setViews(job, other)
          .filter(({ state, asks }) => asks === 2 && state.first && !state.second)
          .filter(() => kind === 'second' || a % 4 === 1 || classAsked(job, other) !== 'A')
          .map(({ set, state }) => ({ stepId: other.id, setId: set.id, doer: state.first?.by ?? by })),
      )
      const { doer, ...named } = pick(owed, b) ?? { doer: by, stepId }
      if (kind === 'second')
        return one(
          { type: 'SecondSignStep', ...named },
          { by: pick(['bo', 'dee', by, 'cy'], a) ?? by, ...(grant ? saw : {}) },
        )
      return one({ type: 'RecheckOwnWork', ...named }, a % 4 ? { by: doer, after: a % 50 } : {})
    }
    case 'defer': {
      const later = pick(steps.slice(a % 4 ? steps.indexOf(step) + 1 : 0), b) ?? step
      const broken = a % 2 === 0 ? pick(Object.values(job.interrupted).flat(), b) : undefined
      const fasteners: Deferred = broken
        ? { kind: 'fasteners', joint: broken.jointId, positions: [broken.position] }
        : { kind: 'fasteners', joint: jointId, positions: [position] }
      const again = a % 3 === 1 ? pick(job.deferrals, b)?.what : undefined
      const what = again ?? (broken || (b % 3 && joint) ? fasteners : ({ kind: 'step', stepId } as const))
      return one(
        { type: 'Defer', what, dueStepId: later.id, reason: 'the eye is there' },
        { by: broken ? 'dee' : lead },
      )
    }
    case 'withdraw': {
      const deferralId = pick(job.deferrals, b)?.id ?? 'none'
      return one({ type: 'WithdrawDeferral', deferralId, reason: 'after all' }, { by: lead })
    }
    case 'settle': {
      const unpublished = steps
        .flatMap(({ joints }) => joints)
        .find(({ passes }) => passes.some((pass) => pass.kind === 'torque' && pass.torqueNm === null))
      const named = a % 5 === 0 ? jointId : (unpublished?.id ?? jointId)
      const byWord = settleByWord(named, 1, b % 11 === 0 ? 500 : 12 + (b % 3), a % 7 === 0 ? -1 : 1)
      return one(a % 3 === 1 ? (settleByReckoning(job, named, b) ?? byWord) : byWord, { by: lead })
    }
    case 'waive':
      return one({ type: 'Waive', what: deviation(job, step, b), reason: 'seen' }, { by: lead })
    case 'release': {
      const release = b % 2 ? 'to_fitting' : 'to_owner'
      const against = stepsOf(job, release).length === 0 ? [] : againstRelease(job, release, now)
      const waits = against.some(({ code }) => code === 'curing') ? { after: 800 } : {}
      const head = a % 4 === 0 ? {} : { head: HEAD }
      return one({ type: 'Release', kind: release }, { by: lead, ...waits, ...head })
    }
    case 'warranty':
      return one({ type: 'OpenWarranty', complaint: 'weeps' }, { by: a % 2 ? 'wim' : by })
    case 'strike': {
      const entry = pick(
        steps.flatMap(({ id }) => stepState(job, id).measurements),
        b,
      )
      if (!entry || b % 2) return olderTaps(job, move)
      return one({ type: 'StrikeMeasurement', entryId: entry.id, reason: 'mistyped' }, { by: lead })
    }
    case 'close warranty':
      return one({ type: 'CloseWarranty', finding: `a crushed seal ${a % 2}` }, { by: lead })
    case 'take off':
      return one({ type: 'TakeOff', stepId: a % 2 ? 'guard' : stepId })
    case 'hole': {
      const condition = pick(kindsOf(HOLE_CONDITIONS), b) ?? 'worn'
      const insert = condition === 'insert' ? { insert: { kind: 'wire', lengthMm: 12 } as const } : {}
      return one({ type: 'RecordHole', jointId, position, condition, ...insert })
    }
    case 'hold': {
      const expected = b % 2 ? { expectedAt: now + (a % 9) * DAY } : {}
      return one({ type: 'RaiseHold', kind: 'part', stepIds: [stepId], what: `shim ${a % 3}`, ...expected })
    }
    case 'change hold': {
      const holdId = pick(job.holds, b)?.id ?? 'none'
      return one({ type: 'ChangeHold', holdId, what: `shim ${a % 4}`, expectedAt: b % 4 ? now + DAY : null })
    }
    case 'clear hold':
      return (a % 5 ? job.holds : [{ id: 'none' }]).flatMap(({ id }) =>
        one({ type: 'ClearHold', holdId: id, how: 'it came' }),
      )
    case 'promise':
      return one({ type: 'PromiseDate', date: dayAfter(now, a % 30), reason: 'the shim' })
    case 'wild word':
      return wildWord(job, step, move)
    default:
      return olderTaps(job, move)
  }
}

/** The taps of `random.ts`. */
function olderTaps(job: PlannedJob, move: FloorMove): Asked[] {
  const { who: by, kind, a, grant } = move
  const older = kind === 'one tap' ? (pick(['work', 'sign', 'measure', 'scale'] as const, a) ?? 'work') : kind
  if (!isOlder(older)) return []
  return commandsOf(job, { ...move, kind: older }).map((command) => ({
    by,
    command,
    ...(grant ? grantedOn(job, a) : {}),
  }))
}

/** A second person's PIN on somebody else's tablet, given for what was there a little while ago. */
const grantedOn = (job: PlannedJob, a: number) => ({
  through: 'grant' as const,
  sawVersion: Math.max(0, job.version - (a % 4)),
})

const OLDER = [
  'claim',
  'work',
  'sign',
  'measure',
  'scale',
  'put right',
  'strike',
  'wild',
  'wild reading',
] as const
const isOlder = (kind: string): kind is (typeof OLDER)[number] => (OLDER as readonly string[]).includes(kind)

/** Something a supervisor may be asked to accept, as often as not something that is there. */
function deviation(job: PlannedJob, step: AdoptedStep, b: number): Waived {
  const views = setViews(job, step)
  const stepId = step.id
  const readings = step.joints.flatMap(({ id }) => job.readings[id] ?? []).filter(stands)
  const entry = stepState(job, stepId).measurements.find(({ inBand }) => !inBand)
  const faulty = views.flatMap((view) => view.faulty)[0]
  const hidden = step.joints.find(({ id }) => hiddenBy(job, id, [1]).length > 0)
  const all: (Waived | undefined)[] = [
    pick(
      readings.filter(({ flags }) => flags.length > 0),
      b,
    ) && {
      kind: 'reading',
      readingId:
        pick(
          readings.filter(({ flags }) => flags.length > 0),
          b,
        )?.id ?? '',
    },
    faulty && { kind: 'fastener', jointId: faulty.joint, position: faulty.position },
    entry && { kind: 'measurement', entryId: entry.id },
    { kind: 'second', stepId, setId: pick(views, b)?.set.id ?? 'step' },
    { kind: 'hiding', stepId: hidden ? (hiddenBy(job, hidden.id, [1])[0]?.id ?? stepId) : stepId },
    { kind: 'sealant', stepId },
    step.gates[0] && { kind: 'gate', stepId, gateId: step.gates[0].id },
  ]
  return (
    pick(
      all.filter((one) => one !== undefined),
      b,
    ) ?? { kind: 'hiding', stepId }
  )
}

/** Names that may not exist, in the commands that `random.ts` does not ask for. */
function wildWord(job: PlannedJob, step: AdoptedStep, { who: by, a, b }: FloorMove): Asked[] {
  const name = pick(strange, a) ?? ''
  const stepId = a % 3 ? step.id : name
  const jointId = a % 2 ? (step.joints[0]?.id ?? name) : name
  const n = b % 7
  const held = job.plan.steps.filter(({ id }) => stepState(job, id).claim)
  const [pictured = {}] = job.plan.steps.flatMap(({ id, gates }) =>
    gates.filter(({ kind }) => kind === 'photo').map((gate) => ({ stepId: id, gateId: gate.id })),
  )
  const all: JobCommand[] = [
    { type: 'HandOverStep', stepId, to: name },
    { type: 'CountRound', jointId, pass: n, count: a },
    { type: 'RestartRound', jointId, position: n, how: 'again' },
    { type: 'PlaceFasteners', jointId, positions: [n, n], condition: 'reused', cycle: a },
    { type: 'StartSealant', stepId },
    { type: 'CloseSealant', stepId: name },
    { type: 'NoteLook', stepId, setId: name, personId: by },
    { type: 'RecheckOwnWork', stepId, setId: name },
    { type: 'AddNote', text: '', stepId: name },
    {
      type: 'AddPhoto',
      photo: photoOf(name, n % 3 ? { stepId, gateId: name, place: name } : { ...pictured, place: name }),
    },
    { type: 'ConfirmPhoto', photoId: name },
    { type: 'Defer', what: { kind: 'step', stepId }, dueStepId: name, reason: '' },
    {
      type: 'Defer',
      what: { kind: 'fasteners', joint: jointId, positions: [n] },
      dueStepId: step.id,
      reason: '',
    },
    settleByWord(jointId, n, a),
    { type: 'Waive', what: { kind: 'reading', readingId: name }, reason: '' },
    { type: 'Waive', what: { kind: 'fastener', jointId, position: n }, reason: '' },
    { type: 'Waive', what: { kind: 'measurement', entryId: name }, reason: '' },
    { type: 'Waive', what: { kind: 'second', stepId, setId: name }, reason: '' },
    { type: 'Waive', what: { kind: 'gate', stepId, gateId: name }, reason: '' },
    { type: 'RaiseHold', kind: 'question', stepIds: [stepId, name], what: name },
    { type: 'ChangeHold', holdId: name },
    { type: 'OpenWarranty', complaint: name },
    { type: 'TakeOff', stepId },
    { type: 'RecordHole', jointId, position: n, condition: 'stripped' },
    { type: 'AdoptPlan', planId: name, edition: n },
    { type: 'ClaimStep', stepId: pick(held, a)?.id ?? stepId },
    { type: 'ClaimStep', stepId: pick(job.plan.steps, a)?.id ?? stepId },
    {
      type: 'EnterScale',
      jointId: step.joints[0]?.id ?? name,
      pass: 1,
      wrenchId: a % 2 ? 'gauge' : name,
      value: a,
    },
  ]
  const command = pick(all, b + job.version)
  return command ? [{ by, command }] : []
}
