/**
 * One judge for every torque that is printed, typed or imported: can this fastener bear it at all?
 *
 * It never corrects a number and never proposes one. What it answers is how far the torque goes toward yield, break and strip
 * load over its whole band and at both ends of friction, what had to be assumed for that, and one of four words: plausible,
 * implausible (to be looked at first), impossible (to be stopped), not judged. An angle is the maker's to answer for: it is
 * not judged here, the torque before it is.
 */
import { isRefusal } from '../log'
import { engagement } from './engagement'
import { FRICTION_CLASSES, type FrictionBand, frictionBand } from './friction'
import type { InsertGiven } from './inserts'
import { type Nut, nutOf } from './nut'
import { type GradeGiven, type Strength, strengthOf } from './strength'
import { thread as readThread } from './thread'
import type { Thread } from './thread-types'
import { type TighteningAt, tightening } from './tightening'

/** What is known of the fastener, as plan, sheet or register say it; torques in N·m, lengths in mm. */
export interface TorqueToJudge {
  /** `bolt`, `nut`, `stud`; a plug, a union or a sender seals, and its thread does not say what it bears. */
  fastener?: string
  thread?: string
  grade?: string
  lubrication?: string
  holeMaterial?: string
  engagementMm?: number
  insert?: InsertGiven
  nominalNm?: number
  minNm?: number
  maxNm?: number
  /** The limits are not printed, but the shop's own width about the torque. */
  limitsFrom?: 'shop'
  /** What the same joint gets next: then this torque only seats it, and may be light. */
  before?: 'torque' | 'angle'
}

export type Doubt =
  /** It or its top pulls more than the bolt's breaking load, even at the highest friction. */
  | 'breaks_bolt'
  /** It or its top is more than three times what the joint holds. */
  | 'three_times'
  /** It or its top is past yield at the middle of the friction band. */
  | 'past_yield'
  /** Its top pulls more than the nut's proof load at the middle of the band. */
  | 'over_nut'
  /** Its top strips the hole, at the strength that is reckoned with. */
  | 'strips_hole'
  /** An angle follows, and it is more than the bolt is usually tightened to with a torque alone. */
  | 'seats_past_full'
  /** It hardly loads the bolt: less than any published table makes of one. */
  | 'hardly_clamps'
  /** Of what seals: less, or far more, than published tables print for a thread of that size. */
  | 'hardly_seals'
  | 'over_seal'
  /** One of its limits is more than half of it away from it. */
  | 'limits_far'
  | 'grade_assumed'
  | 'pitch_assumed'
  | 'thread_unknown'

export interface TorqueJudgement {
  /** What was judged. */
  torque: TorqueToJudge
  verdict: 'plausible' | 'implausible' | 'impossible' | 'not_judged'
  /** What speaks against it or was assumed, the gravest first. */
  doubts: Doubt[]
  /** What it was judged as. */
  thread?: string
  grade?: string
  friction?: FrictionBand
  /** As shares: its bottom at the highest friction, its top at the lowest. */
  yieldShare?: Share
  breakShare?: Share
  stripShare?: Share
  valueShare?: ReachedShare
  /** Its highest: a limit, or the value where there is none. */
  topShare?: ReachedShare
  /** What the bolt is usually tightened to by torque alone, N·m. */
  fullNm?: number
  /** Its top at the middle of the band, as a share of the nut's proof load. */
  nutShare?: number
  /** From least to most that tables print for what seals with this thread, N·m. */
  sealsNm?: Share
}
interface Share {
  low: number
  high: number
}
/** How far one torque goes: to yield at the middle of the friction band, to yield and to break at the highest friction. */
interface ReachedShare {
  usual: number
  least: number
  breaks: number
  /** To what the hole's thread holds as it is typical, at the highest friction. */
  strips?: number
}

