/**
 * The wrench in the hand: what its scale applies at the fastener, whether it can be trusted there, whether the number
 * on it could be a slip of unit, and which of the crib to reach for.
 *
 * A click wrench proves a setting, not a value; everything here speaks of what was set or shown.
 */
export {
  checkPointsNm,
  coarsestResolutionNm,
  deviationLimitPct,
  deviationPasses,
  deviationPct,
  type Tool,
  type ToolClass,
  type ToolType,
} from './deviation'
export { wrenchDoubts, wrenchThen } from './doubts'
export { applied, appliedNm, type LeverInput, leverFactor, settingFor, wrenchSetting } from './lever'
export { type Crib, type Demerit, type Picked, type PickJoint, pickWrench } from './pick'
export { againstWrench } from './pick-words'
export { type WrenchRefusal, wrenchSentence } from './refusals'
export {
  hasTorqueScale,
  inRange,
  lowOnScale,
  type Room,
  roomFor,
  type Setting,
  settingOn,
  type TorqueBand,
  type TorqueWrench,
} from './setting'
export { unitSlip, unitsInUse } from './slip'
