/** Torque and length units, how they are printed and read. Stored torques are N·m, lengths mm; other units exist at the edges only. */
export {
  fromMm,
  LENGTH_UNITS,
  type LengthUnit,
  type ParsedLength,
  parseLength,
  showInch,
  toMm,
} from './length'
export {
  type DecimalSign,
  type Figure,
  isAmbiguous,
  numberAt,
  type PrintedNumber,
  plainDigits,
  provenSign,
  readBy,
} from './numbers'
export { type ParsedTorque, parseTorque, USUAL_UNITS, unambiguous } from './parse'
export { type Reading, type UnitRefusalCode, unitSentenceFor } from './refusals'
export { roundToDigits, roundToIncrement } from './rounding'
export { formatNumber, roundTo, showTorque, unitAfter } from './show'
export { isCustomary, unitAt, unitNamed } from './spellings'
export { compareNm, fromNm, TORQUE_UNITS, type TorqueUnit, toMicroNm, toNm } from './torque'