const CLAMPS: readonly string[] = ['bolt', 'nut', 'stud']
/** Of a bolt whose grade nobody gave; common practice, no source. */
const USUAL_GRADE = { metric: '8.8', unified: 'SAE 5' } as const
/** Where no lubrication is known: from oiled steel to dry steel at its roughest, the classes B to D of VDI 2230. */
const ANY_FRICTION: FrictionBand = { low: FRICTION_CLASSES.B.low, high: FRICTION_CLASSES.D.high }
const MOST_TIMES = 3
/**
 * Of yield at the middle of the friction band. The lightest that is published is the shear column of FAA AC 43.13-1B, table 7-1,
 * and of that 7 lbf·in on #8-36: 0.144. A tenth of the heaviest, 12.9 at friction 0.16 in table A1 of VDI 2230 with neither
 * class nor friction known, is 0.130. Between the two: no printed line is doubted, and one that slipped by a decimal is.
 */
const LEAST_SHARE = 0.14
/** A limit is a slip as well where it lies farther than this share of the torque from it; common practice, no source. */
const FAR = 0.5
/**
 * What seals, N·m for each mm² of its thread's diameter squared: the ring it presses grows with the diameter, and so does the lever.
 * Published: 0.0484 (spark plug, 14 mm taper seat, 7 lbf·ft: R. L. Parish, Spark Plug Tightening Torque, Louisiana State University
 * AgCenter, 2006) to 0.2847 (plug screw M33x2 in steel, 310 N·m: an engine maker's operating instructions M015655/05E, 2015, page 28).
 * A tenth of the highest is 0.029; ten times the lowest 0.48.
 */
const SEALS = { lowest: 0.0484, highest: 0.2847, least: 0.04, most: 0.45 }

/** What the same joint gets after the pass at `index` (from 0): a torque, an angle, or nothing that loads it further. */
export function loadAfter(passes: readonly { kind: string }[], index: number): Pick<TorqueToJudge, 'before'> {
  const next = passes.slice(index + 1).find(({ kind }) => kind === 'torque' || kind === 'angle')
  return next ? { before: next.kind as 'torque' | 'angle' } : {}
}

/**
 * Judges one torque with its limits.
 *
 * The highest that is allowed counts: a wrench may be set to it. Impossible: at the highest friction that breaks the bolt, or pulls
 * over three times what an assumed bolt or the hole's thread holds; what seals is held to an assumed bolt of its thread alone.
 * Implausible: past yield or over the nut's proof load at the middle of the friction band, stripping the hole, hardly clamping
 * or sealing, limits far off, full use before an angle, or with an assumed grade. Never throws; figures that are none are not
 * judged. Yield and break by VDI 2230 with torsion.
 */
