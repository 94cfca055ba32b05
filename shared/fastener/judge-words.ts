/** What the judge says of a torque, in words: each doubt with its figures, the gravest first, fit to follow a torque and a colon. */
import { formatNumber } from '../units'
import type { Doubt, TorqueJudgement } from './judge'

type DoubtWords = (judged: TorqueJudgement) => string

const nm = (value: number): string => formatNumber(value, value < 10 ? 1 : 0)

const bolt = ({ thread = 'this bolt', grade = '' }: TorqueJudgement): string => `${thread} ${grade}`.trim()

/** `M8x1.25 8.8 yields at 20 to 31 N·m`. */
const yields = (judged: TorqueJudgement): string =>
  judged.yieldNm
    ? `${bolt(judged)} yields at ${nm(judged.yieldNm.low)} to ${nm(judged.yieldNm.high)} N·m`
    : `${bolt(judged)} yields before`

const WORDS: Record<Doubt, DoubtWords> = {
  breaks_bolt: (judged) =>
    `it would break the bolt: ${yields(judged)} and breaks at ${nm(judged.breakNm?.high ?? 0)} N·m at the latest`,
  three_times: (judged) => `it is more than three times what the joint holds: ${yields(judged)}`,
  past_yield: (judged) => `it goes past yield: ${yields(judged)}`,
  over_nut: () => 'its upper limit pulls more than the nut’s proof load',
  strips_hole: ({ stripShare }) =>
    `it may strip the hole: ${nm(100 * (stripShare?.high ?? 0))} % of what its thread holds`,
  hardly_clamps: (judged) => `it hardly loads the bolt: ${yields(judged)}`,
  grade_assumed: ({ grade = '' }) => `the strength of the fastener is not known, ${grade} is assumed`,
  pitch_assumed: ({ thread = '' }) => `no pitch is named, ${thread} is assumed`,
  thread_unknown: () => 'its thread is not one that can be computed',
}

export const judgedWords = (judged: TorqueJudgement): string[] => {
  // Past yield is said with what is graver.
  const graver = judged.doubts.some((doubt) => doubt === 'breaks_bolt' || doubt === 'three_times')
  return judged.doubts
    .filter((doubt) => !(graver && doubt === 'past_yield'))
    .map((doubt) => WORDS[doubt](judged))
}
