/**
 * What can be told of a plan's fasteners before one is touched: torques they cannot bear, words that say no lubrication or
 * material, bolts that do not fit their holes, wrenches that cannot reach.
 *
 * An impossible torque is a fault, unless the supervisor who adds the plan takes it as printed, with its page as a photo:
 * the plan file carries that, because plans are added by supervisors alone, and so the log says who took it. All else is a
 * caution: the gravest first.
 */
import {
  doubtsInWords,
  type FastenerRefusal,
  fastenerSentence,
  holeMaterial,
  judgeTorque,
  loadAfter,
  readLubrication,
  thread as readThread,
  type TorqueJudgement,
  type TorqueToJudge,
} from '../fastener'
import { isRefusal } from '../log'
import type { Shop, Wrench } from '../shop/types'
import { type Figures, unended } from '../words'
import { againstWrench, pickWrench } from '../wrench'
import { bandOf, inBand } from './adopt'
import { type FitJoint, plannedFit } from './fit'
import type { Path, Report } from './place'
import type { AsPrinted, Band, Joint, Pass, Plan, Tolerances, TorquePass } from './types'

export interface FastenerReports {
  fault: Report
  /** The step's index comes with each, for a caution names its step. */
  caution: (step: number, path: Path, problem: string, fix: string) => void
}
type Problem = { path: Path; problem: string; fix: string }

/** What only a shop can answer; what is not at hand is not checked. */
export interface AtHand {
  /** The shop's width where none is printed: the top of it is judged as well. */
  tolerances?: Tolerances
  wrenches?: Shop['wrenches']
  /** Whether a photo's bytes are on the server. */
  bytesHere?: ((sha256: string) => boolean) | undefined
}

/** What the thread goes into, and how much of it holds, mm; as far as both are known. */
export function heldIn(joint: FitJoint): Pick<TorqueToJudge, 'holeMaterial' | 'engagementMm'> {
  const { hole } = joint
  if (!hole) return {}
  const fit = plannedFit(joint)
  return {
    holeMaterial: hole.material,
    ...(fit && !isRefusal(fit) ? { engagementMm: Math.min(fit.engagementMm, hole.threadMm) } : {}),
  }
}

/** A torque pass with its limits: those of the plan, else the shop's width where it is known. */
export function judgePass(
  joint: Joint,
  index: number,
  tolerances: Tolerances | undefined,
): TorqueJudgement | undefined {
  const pass = joint.passes[index]
  if (pass?.kind !== 'torque' || pass.torqueNm === null) return undefined
  const band = pass.limits ?? (tolerances && bandOf(pass, joint, tolerances))
  const { minNm, maxNm } = (band ?? {}) as { minNm?: number; maxNm?: number }
  return judgeAt(joint, pass.torqueNm, {
    ...(minNm === undefined || maxNm === undefined ? {} : { minNm, maxNm }),
    ...(band && !pass.limits ? { limitsFrom: 'shop' } : {}),
    ...loadAfter(joint.passes, index),
  })
}

/** What a torque would do to the fasteners of a joint, as plan and hole say them; N·m. */
function judgeAt(
  joint: Joint,
  nominalNm: number,
  more: Pick<TorqueToJudge, 'minNm' | 'maxNm' | 'limitsFrom' | 'before'> = {},
): TorqueJudgement {
  const { fastener, thread, grade, lubrication } = joint
  return judgeTorque({
    fastener,
    thread,
    grade,
    lubrication,
    ...heldIn(joint),
    nominalNm,
    ...more,
  })
}

/** More than the fastener bears, and taken all the same with this very value and no higher limit. */
export const takenAsPrinted = (pass: TorquePass): pass is TorquePass & { asPrinted: AsPrinted } =>
  pass.asPrinted !== undefined &&
  pass.asPrinted.torqueNm === pass.torqueNm &&
  (pass.asPrinted.maxNm === undefined || (pass.limits?.maxNm ?? pass.torqueNm) <= pass.asPrinted.maxNm)

/** What speaks against a torque at a head, where it is more than the fastener bears; nothing within a band that was taken so. */
export function impossibleAt(
  joint: Joint,
  pass: number,
  torqueNm: number,
  band: Band | null,
): TorqueJudgement | undefined {
  const asked = joint.passes[pass - 1]
  if (asked?.kind === 'torque' && takenAsPrinted(asked) && band && inBand(torqueNm, band)) return undefined
  const ofJoint = judged.get(joint) ?? new Map<number, TorqueJudgement>()
  judged.set(joint, ofJoint)
  const known = ofJoint.get(torqueNm) ?? judgeAt(joint, torqueNm)
  ofJoint.set(torqueNm, known)
  return known.verdict === 'impossible' ? known : undefined
}
/** A joint of an adopted plan never changes, and few numbers are ever read in it. */
const judged = new WeakMap<Joint, Map<number, TorqueJudgement>>()

