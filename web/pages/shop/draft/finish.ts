/**
 * What stands between a draft and the library: faults, cautions, and what is still open.
 *
 * `checkPlan` judges what a plan means; the layout of what can be typed here is judged beside it, so that a fault shows
 * while it is made. The server reads the whole again before it takes a plan in.
 */
import { checkPlan } from '../../../../shared/plan/check'
import { NOT_GIVEN } from '../../../../shared/plan/fasteners'
import { type Path, type PlanFault, placeName } from '../../../../shared/plan/place'
import type { Joint, Pass, Plan } from '../../../../shared/plan/types'
import type { Shop } from '../../../../shared/shop/types'
import { exact, listed } from '../../../../shared/words'
import { format } from '../../../format'
import { keysOf } from '../../../shop/plan-place'

export interface Finish {
  faults: PlanFault[]
  cautions: PlanFault[]
  /** What the plan would be better for knowing; it may be taken in without. */
  open: PlanFault[]
}

export function finishOf(plan: Plan, shop?: Pick<Shop, 'wrenches' | 'tolerances'>): Finish {
  const { faults, cautions } = checkPlan(plan, format, shop)
  return { faults: [...layoutFaults(plan), ...faults], cautions, open: openPoints(plan) }
}

type Report = (path: Path, problem: string, fix: string) => void

const reportInto =
  (plan: Plan, list: PlanFault[]): Report =>
  (path, problem, fix) =>
    list.push({ path: placeName(plan, path), problem, fix })

const ID = /^[\p{L}\p{N}][\p{L}\p{N}._-]{0,39}$/u
const MOST = { joints: 60, passes: 20, positions: 200 }

export function layoutFaults(plan: Plan): PlanFault[] {
  const faults: PlanFault[] = []
  const report = reportInto(plan, faults)
  const words = (text: string, path: Path, what: string) => {
    if (!text.trim()) report(path, `${what} is empty`, 'Write it.')
  }
  if (!ID.test(plan.id))
    report(
      ['id'],
      'The id cannot stand so',
      'Use letters, digits, full stop, hyphen and underscore, 40 at most.',
    )
  if (!Number.isInteger(plan.edition) || plan.edition < 1)
    report(['edition'], 'The edition is not a whole number', 'Write 1 or more.')
  words(plan.title, ['title'], 'The title')
  words(plan.family, ['family'], 'The family')
  words(plan.source, ['source'], 'The source')
  plan.stages.forEach((stage, i) => {
    words(stage.title, ['stages', i, 'title'], 'The title of the stage')
  })
  if (plan.steps.length === 0) report(['steps'], 'There is no step', 'Add one.')
  plan.steps.forEach((step, i) => {
    words(step.title, ['steps', i, 'title'], 'The title of the step')
    if (step.joints.length > MOST.joints)
      report(
        ['steps', i, 'joints'],
        `${step.joints.length} joints are too many`,
        `A step takes ${MOST.joints}.`,
      )
    step.joints.forEach((joint, k) => {
      jointFaults(joint, ['steps', i, 'joints', k], report, words)
    })
  })
  return faults
}

function jointFaults(
  joint: Joint,
  path: Path,
  report: Report,
  words: (text: string, path: Path, what: string) => void,
): void {
  words(joint.title, [...path, 'title'], 'The title of the joint')
  words(joint.thread, [...path, 'thread'], 'The thread')
  words(joint.grade, [...path, 'grade'], 'The grade')
  words(joint.lubrication, [...path, 'lubrication'], 'The lubrication')
  if (joint.passes.length === 0)
    report([...path, 'passes'], 'It has no pass', 'Add one, if only without a value.')
  if (joint.passes.length > MOST.passes)
    report([...path, 'passes'], `${joint.passes.length} passes are too many`, `A joint takes ${MOST.passes}.`)
  if (joint.positions.length < 1 || joint.positions.length > MOST.positions)
    report([...path, 'positions'], `${joint.positions.length} places`, `Give 1 to ${MOST.positions}.`)
  joint.passes.forEach((pass, p) => {
    const fault = valueFault(pass)
    if (fault) report([...path, 'passes', p], fault, 'Write a number above zero.')
  })
}

function valueFault(pass: Pass): string | undefined {
  if (pass.kind === 'torque')
    return pass.torqueNm !== null && !(pass.torqueNm > 0 && pass.torqueNm <= 50_000)
      ? `${exact(pass.torqueNm, format)} N·m is no torque`
      : undefined
  if (pass.kind === 'wait')
    return pass.minutes > 0 ? undefined : `${exact(pass.minutes, format)} min is no wait`
  const { angleDeg } = pass
  return angleDeg !== undefined && !(angleDeg > 0 && angleDeg <= 1080)
    ? `${exact(angleDeg, format)}° is no turn`
    : undefined
}

export function openPoints(plan: Plan): PlanFault[] {
  const open: PlanFault[] = []
  const report = reportInto(plan, open)
  if (!plan.stages.some(({ releases }) => releases === 'to_owner'))
    report(['stages'], 'No stage opens the release to the owner', 'Say which stage does.')
  plan.steps.forEach((step, i) => {
    if (step.minutes.likely === 0)
      report(['steps', i, 'minutes'], 'The time it takes is not given', 'Forecasts count it as none.')
    step.joints.forEach((joint, k) => {
      const missing = (['thread', 'grade', 'lubrication'] as const).filter((key) => joint[key] === NOT_GIVEN)
      if (missing.length > 0)
        report(['steps', i, 'joints', k], `${listed(missing)} not given`, 'Look at the page, or leave it so.')
      joint.passes.forEach((pass, p) => {
        if (pass.kind === 'torque' && pass.torqueNm === null)
          report(
            ['steps', i, 'joints', k, 'passes', p],
            'There is no torque',
            'Enter it from the page; otherwise it must be decided in the job, and nothing is signed off until then.',
          )
      })
    })
  })
  return open
}

export interface PlaceInPlan {
  step?: number
  joint?: number
  /** The part of it: `title`, `passes`, … */
  part?: string
}

/** Where in the editor a path leads. */
export function placeInPlan(path: string): PlaceInPlan {
  const keys = keysOf(path)
  const [top, step, joints, joint] = keys
  if (top !== 'steps' || typeof step !== 'number') return typeof top === 'string' ? { part: top } : {}
  if (joints === 'joints' && typeof joint === 'number') {
    const part = keys[4]
    return { step, joint, ...(typeof part === 'string' ? { part } : {}) }
  }
  return { step, ...(typeof joints === 'string' ? { part: joints } : {}) }
}

/** How many points lie in a step, or in one joint of it. */
export const within = (points: readonly PlanFault[], step: number, joint?: number): PlanFault[] =>
  points.filter(({ path }) => {
    const place = placeInPlan(path)
    return place.step === step && (joint === undefined || place.joint === joint)
  })
