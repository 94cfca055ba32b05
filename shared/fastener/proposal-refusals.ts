/**
 * Why no torque can be proposed for a joint: each reason on its own, with its sentence and whether an entry mends it.
 *
 * What the formulas cannot know is `never`: no entry makes a bronze plug a steel bolt. `entry`: something is missing
 * or unclear that a person at the engine can read, measure or look up.
 */
import type { Refusal } from '../log'
import { exact, type Figures, fastenersInWords } from '../words'
import { FASTENER_REFUSAL_CODES, type FastenerRefusal, fastenerSentence } from './refusals'

export interface ProposalRefusalData {
  not_a_clamp: { fastener: string }
  angle_in_joint: Record<never, never>
  later_pass_tightens: { pass: number; later: number }
  hole_unknown: { fastener: string }
  engagement_unknown: Record<never, never>
  too_few_threads: { engagementMm: number; wantedMm: number }
  bolt_bottoms: { lengthMm: number; roomMm: number }
  hole_stripped: { positions: number[] }
  hole_worn: { positions: number[] }
}
export type OwnCode = keyof ProposalRefusalData
export type OwnRefusal = { [Code in OwnCode]: Refusal<Code> & { data: ProposalRefusalData[Code] } }[OwnCode]
export type ProposalRefusal = OwnRefusal | FastenerRefusal
export type Mends = 'never' | 'entry'

export const not = <Code extends OwnCode>(refused: Code, data: ProposalRefusalData[Code]): OwnRefusal =>
  ({ refused, data }) as OwnRefusal

const WHY: Record<string, string> = {
  plug: 'A plug closes a hole and seats on a washer or its own shoulder',
  union: 'A union is hollow and seals on a cone or a washer',
  sender: 'A sender is hollow and seals on a washer or its own thread',
  injector: 'An injector holder seats on a soft washer and is hollow',
}

type Sentences = { [Code in OwnCode]: (data: ProposalRefusalData[Code], figures: Figures) => string }

const SENTENCES: Sentences = {
  not_a_clamp: (d) =>
    `${WHY[d.fastener] ?? 'This fastener is not a bolt'}: it does not stretch like a bolt, so the formulas for bolts do not hold. Use a source, or a competent person’s own value.`,
  angle_in_joint: () =>
    'This joint is brought to its preload by an angle; the torque before it only seats it. Use the maker’s figure, or a competent person’s own value.',
  later_pass_tightens: (d) =>
    `Pass ${d.later} tightens it further, and only the last torque can be computed from preload. Pass ${d.pass} needs a competent person’s own value.`,
  hole_unknown: (d) =>
    d.fastener === 'stud'
      ? 'What the stud goes into is not known, so nobody can say whether its thread holds. Enter what the hole is tapped in.'
      : 'What the thread goes into is not known, so nobody can say which thread gives way first. Enter what the hole or nut is made of.',
  engagement_unknown: () =>
    'How much thread holds is not known. Measure bolt length, stack and hole, and enter the engaged length.',
  too_few_threads: (d, f) =>
    `${exact(d.engagementMm, f)} mm of thread is less than three turns (${exact(d.wantedMm, f)} mm): too little to compute a torque. Fit a longer bolt.`,
  bolt_bottoms: (d, f) =>
    `A bolt of ${exact(d.lengthMm, f)} mm reaches the bottom of its hole: there is room for ${exact(d.roomMm, f)} mm under the head. It would show a torque and clamp nothing. Fit a shorter one.`,
  hole_stripped: (d) =>
    `The thread of ${fastenersInWords('hole', d.positions)} is stripped and holds nothing. Renew it first.`,
  hole_worn: (d) =>
    `The thread of ${fastenersInWords('hole', d.positions)} is worn: how much it still bears is not known. Renew it, or use a competent person’s own value.`,
}
export const OWN_PROPOSAL_REFUSALS = Object.keys(SENTENCES) as OwnCode[]

const NEVER: readonly string[] = [
  'not_a_clamp',
  'angle_in_joint',
  'later_pass_tightens',
  'thread_other_form',
  'grade_without_formula',
  'grade_not_this_size',
  'bolt_bottoms',
  'hole_stripped',
  'hole_worn',
] satisfies ProposalRefusal['refused'][]

export const mends = ({ refused }: ProposalRefusal): Mends => (NEVER.includes(refused) ? 'never' : 'entry')

/** The one sentence of a reason: what is so, which one, what to do next. */
export function proposalSentence(refusal: ProposalRefusal, figures: Figures): string {
  if ((FASTENER_REFUSAL_CODES as readonly string[]).includes(refusal.refused))
    return fastenerSentence(refusal as FastenerRefusal, figures)
  const sentence = SENTENCES[refusal.refused as OwnCode] as (data: never, figures: Figures) => string
  return sentence(refusal.data as never, figures)
}