export function judgeTorque(given: TorqueToJudge): TorqueJudgement {
  const figures = [given.nominalNm, given.minNm, given.maxNm].filter((nm) => nm !== undefined)
  const value = given.nominalNm ?? given.minNm ?? given.maxNm
  const sound = figures.length > 0 && figures.every((nm) => Number.isFinite(nm) && nm > 0 && nm < 1e9)
  if (value === undefined || !sound) return { torque: given, verdict: 'not_judged', doubts: [] }
  if (!CLAMPS.includes(given.fastener ?? 'bolt')) return judgeSeal(given, value, figures)
  const basis = basisOf(given)
  if ('verdict' in basis) return { torque: given, ...basis }
  const { thread, nut, grade, friction, ends, assumed } = basis

  const bottom = Math.min(...figures)
  const top = Math.max(...figures)
  const yieldShare = { low: bottom / ends.rough.torqueNm, high: top / ends.slippery.torqueNm }
  const toBreak = grade.yieldMPa / grade.rmMPa
  const breakShare = { low: yieldShare.low * toBreak, high: yieldShare.high * toBreak }
  const stripN = stripLoad(given, thread, grade)
  const pullOf = (torqueNm: number, at: TighteningAt) => (torqueNm / at.torqueNm) * at.preloadN
  const stripShare = stripN && {
    low: pullOf(bottom, ends.rough) / stripN.typical,
    high: pullOf(top, ends.slippery) / stripN.reserved,
  }
  const reached = (torqueNm: number): ReachedShare => {
    const least = torqueNm / ends.rough.torqueNm
    return {
      usual: torqueNm / ends.middle.torqueNm,
      least,
      breaks: least * toBreak,
      ...(stripN ? { strips: pullOf(torqueNm, ends.rough) / stripN.typical } : {}),
    }
  }
  const topShare = reached(top)
  const doubts: Doubt[] = [
    ...when(!assumed && topShare.breaks > 1, 'breaks_bolt'),
    ...when((assumed && topShare.least > MOST_TIMES) || (topShare.strips ?? 0) > MOST_TIMES, 'three_times'),
    ...when(topShare.usual > 1, 'past_yield'),
    ...when(nut !== undefined && pullOf(top, ends.middle) > nut.proofN, 'over_nut'),
    ...when((stripShare?.high ?? 0) > 1, 'strips_hole'),
    ...when(
      given.before === 'angle' && !assumed && top > 1.05 * ends.fullNm && topShare.breaks <= 1,
      'seats_past_full',
    ),
    ...when(!given.before && value / ends.middle.torqueNm < LEAST_SHARE, 'hardly_clamps'),
    ...when(farOff(given) && topShare.usual <= 1, 'limits_far'),
    ...when(assumed, 'grade_assumed'),
    ...when(thread.pitchTaken === true, 'pitch_assumed'),
  ]
  return {
    torque: given,
    verdict: verdictOf(doubts),
    doubts,
    thread: thread.designation,
    grade: grade.grade,
    friction,
    yieldShare,
    breakShare,
    ...(stripShare ? { stripShare } : {}),
    valueShare: reached(value),
    topShare,
    fullNm: ends.fullNm,
    ...(nut ? { nutShare: pullOf(top, ends.middle) / nut.proofN } : {}),
  }
}

type NotJudged = Omit<TorqueJudgement, 'torque'>

/**
 * A plug, a union or a sender: stopped where not even a bolt of that thread would bear a third of its highest figure, doubtful
 * where it lies outside what is published for its size, else not judged.
 */
function judgeSeal(given: TorqueToJudge, value: number, figures: readonly number[]): TorqueJudgement {
  const highestNm = Math.max(...figures)
  const asBolt = judgeTorque({ thread: given.thread ?? '', nominalNm: highestNm })
  // What is told is the figure that was judged, of the fastener as it was given.
  if (asBolt.verdict === 'impossible') return { ...asBolt, torque: { ...given, nominalNm: highestNm } }
  const thread = readThread(given.thread ?? '')
  if (isRefusal(thread)) return { torque: given, verdict: 'not_judged', doubts: [] }
  const perMm2 = (nm: number) => nm / (thread.dMm * thread.dMm)
  const doubts: Doubt[] = [
    ...when(perMm2(highestNm) > SEALS.most, 'over_seal'),
    ...when(!given.before && perMm2(value) < SEALS.least, 'hardly_seals'),
    ...when(farOff(given) && perMm2(highestNm) <= SEALS.most, 'limits_far'),
  ]
  if (doubts.length === 0) return { torque: given, verdict: 'not_judged', doubts }
  const usualNm = (share: number) => share * thread.dMm * thread.dMm
  return {
    torque: given,
    verdict: 'implausible',
    doubts,
    thread: thread.designation,
    sealsNm: { low: usualNm(SEALS.lowest), high: usualNm(SEALS.highest) },
  }
}

/** A slip in a limit alone: `25 (22.5 to 275)`. */
const farOff = ({ nominalNm, minNm, maxNm }: TorqueToJudge): boolean =>
  nominalNm !== undefined &&
  [minNm, maxNm].some((nm) => nm !== undefined && Math.abs(nm - nominalNm) > FAR * nominalNm)

