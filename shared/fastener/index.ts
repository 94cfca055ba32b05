/**
 * The fastener's truth: threads, strengths, torque and preload, engagement, holes and inserts, angles and orders.
 *
 * Pure reckoning for any size, each formula with its source (`basis.ts`) and what must be said beside it
 * (`cautions.ts`). A person's input never throws and never comes out as NaN: it is refused, with a sentence
 * (`refusals.ts`). Lengths are mm, forces N, torques N·m, stresses MPa.
 */
export { type AirframeTorque, airframeTorque } from './airframe-table'
export { type AnglePreload, type AnglePreloadInput, anglePreload, type TurnOfNut, turnOfNut } from './angle'
export { BASIS, type Basis, type BasisId, type BasisStatus } from './basis'
export { CAUTIONS, type CautionCode } from './cautions'
export { doubtsInWords, doubtWords } from './doubts'
export { type Engagement, type EngagementInput, engagement, type WeakestLink } from './engagement'
export {
  FRICTION_CLASSES,
  type FrictionBand,
  frictionBand,
  LUBRICATION_EXAMPLES,
  LUBRICATIONS,
  type Lubrication,
  type LubricationBand,
  NUT_FACTORS,
  PRELOAD_SCATTER,
  type PreloadScatter,
  preloadScatter,
  readLubrication,
  TIGHTENING_METHODS,
  type TighteningMethod,
} from './friction'
export { type HoleSeries, usualHead } from './head'
export {
  type HoleFit,
  type HoleFitInput,
  type HoleVerdict,
  holeFit,
  type ShankFault,
  STANDARD_LENGTHS_MM,
  standardThreadMm,
} from './hole-fit'
export {
  type InsertGiven,
  type InsertHold,
  type InsertPlan,
  insertHold,
  insertPlan,
  WIRE_LENGTHS_D,
} from './inserts'
export { type Doubt, judgeTorque, loadAfter, type TorqueJudgement, type TorqueToJudge } from './judge'
export { HOLE_MATERIALS, type HoleMaterial, type HoleMaterialGiven, holeMaterial, RESERVE } from './materials'
export {
  looseningOrder,
  ORDER_PATTERNS,
  type OrderPattern,
  type PatternGiven,
  type Place,
  type PositionsGiven,
  type ProposedOrder,
  proposeOrder,
  tighteningOrder,
} from './order'
export {
  asOnAScale,
  type Proposal,
  type ProposalAdded,
  type ProposalInputs,
  type ProposalJoint,
  type ProposalResults,
  type Proposed,
  propose,
} from './proposal'
export {
  type Mends,
  mends,
  OWN_PROPOSAL_REFUSALS,
  type ProposalRefusal,
  proposalSentence,
} from './proposal-refusals'
export {
  heldWords,
  inputsWords,
  kiloNewton,
  LINK_WORDS,
  PROPOSAL_METHOD,
  resultsWords,
} from './proposal-words'
export {
  FASTENER_REFUSAL_CODES,
  type FastenerRefusal,
  type FastenerRefusalCode,
  fastenerSentence,
} from './refusals'
export {
  checkStretch,
  checkUse,
  type FastenerUse,
  type StretchCheck,
  type StretchInput,
  type UseCheck,
} from './reuse'
export {
  type PreloadRange,
  type PreloadRangeInput,
  preloadRange,
  type ShortForm,
  type ShortFormInput,
  shortForm,
} from './short-form'
export {
  type GradeGiven,
  proofLoadN,
  type Strength,
  type StrengthRange,
  strength,
  ultimateLoadN,
  yieldLoadN,
} from './strength'
export { thread } from './thread'
export { COARSE_PITCH_MM, UNIFIED } from './thread-series'
export type { Thread, ThreadGiven } from './thread-types'
export { type Tightening, type TighteningAt, type TighteningInput, tightening } from './tightening'
export { limits, type ThreadLimits } from './tolerance'
export { HOLE_MATERIAL_TERMS, LUBRICATION_TERMS, type Term } from './vocabulary'
