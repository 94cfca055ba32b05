/** One sentence an event type: who did what, and no judgement. A new type without a sentence does not compile. */
import { inputsWords, PROPOSAL_METHOD, resultsWords } from '../../fastener'
import { RELEASES } from '../../plan/kinds'
import { bandWords } from '../../plan/words'
import { ended, type Figures, unended, type Words } from '../../words'
import { asksInWords } from '../ask-words'
import type { EventOf, JobEvent, LapseCause } from '../events'
import { holeWords } from '../hole-words'
import { conditionWords, HOLD_KINDS, holdWords, LOOK_FLAGS, RESTARTS } from '../kinds'
import type { Job, StoppedAt, ValueBasis } from '../types'
import {
  deferredName,
  fastenersName,
  gateText,
  jointName,
  measurementName,
  setName,
  stepName,
  stepNames,
  struckPlace,
  unitOf,
  waivedName,
} from './names'
import { applied, flagged, inBand, place, reached, slipWords, withWrench } from './readings'

/** `who` is the doer's name; `words` names others and says moments. */
export type Sentences = {
  [T in JobEvent['type']]: (event: EventOf<T>, job: Job, who: string, words: Words) => string
}

const LAPSED: Record<LapseCause, string> = {
  reading: 'a fastener was turned again',
  strike: 'an entry was crossed out',
  measurement: 'it was measured again',
  gate: 'a check was answered again',
  restart: 'a pass was started again',
  fastener: 'a fastener was changed',
  hole: 'something new was recorded of its hole',
  sealant: 'a new bead was laid',
  value: 'its torque was decided again',
  taken_off: 'it was taken off again',
}

const SECOND_THROUGH: Record<EventOf<'StepSecondSigned'>['through'], string> = {
  sign_in: '',
  grant: ', by PIN on somebody else’s tablet',
  sealed: ', by PIN on somebody else’s tablet without signal',
}

const BASES: {
  [K in ValueBasis['kind']]: (basis: Extract<ValueBasis, { kind: K }>, figures: Figures) => string
} = {
  source: (b) => `source: ${b.title}, edition ${b.edition}, ${b.page}`,
  // Where the figures are there, they are said, and not what was written beside them.
  computed: ({ method, inputs, proposal: reckoned }, figures) =>
    reckoned
      ? `computed: ${PROPOSAL_METHOD} (${inputsWords(reckoned.inputs, figures)}); ${resultsWords(reckoned.results, figures)}`
      : `computed: ${method} (${inputs})`,
  word: (b) => `on a competent person’s word: ${b.competence}`,
}

/** Where a settled value comes from. */
export const basisWords = (basis: ValueBasis, figures: Figures): string =>
  (BASES[basis.kind] as (basis: ValueBasis, figures: Figures) => string)(basis, figures)
const quoted = (note: string | undefined): string => (note ? ` “${note}”` : '')
const marks = (job: Job, at: readonly StoppedAt[]): string =>
  at.length === 0
    ? ''
    : ` Interrupted at ${at.map((mark) => `${fastenersName(job, mark.jointId, [mark.position])}, pass ${mark.pass}; next: ${asksInWords(mark)}`).join('. Interrupted at ')}.`
const late = (is: true | undefined): string => (is ? ', late: it was covered already' : '')
const own = (is: true | undefined): string => (is ? ' They had worked on it themselves.' : '')

/** What each of a counted round got; only a click has a number to be missing. */
/** Where no number was entered, its flag says so. */
const counted = ({ torqueNm }: EventOf<'RoundCounted'>, { torque }: Figures): string =>
  torqueNm === undefined ? '' : ` at ${torque(torqueNm, 'N·m')} N·m`

