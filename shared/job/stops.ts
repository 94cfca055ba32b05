/**
 * Where a step stands when somebody leaves it, and the note that the next person reads.
 *
 * "Unfinished work looks finished": so every joint that is begun and not final gets its marker, with what its own
 * interruption rule asks before anything goes on.
 */
import { numberWords } from '../plan/order'
import { indexPlan } from '../plan/read'
import type { AdoptedJoint, AdoptedStep } from '../plan/types'
import { fastenersInWords, listed, type Words } from '../words'
import { asksInWords } from './ask-words'
import type { RestartHow } from './kinds'
import type { PlannedJob, StoppedAt } from './types'
import {
  flaggedOn,
  nextInRound,
  positionState,
  setViews,
  standingReading,
  stepState,
  takesReading,
  unprovenBehind,
} from './verdicts'

/** The markers of a step: one a round that is begun and not final, also of what is due here from elsewhere. */
export function stoppedAt(job: PlannedJob, step: AdoptedStep): StoppedAt[] {
  const { jointById, stepOfJoint } = indexPlan(job.plan)
  return setViews(job, step).flatMap(({ covers }) =>
    covers.flatMap(({ joint: jointId, positions }) => {
      const joint = jointById.get(jointId)
      const home = stepOfJoint.get(jointId)
      const [first] = positions
      return joint && home && first !== undefined ? markRound(job, home, joint, first) : []
    }),
  )
}

function markRound(
  job: PlannedJob,
  step: AdoptedStep,
  joint: AdoptedJoint,
  anyPosition: number,
): StoppedAt[] {
  const { positions } = nextInRound(job, step, joint, anyPosition, 1)
  const states = positions.map((position) => positionState(job, joint, position))
  const begun = states.some(({ reached }) => reached.length > 0)
  const nextPasses = states.flatMap(({ nextPass }) => nextPass ?? [])
  if (!begun) return []
  if (nextPasses.length === 0) return markFlagged(job, joint, positions)
  const pass = Math.min(...nextPasses)
  const { next } = nextInRound(job, step, joint, anyPosition, pass)
  const midPass = positions.some((position) => standingReading(job, joint, position, pass))
  const angleBegun = joint.passes.some(
    (passAsked, index) =>
      passAsked.kind === 'angle' &&
      positions.some((position) => standingReading(job, joint, position, index + 1)),
  )
  return [
    {
      jointId: joint.id,
      pass,
      position: next ?? anyPosition,
      positions: [...positions],
      midPass,
      asks: midPass ? asks(joint, angleBegun) : 'nothing',
    },
  ]
}

/** Every pass reached, and a flag stands: not final either, so the next person is shown where. */
function markFlagged(job: PlannedJob, joint: AdoptedJoint, positions: readonly number[]): StoppedAt[] {
  const odd = flaggedOn(job, joint).find(({ position }) => positions.includes(position))
  if (!odd) return []
  const { position, pass } = odd
  return [{ jointId: joint.id, pass, position, positions: [...positions], midPass: false, asks: 'nothing' }]
}

/** What a joint's own rule asks after a round was broken off. Silence after an angle means new fasteners. */
export function asks(joint: AdoptedJoint, angleBegun: boolean): RestartHow {
  const { torqueOnly, afterAngle } = joint.interruption
  if (angleBegun) return afterAngle === 'slacken_restart_joint' ? 'slackened' : 'new_fasteners'
  return torqueOnly === 'slacken_restart_joint' ? 'slackened' : 'again'
}

export interface HandoverNote {
  done: string[]
  stands: string[]
  mustNot: string[]
  /** What the one who left it added by hand. */
  said?: string
}

/** The handover note of a step, drawn from the record; what the last person wrote stands beside it. */
export function handoverNote(job: PlannedJob, step: AdoptedStep, words: Words): HandoverNote {
  const state = stepState(job, step.id)
  const views = setViews(job, step)
  const finished = step.joints.filter((joint) =>
    joint.positions.every(({ n }) => positionState(job, joint, n).final),
  )
  const { jointById } = indexPlan(job.plan)
  const stands = stoppedAt(job, step).flatMap((mark) => {
    const joint = jointById.get(mark.jointId)
    if (!joint) return []
    const passes = joint.passes.filter((_, i) => takesReading(joint, i + 1)).length
    const next = `${joint.fastener} ${numberWords(joint, mark.position)}`
    return [
      `${joint.title}: interrupted in pass ${mark.pass} of ${passes}, before ${next}. Next: ${asksInWords(mark)}.`,
    ]
  })
  const hidden = job.plan.steps.filter((other) =>
    unprovenBehind(job, other).some(({ joint }) => step.joints.some(({ id }) => id === joint)),
  )
  return {
    done: [
      ...finished.map((joint) => `${joint.title}: all ${joint.positions.length} final.`),
      ...views.flatMap(({ set, state: { first } }) =>
        first ? [`${set.title}: signed by ${words.person(first.by)}, ${words.moment(first.doneAt)}.`] : [],
      ),
    ],
    stands: stands.length > 0 ? stands : ['Nothing is interrupted.'],
    mustNot: hidden.map((other) => {
      const joints = unprovenBehind(job, other).filter(({ joint }) =>
        step.joints.some(({ id }) => id === joint),
      )
      const what = joints.map(({ joint, positions }) => {
        const { title = joint, fastener = 'bolt' } = step.joints.find(({ id }) => id === joint) ?? {}
        return positions ? `${title} (${fastenersInWords(fastener, positions)})` : title
      })
      return `Do not begin ${other.id} ${other.title}: it covers ${listed(what)}, not signed off yet.`
    }),
    ...(state.stopped?.note ? { said: state.stopped.note } : {}),
  }
}
