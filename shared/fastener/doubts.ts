/** What the judge doubts, each in one sentence with its figures. A doubt without a sentence does not compile. */
import { formatNumber, showTorque } from '../units'
import type { Doubt, TorqueJudgement, TorqueToJudge } from './judge'

/** As the shop shows a torque: its unit, its decimal mark. */
export type ShowTorque = (torqueNm: number) => string

interface Doubted {
  judged: TorqueJudgement
  given: TorqueToJudge
  value: string
  top: string
  bolt: string
}

/** Close to the whole with a decimal: what is past it does not read as 100 %. */
const percent = (share = 0): string =>
  share < 0.01 ? 'less than 1 %' : `${formatNumber(share * 100, Math.abs(share - 1) < 0.01 ? 1 : 0)} %`
const times = (share = 0): string => `${formatNumber(share, 1)} times`

const WORDS: { [D in Doubt]: (d: Doubted) => string } = {
  breaks_bolt: ({ judged, value, bolt }) =>
    `${value} would break ${bolt}: even at the highest friction it comes to ${percent(judged.valueShare?.breaks)} of its breaking load.`,
  three_times: ({ judged, value, bolt }) =>
    judged.doubts.includes('grade_assumed') && (judged.valueShare?.least ?? 0) > 3
      ? `${value} is ${times(judged.valueShare?.least)} what ${bolt} bears, even at the highest friction.`
      : `${value} pulls more than three times what the thread in the hole holds.`,
  past_yield: ({ judged, value, bolt }) =>
    `${value} would pull ${bolt} past its yield at usual friction (${percent(judged.valueShare?.usual)}).`,
  over_nut: ({ judged, given, top }) =>
    `${top} would pull a class ${given.grade?.replace(/\D+/g, '') ?? ''} nut over its proof load at usual friction (${percent(judged.nutShare)}).`,
  strips_hole: ({ judged, top }) =>
    `${top} could strip the thread in the hole (${percent(judged.stripShare?.high)} of what may be counted on).`,
  hardly_clamps: ({ judged, value, bolt }) =>
    `${value} hardly loads ${bolt}: ${percent(judged.valueShare?.usual)} of its yield at usual friction.`,
  grade_assumed: ({ judged, given }) =>
    isNamed(given.grade)
      ? `“${given.grade}” is no grade known here: it was judged as ${judged.grade ?? 'none'}.`
      : judged.grade
        ? `No grade is given: it was judged as ${judged.grade}.`
        : 'No grade is given: it was not judged.',
  pitch_assumed: ({ judged, given }) =>
    `${given.thread?.trim()} is taken as ${judged.thread}, the coarse pitch.`,
  thread_unknown: ({ given }) =>
    isNamed(given.thread)
      ? `“${given.thread}” is no thread known here: its torque was not judged.`
      : 'No thread is given: its torque was not judged.',
}

/** Plans say `not given` where a sheet said nothing. */
const isNamed = (text: string | undefined): boolean => !!text?.trim() && text.trim() !== 'not given'

const inNm: ShowTorque = (torqueNm) => `${showTorque(torqueNm, 'N·m')} N·m`

/** One doubt of a judgement, in words with its figures. */
export function doubtWords(
  doubt: Doubt,
  judged: TorqueJudgement,
  given: TorqueToJudge,
  show: ShowTorque = inNm,
): string {
  const figures = [given.nominalNm, given.minNm, given.maxNm].filter((nm) => nm !== undefined)
  const kind = given.fastener === 'stud' ? 'stud' : 'bolt'
  const bolt = [article(judged.thread), judged.thread, kind, judged.grade && `(${judged.grade})`]
  return WORDS[doubt]({
    judged,
    given,
    value: show(given.nominalNm ?? given.minNm ?? given.maxNm ?? 0),
    top: show(Math.max(0, ...figures)),
    bolt: bolt.filter(Boolean).join(' '),
  })
}

const article = (thread = ''): string => (/^[M8]/.test(thread) ? 'an' : 'a')
