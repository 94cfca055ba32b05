/**
 * The holes of a round in words: what was recorded of them, whether what goes in fits, and what is asked for an insert.
 * Pure; the sheets and notes of the bench only draw it.
 */
import { insertPlan, type Thread, thread } from '../../../shared/fastener'
import { fastenerSentence } from '../../../shared/fastener/refusals'
import type { CommandOf } from '../../../shared/job/commands'
import { fitWords, holeWords, LINK_WORDS } from '../../../shared/job/hole-words'
import { type FastenerCondition, HOLE_CONDITIONS } from '../../../shared/job/kinds'
import type { HoleEntry, PlannedJob, ThreadInsert } from '../../../shared/job/types'
import {
  type BoltFit,
  boltFit,
  holeAt,
  isAsMade,
  longPart,
  misfit,
  misfitOf,
  stripsFirst,
} from '../../../shared/job/verdicts'
import { isRefusal } from '../../../shared/log'
import type { AdoptedJoint } from '../../../shared/plan/types'
import { positionsInWords } from '../../../shared/words'
import { format } from '../../format'
import type { Round } from './work'

interface HoleView {
  position: number
  entry?: HoleEntry
  fit?: BoltFit
  /** What is known of the hole. */
  is: string
  /** Whether what stands in it, or would, fits. */
  fits?: string
  /** Which gives first, where that is known. */
  gives?: string
  /** It stops a signature. */
  against: boolean
  /** The maker's bolt bottoms in the maker's hole: in all of these alike. */
  alike?: number[]
}

export function holeView(
  job: PlannedJob,
  joint: AdoptedJoint,
  position: number,
  lengthMm?: number,
): HoleView {
  const entry = holeAt(job, joint.id, position)
  const outcome = boltFit(job, joint, position, ...(lengthMm === undefined ? [] : [lengthMm]))
  const fit = outcome && !isRefusal(outcome) ? outcome : undefined
  const refused = isRefusal(outcome) ? fastenerSentence(outcome, format) : undefined
  const stripped = entry?.condition === 'stripped'
  // Of the maker's bolt in the maker's hole nothing is said that could worry, but that it bottoms.
  const asMade = lengthMm === undefined && isAsMade(job, joint, position)
  const judged = !asMade || (fit !== undefined && misfitOf(fit, true) !== undefined)
  const says = fit && judged ? fitWords(longPart(joint), fit, format) : refused
  const link = fit && judged ? stripsFirst(joint, fit) : undefined
  return {
    position,
    ...(entry ? { entry } : {}),
    ...(fit ? { fit } : {}),
    is: entry ? holeWords(entry, format) : HOLE_CONDITIONS.original,
    ...(says && !stripped ? { fits: says } : {}),
    ...(link && !stripped
      ? { gives: `Overloaded, it is ${LINK_WORDS[link.weakest]} that gives first.` }
      : {}),
    against:
      stripped ||
      (judged &&
        ((fit && misfitOf(fit, asMade) !== undefined) ||
          (lengthMm === undefined && misfit(job, joint, position) === 'hole_impossible'))),
  }
}

/** The holes of a round of which something is to be said before anything goes in, what stops a signature first. */
export function notedHoles(job: PlannedJob, { joint, positions }: Round): HoleView[] {
  const said = positions.filter((n) => {
    const entry = holeAt(job, joint.id, n)
    return (entry && entry.condition !== 'original') || !isAsMade(job, joint, n)
  })
  const alike = positions.filter((n) => !said.includes(n) && misfit(job, joint, n) === 'bottoms_out')
  const [first] = alike
  return [
    ...said.map((n) => holeView(job, joint, n)),
    ...(first === undefined ? [] : [{ ...holeView(job, joint, first), alike }]),
  ].sort((a, b) => Number(b.against) - Number(a.against) || a.position - b.position)
}

/** `Hole 4`, or all that are alike: `Holes 1 to 8`. */
export const holesNamed = ({ position, alike = [position] }: HoleView): string =>
  alike.length === 1 ? `Hole ${position}` : `Holes ${positionsInWords(alike)}`

/** Lengths offered in a place: the plan's, the one there now, and the standard ones that are right; the shortest first. */
export function offeredLengths(joint: AdoptedJoint, { fit }: HoleView): number[] {
  const some = [joint.lengthMm, fit?.lengthMm, ...(fit?.fit.rightLengthsMm ?? [])]
  return [...new Set(some.filter((mm) => mm !== undefined))].toSorted((a, b) => a - b)
}

/** What may be said of one of another length: a one-use or counted one is new, else its history is not known. */
export const mayGoIn = ({ use }: AdoptedJoint): FastenerCondition[] =>
  use.kind === 'reusable' ? ['new', 'reused'] : ['new']

/** What is filled in for an insert; texts as on the pad. */
export interface InsertEntry {
  kind?: ThreadInsert['kind']
  lengthMm: string
  setDownMm: string
  threadMm: string
  cureHours: string
  outerThread?: string
  doneBy?: string
}

export const NO_INSERT: InsertEntry = { lengthMm: '', setDownMm: '', threadMm: '', cureHours: '' }

const number = (text: string): number | undefined =>
  text === '' || text === '.' || !Number.isFinite(Number(text)) ? undefined : Number(text)

/** The command an insert entry makes; nothing while kind or length is missing. */
export function insertCommand(
  jointId: string,
  position: number,
  entry: InsertEntry,
): CommandOf<'RecordHole'> | undefined {
  const lengthMm = number(entry.lengthMm)
  const setDownMm = number(entry.setDownMm)
  const threadMm = number(entry.threadMm)
  const cureMinutes = Math.round((number(entry.cureHours) ?? 0) * 60)
  const { kind, outerThread, doneBy } = entry
  if (!kind || !lengthMm) return undefined
  return {
    type: 'RecordHole',
    jointId,
    position,
    condition: 'insert',
    insert: {
      kind,
      lengthMm,
      ...(setDownMm === undefined ? {} : { setDownMm }),
      ...(kind === 'solid' && outerThread ? { outerThread } : {}),
    },
    ...(threadMm ? { threadMm } : {}),
    ...(cureMinutes > 0 ? { cureMinutes } : {}),
    ...(doneBy?.trim() ? { doneBy: doneBy.trim() } : {}),
  }
}

/** Usual lengths for a thread, in diameters as inserts are sold: common practice, no source. */
export function usualLengths(joint: AdoptedJoint): { mm: number; words: string }[] {
  const known = knownThread(joint)
  return known
    ? [1, 1.5, 2].map((d) => ({
        mm: Math.round(d * known.dMm * 10) / 10,
        words: `${format.number(d)} d, ${format.number(d * known.dMm, 1)} mm`,
      }))
    : []
}

const OUTER = [
  ...['M6x1', 'M8x1.25', 'M10x1.25', 'M10x1.5', 'M12x1.5', 'M12x1.75', 'M14x1.5', 'M16x1.5', 'M16x2'],
  ...['M18x1.5', 'M20x1.5', 'M22x1.5', 'M24x1.5'],
]

/** Threads a solid insert could hold by in the part: those that leave it a wall, the next few sizes up. */
export function outerThreads(joint: AdoptedJoint): string[] {
  const known = knownThread(joint)
  if (!known) return []
  return OUTER.filter((outerThread) => !isRefusal(insertPlan(known, { kind: 'solid', outerThread }))).slice(
    0,
    4,
  )
}

function knownThread(joint: AdoptedJoint): Thread | undefined {
  const known = thread(joint.thread)
  return isRefusal(known) ? undefined : known
}
