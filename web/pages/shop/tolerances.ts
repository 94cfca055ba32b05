/** Tolerances and the self-recheck as they are typed, and what they come to in words. */
import { bandOf } from '../../../shared/plan/adopt'
import { JOINT_CLASSES, type JointClass } from '../../../shared/plan/kinds'
import type { Tolerances } from '../../../shared/plan/types'
import type { SelfRecheck } from '../../../shared/shop/types'
import { format } from '../../format'
import { numberFrom, textOf } from './numbers'

const MOST_PERCENT = 50
const MOST_DEG = 45
const MOST_MINUTES = 100_000
const EXAMPLE_NM = 80

export type ToleranceDraft = Record<JointClass | 'angle', string>

export const toleranceDraft = ({ percent, angleDeg }: Tolerances): ToleranceDraft => ({
  A: textOf(percent.A),
  B: textOf(percent.B),
  C: textOf(percent.C),
  angle: textOf(angleDeg),
})

/** The tolerances, or the sentence that says what is wrong with them. */
export function tolerancesFrom(draft: ToleranceDraft): Tolerances | string {
  const percent = {} as Record<JointClass, number>
  for (const cls of JOINT_CLASSES) {
    const value = numberFrom(draft[cls])
    if (value === undefined || value <= 0 || value > MOST_PERCENT)
      return `Class ${cls}: write a number of per cent above 0, up to ${MOST_PERCENT}.`
    percent[cls] = value
  }
  const angleDeg = numberFrom(draft.angle)
  if (angleDeg === undefined || angleDeg <= 0 || angleDeg > MOST_DEG)
    return `Angle: write a number of degrees above 0, up to ${MOST_DEG}.`
  return { percent, angleDeg }
}

/** `80 N·m is in band from 76 to 84 N·m`, by the very rule that adoption uses. */
export function exampleWords(tolerances: Tolerances, cls: JointClass): string {
  const band = bandOf({ kind: 'torque', torqueNm: EXAMPLE_NM }, { class: cls }, tolerances)
  if (band?.kind !== 'torque') return ''
  return `${format.number(EXAMPLE_NM)} N·m is in band from ${format.number(band.minNm)} to ${format.number(band.maxNm)} N·m`
}

/** What follows from it, in words for everybody. */
export function recheckWords(selfRecheck: SelfRecheck): string {
  if (!selfRecheck.allowed)
    return 'Off. A second signature is always another entitled person’s, who has looked.'
  return `On. Whoever signed may look at their own class B and C work again after ${format.duration(selfRecheck.afterMinutes)} and give the second signature themselves; the record says so. Class A always takes another person.`
}

/** The setting, or the sentence that says what is wrong with it. */
export function recheckFrom(allowed: boolean, minutes: string): SelfRecheck | string {
  if (!allowed) return { allowed: false }
  const afterMinutes = numberFrom(minutes)
  if (
    afterMinutes === undefined ||
    !Number.isInteger(afterMinutes) ||
    afterMinutes < 1 ||
    afterMinutes > MOST_MINUTES
  )
    return `Write after how many whole minutes, 1 to ${MOST_MINUTES}.`
  return { allowed: true, afterMinutes }
}