interface Basis {
  thread: Thread
  nut: Nut | undefined
  grade: Strength
  /** Nobody gave a grade that is known. */
  assumed: boolean
  friction: FrictionBand
  ends: { slippery: TighteningAt; rough: TighteningAt; middle: TighteningAt; fullNm: number }
}
/** The same few bolts come a thousand times in a sheet; what they bear is reckoned once. */
const bases = new Map<string, Basis | NotJudged>()
const MOST_BASES = 500

/** What does not depend on the torque: the bolt, and what torque brings it to yield. */
function basisOf(given: TorqueToJudge): Basis | NotJudged {
  const key = [given.fastener, given.thread, given.grade, given.lubrication].join('\n')
  const cached = bases.get(key)
  if (cached) return cached
  const basis = makeBasis(given)
  if (bases.size >= MOST_BASES) bases.clear()
  bases.set(key, basis)
  return basis
}

function makeBasis(given: TorqueToJudge): Basis | NotJudged {
  const thread = readThread(given.thread ?? '')
  if (isRefusal(thread)) return { verdict: 'not_judged', doubts: ['thread_unknown'] }
  const nut = given.fastener === 'nut' ? nutOf(given.grade ?? '', thread) : undefined
  const gradeGiven = strengthOf(nut?.bolt ?? given.grade ?? '', thread)
  const grade = isRefusal(gradeGiven) ? strengthOf(USUAL_GRADE[thread.system], thread) : gradeGiven
  if (isRefusal(grade))
    return { verdict: 'not_judged', doubts: ['grade_assumed'], thread: thread.designation }
  const friction = frictionFor(given.lubrication, grade)
  const ends = endsOf(thread, grade, friction)
  if (!ends) return { verdict: 'not_judged', doubts: [], thread: thread.designation, grade: grade.grade }
  return { thread, nut, grade, assumed: isRefusal(gradeGiven), friction, ends }
}

const when = (is: boolean, doubt: Doubt): Doubt[] => (is ? [doubt] : [])

function verdictOf(doubts: readonly Doubt[]): TorqueJudgement['verdict'] {
  if (doubts.some((doubt) => doubt === 'breaks_bolt' || doubt === 'three_times')) return 'impossible'
  return doubts.some((doubt) => doubt !== 'pitch_assumed') ? 'implausible' : 'plausible'
}

function frictionFor(lubrication: string | undefined, grade: Strength): FrictionBand {
  const band = frictionBand(lubrication ?? '', grade)
  return isRefusal(band) ? ANY_FRICTION : { low: band.low, high: band.high }
}

/**
 * The bolt at its yield, at both ends of friction and in the middle; and what it is usually tightened to by torque alone: nine tenths
 * of yield (VDI 2230, table A1), in the middle of its friction, or of oiled steel where that is not known.
 */
function endsOf(thread: Thread, grade: GradeGiven, friction: FrictionBand) {
  const at = (muThread: number | FrictionBand) => tightening({ thread, grade, muThread, utilisation: 1 })
  const middleOf = ({ low, high }: FrictionBand) => at((low + high) / 2)
  const [ends, middle] = [at(friction), middleOf(friction)]
  const usual = friction === ANY_FRICTION ? middleOf(FRICTION_CLASSES.B) : middle
  if (isRefusal(ends) || isRefusal(middle) || isRefusal(usual)) return undefined
  return { slippery: ends.low, rough: ends.high, middle: middle.low, fullNm: 0.9 * usual.low.torqueNm }
}

/** What the hole's thread holds, N: as it is typical, and less the reserve. */
function stripLoad(given: TorqueToJudge, thread: Thread, grade: Strength) {
  if (given.holeMaterial === undefined || given.engagementMm === undefined) return undefined
  const result = engagement({
    thread,
    boltGrade: grade,
    holeMaterial: given.holeMaterial,
    engagementMm: given.engagementMm,
    ...(given.insert ? { insert: given.insert } : {}),
  })
  if (isRefusal(result)) return undefined
  const reserved = Math.min(result.holeStripN, result.boltStripN)
  return { reserved, typical: Math.min(result.holeStripN / result.material.reserve, result.boltStripN) }
}