/** The passes whose torque, or the top of its band in this shop, the fastener cannot bear, and that nobody took as printed; counted from 1. */
export function impossiblePasses(
  joint: Joint,
  tolerances: Tolerances,
): { pass: number; judged: TorqueJudgement }[] {
  return joint.passes.flatMap((pass, index) => {
    if (pass.kind === 'torque' && takenAsPrinted(pass)) return []
    const judged = judgePass(joint, index, tolerances)
    return judged?.verdict === 'impossible' ? [{ pass: index + 1, judged }] : []
  })
}

/** [PC1–PC9] */
export function checkFasteners(
  plan: Plan,
  { fault, caution }: FastenerReports,
  figures: Figures,
  { tolerances, wrenches, bytesHere }: AtHand,
): void {
  const grave: [number, Problem][] = []
  const light: [number, Problem][] = []
  plan.steps.forEach((step, i) => {
    step.joints.forEach((joint, k) => {
      const path: Path = ['steps', i, 'joints', k]
      joint.passes.forEach((pass, at) => {
        const there: Path = [...path, 'passes', at]
        if (pass.kind === 'torque')
          checkTorque(joint, at, there, { figures, tolerances, fault }, (found, isLight) =>
            (isLight ? light : grave).push([i, found]),
          )
        if (pass.kind === 'torque' && bytesHere && takenAsPrinted(pass) && !bytesHere(pass.asPrinted.photo))
          fault(
            [...there, 'torqueNm'],
            `${joint.id}: ${figures.number(pass.asPrinted.torqueNm)} N·m is taken as printed, but the photo of its page is not on this server`,
            'Take it as printed again, with the photo.',
            { asPrinted: true },
          )
        const unfit = wrenches && wrenchProblem(pass, there, wrenches, figures)
        if (unfit) light.push([i, unfit])
      })
      const fit = fitProblem(joint, path, figures)
      if (fit) (fit.grave ? grave : light).push([i, fit])
      for (const found of wordProblems(joint, path)) light.push([i, found])
      const unread = threadProblem(joint, path, figures)
      if (unread) grave.push([i, unread])
      if (saysPlated(joint))
        fault(
          [...path, 'lubrication'],
          `${joint.id}: “${joint.lubrication}” does not say what it is plated with`,
          'Write “zinc plated” if nothing is added to the zinc, or what the maker says.',
        )
    })
  })
  for (const [step, { path, problem, fix }] of [...grave, ...light]) caution(step, path, problem, fix)
}

function checkTorque(
  joint: Joint,
  index: number,
  path: Path,
  { figures, tolerances, fault }: { figures: Figures; tolerances: Tolerances | undefined; fault: Report },
  doubt: (found: Problem, isLight: boolean) => void,
): void {
  const pass = joint.passes[index]
  const judged = judgePass(joint, index, tolerances)
  if (!judged || pass?.kind !== 'torque' || pass.torqueNm === null) return
  const { torqueNm, asPrinted } = pass
  const assumedAlone = judged.doubts.every((one) => one === 'grade_assumed' || one === 'pitch_assumed')
  const problem = () => {
    // A sentence on an assumed grade or pitch does not name the torque.
    const subject = assumedAlone ? `, ${figures.number(torqueNm)} N·m on ${joint.thread}` : ''
    return `${joint.id}${subject}: ${unended(doubtsInWords(judged, figures).join(' '))}`
  }
  if (judged.verdict === 'impossible' && !takenAsPrinted(pass))
    fault(
      [...path, 'torqueNm'],
      problem(),
      'Look at the page again: torque, limits, unit, thread and grade. If it is printed so, a supervisor may take it, with the page as a photo.',
      { asPrinted: true },
    )
  else if (judged.verdict === 'impossible')
    doubt(
      {
        path: [...path, 'torqueNm'],
        problem: `${problem()}. Taken as printed: ${unended(asPrinted?.reason ?? '')}`,
        fix: 'Write what is right.',
      },
      false,
    )
  else if (judged.verdict === 'implausible') {
    const byWidthAlone =
      judged.torque.limitsFrom === 'shop' && judgePass(joint, index, undefined)?.verdict !== 'implausible'
    const fix = assumedAlone
      ? 'Write the property class.'
      : byWidthAlone
        ? `Write the limits of the page, or make the shop’s width for class ${joint.class} smaller.`
        : 'Look at the page again.'
    doubt({ path: [...path, 'torqueNm'], problem: problem(), fix }, assumedAlone || byWidthAlone)
  }
}

const FIT_PROBLEMS = {
  bottoms_out: 'bottoms in its hole, and clamps nothing',
  too_short: 'is too short for its hole: too little of its thread holds',
  too_long: 'stands out by more than its diameter',
} as const

