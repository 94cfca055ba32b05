/** The thread and hole register as rows of words, for the engine page and the release record. Pure. */
import { fastenerSentence } from '../../../shared/fastener/refusals'
import { fitWords, holeWords } from '../../../shared/job/hole-words'
import type { HoleEntry, PlannedJob } from '../../../shared/job/types'
import {
  type BoltFit,
  boltFit,
  curesUntil,
  holeAt,
  holeRegister,
  isAsMade,
  lengthHere,
  longPart,
  misfit,
  type RegisterRow,
} from '../../../shared/job/verdicts'
import { isRefusal } from '../../../shared/log'
import { indexPlan } from '../../../shared/plan/read'
import type { AdoptedStep } from '../../../shared/plan/types'
import type { Words } from '../../../shared/words'
import { format } from '../../format'

export interface HoleRow extends RegisterRow {
  stepId: string
  title: string
  /** In force. */
  entry?: HoleEntry
  fit?: BoltFit
  /** The fit in words, or the length alone where the plan says nothing of the hole. */
  goesIn: string
  /** It stops a signature. */
  against: boolean
}

/** Every place of the register in these steps, in the plan's order. */
export function holeRows(job: PlannedJob, steps: readonly AdoptedStep[] = job.plan.steps): HoleRow[] {
  const { stepOfJoint } = indexPlan(job.plan)
  const some = new Set(steps.map(({ id }) => id))
  return holeRegister(job).flatMap((row) => {
    const { joint, position } = row
    const stepId = stepOfJoint.get(joint.id)?.id ?? ''
    if (!some.has(stepId)) return []
    const entry = holeAt(job, joint.id, position)
    const stripped = entry?.condition === 'stripped'
    const outcome = boltFit(job, joint, position)
    const fit = outcome && !isRefusal(outcome) ? outcome : undefined
    return [
      {
        ...row,
        stepId,
        title: joint.title,
        ...(entry ? { entry } : {}),
        ...(fit ? { fit } : {}),
        goesIn: stripped ? '' : goesIn(job, row, outcome),
        against: stripped || misfit(job, joint, position) !== undefined,
      },
    ]
  })
}

function goesIn(job: PlannedJob, { joint, position }: RegisterRow, fit: ReturnType<typeof boltFit>): string {
  if (isRefusal(fit)) return fastenerSentence(fit, format)
  if (fit && !isAsMade(job, joint, position)) return fitWords(longPart(joint), fit, format)
  const lengthMm = lengthHere(job, joint, position)
  return lengthMm === undefined ? '' : `The ${longPart(joint)} of ${format.number(lengthMm)} mm.`
}

/** `solid insert, 16 mm long; full thread 18.5 mm, by a machine shop, cures until 15:00.` */
export const entryWords = (entry: HoleEntry, words: Words): string =>
  `${holeWords(entry, format)}${entry.doneBy ? `, done by ${entry.doneBy}` : ''}${entry.curesUntil === undefined ? '' : `, cures until ${words.moment(entry.curesUntil)}`}.`

/** Inserts of these steps that cure still. */
export const curingInserts = (job: PlannedJob, steps: readonly AdoptedStep[], now: number) =>
  steps
    .flatMap((step) => step.joints.flatMap((joint) => joint.positions.map(({ n }) => ({ step, joint, n }))))
    .map((place) => ({ ...place, until: curesUntil(job, place.joint.id, place.n) }))
    .filter(({ until }) => until > now)

/** The same in words, beside the sealant's clocks. */
export const holeCures = (job: PlannedJob, now: number, words: Words) =>
  curingInserts(job, job.plan.steps, now).map(({ step, joint, n, until }) => ({
    step,
    words: `insert in hole ${n}, ${joint.title}, cures until ${words.moment(until)}`,
    late: false,
  }))