export const SENTENCES: Sentences = {
  JobOpened: (e, _, who) =>
    `${who} opened job ${e.number}: ${e.engine.model}, serial ${e.engine.serial}, for ${unended(e.owner)}. Agreed: ${ended(e.agreed)}`,
  PlanAdopted: (e, _, who) => `${who} adopted the plan ${e.plan.title}, edition ${e.plan.edition}.`,
  StepClaimed: (e, job, who) =>
    `${who} claimed ${stepName(job, e.stepId)}${e.hidesKnowingly ? `, knowing that it covers ${e.hidesKnowingly.map((id) => jointName(job, id)).join(', ')}` : ''}.`,
  StepPutDown: (e, job, who) => `${who} left ${stepName(job, e.stepId)}.${quoted(e.note)}`,
  StepStopped: (e, job, who) =>
    `${who} left ${stepName(job, e.stepId)} unfinished.${marks(job, e.at)}${quoted(e.note)}`,
  StepHandedOver: (e, job, who, words) =>
    `${who} handed ${stepName(job, e.stepId)} over${e.from === e.by ? '' : ` from ${words.person(e.from)}`} to ${words.person(e.to)}.${marks(job, e.at)}${quoted(e.note)}`,
  ScaleEntered: (e, job, who, words) =>
    `${who} set ${e.wrenchId} to ${words.number(e.value)} ${e.unit} for ${jointName(job, e.jointId)}, pass ${e.pass}${applied(e, words)}${slipWords(e.slip, words)}.`,
  ReadingTaken: (e, job, who, words) =>
    `${place(job, e)}: ${who} ${reached(e, words)}${withWrench(e)}${inBand(e.band, words)}${flagged(e)}${slipWords(e.slip, words)}.`,
  RoundCounted: (e, job, who, words) =>
    `${jointName(job, e.jointId)}, pass ${e.pass}: ${who} did ${e.positions.length} in one round${counted(e, words)}${withWrench(e)}${flagged(e)}.`,
  RoundRestarted: (e, job, who) =>
    `${who} started ${jointName(job, e.jointId)} again at pass ${e.fromPass}${RESTARTS[e.how].after}; earlier readings from there on no longer count.`,
  ReadingStruck: (e, job, who) =>
    `${who} crossed out a reading${struckPlace(job, e.jointId, e.readingId)}: ${ended(e.reason)}`,
  FastenersPlaced: (e, job, who, words) =>
    `${fastenersName(job, e.jointId, e.positions)}: ${who} entered ${conditionWords(e)}${e.lengthMm === undefined ? '' : `, ${words.number(e.lengthMm)} mm long`}.`,
  HoleRecorded: (e, job, who, words) =>
    `${jointName(job, e.jointId)}, hole ${e.position}: ${who} entered ${holeWords(e, words)}${e.doneBy ? `, by ${unended(e.doneBy)}` : ''}${e.curesUntil === undefined ? '' : `, cures until ${words.moment(e.curesUntil)}`}.${quoted(e.note)}`,
  MeasurementTaken: (e, job, who, words) =>
    `${measurementName(job, e.stepId, e.measurementId)} at ${e.place}: ${who} measured ${words.number(e.value, 6)}${unitOf(job, e)} with ${unended(e.instrument)}, ${e.inBand ? 'within limits' : 'out of limits'}.`,
  MeasurementStruck: (e, job, who) =>
    `${who} crossed out a measurement of ${stepName(job, e.stepId)}: ${ended(e.reason)}`,
  SealantStarted: (e, job, who) => `${who} laid the first bead of sealant on ${stepName(job, e.stepId)}.`,
  SealantClosed: (e, job, who) =>
    `${who} put in the last fastener over the sealant on ${stepName(job, e.stepId)}.`,
  GateAnswered: (e, job, who) =>
    `${who} ${e.count === undefined ? 'confirmed' : `counted ${e.count} for`} “${gateText(job, e.stepId, e.gateId)}”.`,
  StepTakenOff: (e, job, who) =>
    `${who} took ${stepName(job, e.stepId)} off again; what it covered can be reached.`,
  StepSigned: (e, job, who) => `${who} signed ${setName(job, e.stepId, e.setId)}.`,
  StepSecondSigned: (e, job, who) =>
    `${who} second-signed ${setName(job, e.stepId, e.setId)}${SECOND_THROUGH[e.through]}${late(e.late)}.`,
  OwnWorkRechecked: (e, job, who) =>
    `${who} looked again at their own work on ${setName(job, e.stepId, e.setId)} and gave the second signature, as this shop allows${late(e.late)}.`,
  LookNoted: (e, job, who, words) =>
    `${e.by === e.personId ? `${who} looked at` : `${who} noted that ${words.person(e.personId)} looked at`} ${setName(job, e.stepId, e.setId)}; ${e.flag ? `no second signature: ${LOOK_FLAGS[e.flag]}` : 'not a signature yet'}.`,
  SignaturesLapsed: (e, job) =>
    `${setName(job, e.stepId, e.setId)} must be signed again: ${LAPSED[e.because]}.`,
  HoldRaised: (e, job, who, words) =>
    `${who} put ${stepNames(job, e.stepIds)} on hold (${HOLD_KINDS[e.kind].word}): ${holdWords(e, words)}`,
  HoldChanged: (e, job, who, words) =>
    `${who} changed the hold${holdSteps(job, e.holdId)}: ${[...(e.what === undefined ? [] : [unended(e.what)]), ...(e.expectedAt === undefined ? [] : [`expected ${words.moment(e.expectedAt)}`]), ...(e.undated ? ['with no date any more'] : [])].join(', ')}.`,
  HoldCleared: (e, job, who) =>
    `${who} cleared the hold “${unended(holdName(job, e.holdId))}”: ${ended(e.how)}`,
  Deferred: (e, job, who) =>
    `${who} left out ${deferredName(job, e.what)} on purpose, due at ${stepName(job, e.dueStepId)}: ${ended(e.reason)}`,
  DeferralWithdrawn: (e, job, who) => {
    const deferral = job.deferrals.find(({ id }) => id === e.deferralId)
    return `${who} no longer leaves out ${deferral ? deferredName(job, deferral.what) : 'what was left out'}: ${ended(e.reason)}`
  },
  ValueSettled: (e, job, who, words) =>
    `${who} decided the torque of ${jointName(job, e.jointId)}, pass ${e.pass}: ${words.torque(e.torqueNm, 'N·m')} N·m (${bandWords({ kind: 'torque', ...e, from: 'shop' }, words)}); ${unended(basisWords(e.basis, words))}. Reason: ${ended(e.reason)}`,
  Waived: (e, job, who) => `${who} accepted ${waivedName(job, e.what)}: ${ended(e.reason)}${own(e.ownWork)}`,
  Released: (e, _, who) =>
    `${who} released the engine ${RELEASES[e.kind].to}, record ${e.number}.${own(e.ownWork)}`,
  ReleaseWithdrawn: (e, job) =>
    `The release to fitting no longer counts: ${stepName(job, e.stepId)} was worked on again.`,
  WarrantyOpened: (e, _, who) => `${who} opened a warranty case: ${ended(e.complaint)}`,
  WarrantyClosed: (e, _, who) => `${who} closed the warranty case: ${ended(e.finding)}`,
  DatePromised: (e, _, who, words) => `${who} promised ${words.date(e.date)}: ${ended(e.reason)}`,
  NoteAdded: (e, job, who) =>
    `${who} noted${e.stepId ? ` on ${stepName(job, e.stepId)}` : ''}: ${ended(e.text)}`,
  PhotoAdded: (e, job, who) =>
    `${who} took a photo${e.photo.stepId ? ` for ${stepName(job, e.photo.stepId)}` : ''}${e.photo.place && !namesPlace(e.photo) ? `, ${e.photo.place}` : ''}${e.photo.caption ? `: ${ended(e.photo.caption)}` : '.'}`,
  PhotoArrived: (e, job) => {
    const photo = job.photos.find(({ id }) => id === e.photoId)
    return `The photo${photo?.place && !namesPlace(photo) ? ` of ${photo.place}` : ''}${photo?.caption ? ` “${unended(photo.caption)}”` : ''} has arrived.`
  },
}

/** By its steps, which never change; what it is for may have changed again since. */
const holdSteps = (job: Job, holdId: string): string => {
  const steps = job.holds.find(({ id }) => id === holdId)?.stepIds
  return steps ? ` on ${stepNames(job, steps)}` : ''
}

/** A caption that begins with its place has said it. */
const namesPlace = ({ place = '', caption = '' }: { place?: string; caption?: string }): boolean =>
  caption.toLowerCase().startsWith(place.toLowerCase())

const holdName = (job: Job, holdId: string): string =>
  job.holds.find(({ id }) => id === holdId)?.what ?? holdId
