/** What a manual printed for one fastener, read into passes; and passes printed so that they are read back. */
export { specPassWords, torqueWords } from './pass-words'
export { printSpec } from './print'
export { readSpec, type SpecContext } from './read'
export {
  SPEC_REFUSAL_CODES,
  type SpecReading,
  type SpecRefusal,
  type SpecRefusalCode,
  specSentenceFor,
} from './refusals'
export { noteSentenceFor, remarkSentenceFor } from './remark'
export type {
  AngleSpec,
  Contradiction,
  PrintedTorque,
  SlackenSpec,
  Spec,
  SpecPass,
  TorqueSpec,
} from './types'
