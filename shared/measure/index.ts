/**
 * What an instrument read, turned into what the bench must know: clearances, form, volumes, and which shim or gasket
 * to take, each with its verdict against the limits and what to do next.
 *
 * The maker's limits and tables govern; nothing here replaces them. Lengths in mm, volumes in cm³, angles in degrees.
 */
export { flatnessLimit, outOfRound, taper } from './bores'
export {
  type BearingInput,
  bearingClearance,
  bearingRuleMm,
  endPlay,
  ringGap,
  ringGapRuleMm,
} from './clearances'
export {
  type CompressionInput,
  compressionRatio,
  type GasketChoice,
  type GasketGrade,
  gasketGrade,
  gasketWords,
  sweptVolumeCc,
} from './cylinders'
export { isAgainst, type LeadsTo, type Led, leadsTo, ledWords } from './leads-to'
export { type MeasureRefusal, measureSentence } from './refusals'
export {
  type ShimChoice,
  type ShimSizes,
  type ShimTarget,
  shimWords,
  thrustShim,
  timingShim,
  valveShim,
} from './shims'
export { type Spread, spread } from './statistics'
export { type Judged, judge, type Limits, type MeasureVerdict, verdictOn } from './verdict'
