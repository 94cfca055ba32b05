/**
 * What a nut's class bears: ISO 898-2, regular nuts (style 1), coarse and fine threads alike.
 *
 * A nut carries a bolt of the class its number begins: 8 goes with 8.8, 10 with 10.9. Proof stresses from memory of the 1992
 * edition; its proof loads, stress area times these, are checked in `tests/published`.
 */
import { hasText } from './numbers'
import type { Thread } from './thread-types'

/** Above the last size stands nothing: the standard ends at M39. MPa. */
const PROOF_MPA: Readonly<Record<string, readonly (readonly [uptoMm: number, proofMPa: number])[]>> = {
  '5': [
    [4, 520],
    [7, 580],
    [10, 590],
    [16, 610],
    [39, 630],
  ],
  '6': [
    [4, 600],
    [7, 670],
    [10, 680],
    [16, 700],
    [39, 720],
  ],
  '8': [
    [4, 800],
    [7, 855],
    [10, 870],
    [16, 880],
    [39, 920],
  ],
  '10': [
    [10, 1040],
    [16, 1050],
    [39, 1060],
  ],
  '12': [
    [7, 1150],
    [10, 1160],
    [16, 1190],
    [39, 1200],
  ],
}
/** The strongest bolt each may carry. */
const BOLT_OF: Readonly<Record<string, string>> = {
  '5': '5.8',
  '6': '6.8',
  '8': '8.8',
  '10': '10.9',
  '12': '12.9',
}

export interface Nut {
  class: string
  /** The strongest bolt class it may carry. */
  bolt: string
  proofMPa: number
  proofN: number
}

/** A metric nut by its class (`8`, `class 10`); nothing where it names none that is held. */
export function nutOf(
  grade: string,
  thread: Pick<Thread, 'dMm' | 'system' | 'stressAreaMm2'>,
): Nut | undefined {
  const [, mark = ''] =
    /^(?:nut\s*)?(?:class\s*)?(\d{1,2})(?:\s*nut)?$/i.exec(hasText(grade) ? grade.trim() : '') ?? []
  const proofMPa = PROOF_MPA[mark]?.find(([upto]) => thread.dMm <= upto)?.[1]
  const bolt = BOLT_OF[mark]
  if (thread.system !== 'metric' || proofMPa === undefined || bolt === undefined) return undefined
  return { class: mark, bolt, proofMPa, proofN: proofMPa * thread.stressAreaMm2 }
}