/** What is said against a bolt in its hole, and what to do; `at` is the part of the joint that it is about. */
export function fitSaid(
  joint: FitJoint,
  figures: Figures,
): { grave: boolean; at: 'hole' | 'lengthMm'; problem: string; fix: string } | undefined {
  const { number } = figures
  const fit = plannedFit(joint)
  if (!fit) return undefined
  const named = `${joint.fastener} of ${number(joint.lengthMm ?? 0)} mm`
  if (isRefusal(fit))
    return fit.refused === 'thread_deeper_than_hole'
      ? {
          grave: true,
          at: 'hole',
          problem: unended(fastenerSentence(fit, figures)),
          fix: 'Measure the hole.',
        }
      : undefined
  const right = fit.rightLengthsMm.map((mm) => number(mm)).join(', ')
  if (fit.verdict !== 'good' && fit.verdict !== 'near_bottom')
    return {
      grave: true,
      at: 'lengthMm',
      problem: `${named} ${FIT_PROBLEMS[fit.verdict]}`,
      fix: right ? `Lengths that fit are ${right} mm.` : 'Measure bolt, stack and hole again.',
    }
  if (!fit.assumed?.follows) return undefined
  return {
    grave: false,
    at: 'lengthMm',
    problem: `${named}: with the standard’s ${number(fit.assumed.boltThreadMm, 1)} mm of thread its ${fit.assumed.follows === 'shank' ? 'shank' : 'thread run-out'} would reach the hole`,
    fix: `Measure its thread and enter the length${right ? `, or take ${right} mm` : ''}.`,
  }
}

function fitProblem(joint: Joint, path: Path, figures: Figures): (Problem & { grave: boolean }) | undefined {
  const said = fitSaid(joint, figures)
  if (!said) return undefined
  const { at, problem, ...rest } = said
  return { ...rest, path: [...path, at], problem: `${joint.id}: ${problem}` }
}

/** What stands where nothing was said: that is asked for as missing, not as a word. */
export const NOT_GIVEN = 'not given'

/** A word that stored plans of an older build hold for zinc plating: in a new one it would be taken for that (`job/upcast.ts`). */
export const saysPlated = ({ lubrication }: Pick<Joint, 'lubrication'>): boolean => lubrication === 'plated'

/** A thread that may be a length: what it bears is not judged until that is said. */
function threadProblem(joint: Joint, path: Path, figures: Figures): Problem | undefined {
  const read = readThread(joint.thread)
  if (!isRefusal(read) || read.refused !== 'thread_pitch_or_length') return undefined
  return {
    path: [...path, 'thread'],
    problem: `${joint.id}: ${unended(fastenerSentence(read, figures))}`,
    fix: `Look at the page, or measure the pitch.`,
  }
}

/** Only where words decide a figure: a plug or a sender is never computed. */
function wordProblems(joint: Joint, path: Path): Problem[] {
  if (!['bolt', 'nut', 'stud'].includes(joint.fastener) || saysPlated(joint)) return []
  const lubrication = joint.lubrication === NOT_GIVEN ? '' : readLubrication(joint.lubrication)
  const material =
    joint.hole && joint.hole.material !== NOT_GIVEN ? holeMaterial(joint.hole.material) : undefined
  return [
    ...(typeof lubrication === 'string' ? [] : [word(joint, [...path, 'lubrication'], lubrication)]),
    ...(material && isRefusal(material) ? [word(joint, [...path, 'hole', 'material'], material)] : []),
  ]
}

function word(joint: Joint, path: Path, { refused, data }: FastenerRefusal): Problem {
  const { text, could, known } = data as { text: string; could?: string[]; known?: string[] }
  const what = path.at(-1) === 'lubrication' ? 'lubrication' : 'material'
  const some = (could ?? known ?? []).map((id) => id.replace(/_/g, ' '))
  return {
    path,
    problem: refused.endsWith('_unclear')
      ? `${joint.id}: “${text}” does not say exactly one ${what}`
      : `${joint.id}: no ${what === 'lubrication' ? 'friction' : 'strength'} is known for “${text}”`,
    // Never one answer as if it were the right one: what the words touch may be another thing altogether.
    fix: `${some.length > 1 ? `Write one of: ${some.join(', ')}` : `If it is ${some[0]}, write that`}. If it is another, leave it as it stands: no figure is taken from it.`,
  }
}

function wrenchProblem(
  pass: Pass,
  path: Path,
  wrenches: Readonly<Record<string, Wrench>>,
  figures: Figures,
): Problem | undefined {
  if (pass.kind !== 'torque' || pass.torqueNm === null || pass.wrench === undefined) return undefined
  const named = Object.values(wrenches).filter(({ id }) => id === pass.wrench)
  const band = pass.limits ? ({ kind: 'torque', ...pass.limits } as const) : null
  const [picked] = pickWrench({ passes: [pass], bands: [band] }, 1, { wrenches: named, now: 0 })
  const against =
    picked?.against.filter((demerit) => demerit === 'out_of_range' || demerit === 'no_room') ?? []
  if (!picked || against.length === 0) return undefined
  return {
    path: [...path, 'wrench'],
    problem: `${pass.wrench} cannot do ${figures.number(pass.torqueNm)} N·m: ${againstWrench({ ...picked, against }, figures).join('; ')}`,
    fix: 'Name another wrench.',
  }
}
