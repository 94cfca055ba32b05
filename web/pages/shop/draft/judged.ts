/**
 * What the one judge says of a pass while it is typed, in the words of the check, the import and the desk.
 *
 * The check at the head of the draft stops what is impossible; here it stands beside the number it speaks of.
 */
import { doubtsInWords } from '../../../../shared/fastener'
import { isRefusal } from '../../../../shared/log'
import { judgePass, takenAsPrinted } from '../../../../shared/plan/fasteners'
import type { Joint, Pass, Tolerances } from '../../../../shared/plan/types'
import { sheetToPlan } from '../../../../shared/sheet'
import { noteSentenceFor, readSpec, remarkSentenceFor, specSentenceFor } from '../../../../shared/spec'
import { format } from '../../../format'
import { specWords } from '../sheet/sheet-words'

export interface Said {
  /** The fastener cannot bear it. */
  against: boolean
  sentences: string[]
}

/** The pass at `index`, from 0, with this shop's width. Nothing where there is no torque, or nothing to say of it. */
export function judgedPass(joint: Joint, index: number, tolerances?: Tolerances): Said | undefined {
  const pass = joint.passes[index]
  const judged = judgePass(joint, index, tolerances)
  if (!judged || pass?.kind !== 'torque') return undefined
  const taken = takenAsPrinted(pass) ? pass.asPrinted : undefined
  const sentences = [
    ...doubtsInWords(judged, format),
    ...(taken ? [`Taken as printed: ${taken.reason}`] : []),
  ]
  return sentences.length > 0 ? { against: judged.verdict === 'impossible' && !taken, sentences } : undefined
}

/** A text as the manual prints it: what it is read as, what is said of that, and what may be taken. */
export interface PrintedPasses {
  /** What was read, or why nothing was. */
  says: string
  said?: Said
  /** Where it is read: its passes, and what belongs into the joint's notes. */
  passes?: Pass[]
  notes: string[]
  /** Ways to read what is not clear, each by one press. */
  offers: { text: string; passes: Pass[]; notes: string[] }[]
}

export function printedPasses(joint: Joint, text: string, tolerances?: Tolerances): PrintedPasses {
  const spec = readSpec(text)
  if (isRefusal(spec)) {
    const { readings = [], note } = spec.data as { readings?: readonly { text: string }[]; note?: string }
    const notes = note ? [noteSentenceFor(note)] : []
    return {
      says: specSentenceFor(spec, format) ?? spec.refused,
      notes: [],
      offers: readings.flatMap((reading) => {
        const passes = passesFrom(reading.text)
        return passes ? [{ text: reading.text, passes, notes }] : []
      }),
    }
  }
  const { contradiction, remark } = spec
  if (contradiction)
    return {
      says: `${contradiction.first.text} and ${contradiction.second.text} are not the same torque. Enter the one that is right.`,
      notes: [],
      offers: [],
    }
  const passes = passesFrom(text) ?? []
  const judged = passes.flatMap((_, i) => judgedPass({ ...joint, passes }, i, tolerances) ?? [])
  const notes = remark ? [remarkSentenceFor(remark, format)] : []
  const sentences = [...new Set([...notes, ...judged.flatMap((said) => said.sentences)])]
  return {
    says: `Read as ${specWords(spec)}.`,
    ...(sentences.length > 0 ? { said: { against: judged.some(({ against }) => against), sentences } } : {}),
    passes,
    notes,
    offers: [],
  }
}

/** As a torque sheet of one line is: the same reading, the same care. */
function passesFrom(text: string): Pass[] | undefined {
  const spec = readSpec(text)
  if (isRefusal(spec) || spec.contradiction) return undefined
  const { plan } = sheetToPlan(
    [{ kind: 'item', line: 1, text, item: 'x', printed: text, spec }],
    {
      id: 'x',
      title: 'x',
      family: 'x',
      source: 'x',
    },
    format,
  )
  return plan.steps[0]?.joints[0]?.passes
}
