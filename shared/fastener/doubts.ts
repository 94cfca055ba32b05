/** What the judge doubts, each in one sentence with its figures. A doubt without a sentence does not compile. */
import { isRefusal } from '../log'
import type { Figures } from '../words'
import type { Doubt, TorqueJudgement } from './judge'
import { hasText, shown } from './numbers'
import { fastenerSentence } from './refusals'
import { thread } from './thread'

interface Doubted {
  /** A share as a percentage, and as how many times the whole. */
  percent: (share?: number) => string
  times: (share?: number) => string
  figures: Figures
  judged: TorqueJudgement
  value: string
  /** The highest that is allowed, by its name in a sentence where it is a limit. */
  top: string
  inNm: (torqueNm?: number) => string
  /** The value where it goes too far itself, else the highest that is allowed: its name in a sentence, and how far it goes. */
  at: (tooFar: (share: Reached) => boolean) => Reached & { name: string }
  bolt: string
}

type Reached = NonNullable<TorqueJudgement['topShare']>

const WORDS: { [D in Doubt]: (d: Doubted) => string } = {
  breaks_bolt: ({ at, bolt, percent }) => {
    const { name, breaks } = at((share) => share.breaks > 1)
    return `${name} would break ${bolt}: even at the highest friction it comes to ${percent(breaks)} of its breaking load.`
  },
  three_times: ({ judged, at, bolt, times }) => {
    const asBolt = at((share) => share.least > 3)
    return judged.doubts.includes('grade_assumed') && asBolt.least > 3
      ? `${asBolt.name} is ${times(asBolt.least)} what ${bolt} bears, even at the highest friction.`
      : `${at((share) => (share.strips ?? 0) > 3).name} pulls more than three times what the thread in the hole holds.`
  },
  past_yield: ({ at, bolt, percent }) => {
    const { name, usual } = at((share) => share.usual > 1)
    return `${name} would pull ${bolt} past its yield at usual friction (${percent(usual)}).`
  },
  over_nut: ({ judged, top, percent }) =>
    `${top} would pull a class ${judged.torque.grade?.replace(/\D+/g, '') ?? ''} nut over its proof load at usual friction (${percent(judged.nutShare)}).`,
  strips_hole: ({ judged, top, percent }) =>
    `${top} could strip the thread in the hole (${percent(judged.stripShare?.high)} of what may be counted on).`,
  seats_past_full: ({ judged, top, bolt, figures: { number } }) =>
    `An angle follows, and ${top} alone is more than ${bolt} is usually tightened to (about ${number(judged.fullNm ?? 0, (judged.fullNm ?? 0) < 100 ? 1 : 0)} N·m). Before an angle a torque only seats the joint: look at the class on the head, and at the page.`,
  hardly_seals: (d) => `${d.value} is little for ${printedForSize(d)}.`,
  over_seal: (d) => `${d.top} is far too much for ${printedForSize(d)}.`,
  limits_far: ({ judged: { torque }, inNm }) => {
    const { nominalNm = 0, minNm = nominalNm, maxNm = nominalNm } = torque
    const far = nominalNm - minNm > maxNm - nominalNm ? minNm : maxNm
    return `The limit ${inNm(far)} is far from ${inNm(nominalNm)}.`
  },
  hardly_clamps: ({ judged, value, bolt, percent }) =>
    `${value} hardly loads ${bolt}: ${percent(judged.valueShare?.usual)} of its yield at usual friction.`,
  grade_assumed: ({ judged }) =>
    isNamed(judged.torque.grade)
      ? `“${judged.torque.grade}” is not a grade known here: it was judged as ${judged.grade ?? 'none'}.`
      : judged.grade
        ? `No grade is given: it was judged as ${judged.grade}.`
        : 'No grade is given: it was not judged.',
  pitch_assumed: ({ judged, figures: { number } }) =>
    `${shown(judged.torque.thread).trim()} is taken as ${judged.thread}, the coarse pitch${lengthWords(judged.torque.thread, number)}.`,
  thread_unknown: ({ judged: { torque }, figures }) => {
    if (!isNamed(torque.thread)) return 'No thread is given: its torque was not judged.'
    const read = thread(torque.thread)
    return isRefusal(read) && read.refused === 'thread_pitch_or_length'
      ? `${fastenerSentence(read, figures)} Its torque was not judged.`
      : `“${torque.thread}” is not a thread known here: its torque was not judged.`
  },
}

const printedForSize = ({ judged: { torque, thread, sealsNm }, figures: { number } }: Doubted): string =>
  `${article(thread)} ${thread} ${hasText(torque.fastener) ? torque.fastener : 'fastener'}: tables print about ${number(sealsNm?.low ?? 0, 0)} to ${number(sealsNm?.high ?? 0, 0)} N·m for its size`

const lengthWords = (text = '', number: Figures['number']): string => {
  const read = thread(text)
  return isRefusal(read) || read.lengthMm === undefined ? '' : `, ${number(read.lengthMm)} mm long`
}

/** Plans say `not given` where a sheet said nothing. */
const isNamed = (text: string | undefined): text is string =>
  hasText(text) && text.trim() !== '' && text.trim() !== 'not given'

/** One doubt of a judgement, in words with its figures. */
export function doubtWords(doubt: Doubt, judged: TorqueJudgement, figures: Figures): string {
  const { torque, number } = figures
  const { fastener, nominalNm, minNm, maxNm, limitsFrom } = judged.torque
  const printed = [nominalNm, minNm, maxNm].filter((nm) => nm !== undefined)
  const inNm = (torqueNm = 0) => `${torque(torqueNm, 'N·m')} N·m`
  const kind = fastener === 'stud' ? 'stud' : 'bolt'
  const value = inNm(nominalNm ?? minNm ?? maxNm ?? 0)
  const highest = inNm(Math.max(0, ...printed))
  const top =
    value === highest ? value : `The highest${limitsFrom === 'shop' ? ' this shop allows' : ''}, ${highest},`
  const nothing = { usual: 0, least: 0, breaks: 0 }
  const bolt = [article(judged.thread), judged.thread, kind, judged.grade && `(${judged.grade})`]
  return WORDS[doubt]({
    judged,
    value,
    top,
    inNm,
    at: (tooFar) =>
      judged.valueShare && tooFar(judged.valueShare)
        ? { name: value, ...judged.valueShare }
        : { name: top, ...(judged.topShare ?? nothing) },
    bolt: bolt.filter(Boolean).join(' '),
    // Close to the whole with a decimal: what is past it does not read as 100 %.
    percent: (share = 0) =>
      share < 0.01 ? 'less than 1 %' : `${number(share * 100, Math.abs(share - 1) < 0.01 ? 1 : 0)} %`,
    times: (share = 0) => `${number(share, 1)} times`,
    figures,
  })
}

/** All that is doubted, the gravest first. What breaks a bolt pulls it past its yield as well: that need not be said. */
export function doubtsInWords(judged: TorqueJudgement, figures: Figures): string[] {
  const graver = judged.doubts.some((doubt) => doubt === 'breaks_bolt' || doubt === 'three_times')
  return judged.doubts
    .filter((doubt) => !(graver && doubt === 'past_yield'))
    .map((doubt) => doubtWords(doubt, judged, figures))
}

const article = (thread = ''): string => (/^[M8]/.test(thread) ? 'an' : 'a')
