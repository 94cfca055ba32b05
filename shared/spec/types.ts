/** What a manual prints for one fastener, once it is read. N·m and degrees. */
import type { TorqueUnit } from '../units'

export interface Spec {
  passes: SpecPass[]
  /** Two printed units that cannot mean the same torque. The passes hold what the first one says. */
  contradiction?: Contradiction
  /** Two printed units that are further apart than rounding, and within 2.5 %: the first counts. */
  remark?: Contradiction
}

export type SpecPass = TorqueSpec | AngleSpec | SlackenSpec

/** A range has no nominal unless one is printed beside it; one limit alone stands alone. */
export interface TorqueSpec {
  kind: 'torque'
  nominalNm?: number
  minNm?: number
  maxNm?: number
}
export interface AngleSpec {
  kind: 'angle'
  nominalDeg?: number
  minDeg?: number
  maxDeg?: number
}
/** Without an angle: fully. */
export interface SlackenSpec {
  kind: 'slacken'
  nominalDeg?: number
  minDeg?: number
  maxDeg?: number
}

export interface Contradiction {
  /** Which pass, from 0. */
  pass: number
  first: PrintedTorque
  second: PrintedTorque
}

/** A torque as it stands in the text, and what that is in N·m. */
export interface PrintedTorque {
  text: string
  unit: TorqueUnit
  nominalNm?: number
  minNm?: number
  maxNm?: number
}
