import { kindsOf } from '../kinds'

/** What a joint's class says of it: what is lost when it fails. The names are stored: they never change. */
export const CLASSES = {
  A: 'danger to life or the engine',
  B: 'loss of function',
  C: 'everything else',
} as const satisfies Record<string, string>
export type JointClass = keyof typeof CLASSES
export const JOINT_CLASSES: readonly JointClass[] = kindsOf(CLASSES)

/** The releases a stage of a plan can open, with their words. The names are stored: they never change. */
interface ReleaseEntry {
  word: string
  /** `released to its owner`. */
  to: string
  /** In the number of its record: E-104-F1. */
  letter: string
}

export const RELEASES = {
  to_fitting: { word: 'release to fitting', to: 'to fitting', letter: 'F' },
  to_owner: { word: 'release to the owner', to: 'to its owner', letter: 'R' },
} as const satisfies Record<string, ReleaseEntry>
export type ReleaseKind = keyof typeof RELEASES
