/** A thread as it was read from its designation. */
import type { BasisId } from './basis'
import type { CautionCode } from './cautions'
import type { FastenerRefusal } from './refusals'

export interface Thread {
  /** As it is written here: `M10x1.25`, `3/8-16 UNC`, `#10-32 UNF`. */
  designation: string
  system: 'metric' | 'unified'
  series: 'coarse' | 'fine' | 'UNC' | 'UNF' | 'UNEF' | 'UN' | 'UNS'
  hand: 'right' | 'left'
  /** As printed after the size, where it was: `6g`, `6H`, `2A`. */
  toleranceClass?: string
  /** A bolt length written after the pitch (`M10x1.5x40`), or in its place (`M10x40`). */
  lengthMm?: number
  /** Metric: no pitch was written, and the coarse one is taken. */
  pitchTaken?: true
  /** Unified: threads an inch, and the diameter in inches. */
  tpi?: number
  dIn?: number
  dMm: number
  pitchMm: number
  /** Basic pitch diameter of bolt and hole. */
  d2Mm: number
  /** Root of the bolt's thread. */
  d3Mm: number
  /** Basic minor diameter of the hole's thread. */
  D1Mm: number
  stressAreaMm2: number
  cautions: CautionCode[]
  basis: BasisId[]
}

/** What the other functions take for a thread: its designation, or what `thread` answered. */
export type ThreadGiven = string | Thread | FastenerRefusal
