/** What a person is told of two printed units that are one torque, though rounding alone does not explain them. */
import type { Figures } from '../words'
import type { Contradiction, PrintedTorque } from './types'

/** `“120 N·m” and “90 lbf·ft” are 1.7 % apart. The first is taken.` */
export function remarkSentenceFor({ first, second }: Contradiction, { number }: Figures): string {
  const pairs = (['nominalNm', 'minNm', 'maxNm'] as const).flatMap((key) => share(first, second, key))
  return `“${first.text}” and “${second.text}” are ${number(100 * Math.max(0, ...pairs), 1)} % apart. The first is taken.`
}

/** Words that stand beside a torque and were not read: they go along with it, and decide nothing. */
export const noteSentenceFor = (note: string): string => `Printed beside it, and not read: “${note}”.`

function share(one: PrintedTorque, other: PrintedTorque, key: 'nominalNm' | 'minNm' | 'maxNm'): number[] {
  const [a, b] = [one[key], other[key]]
  return a === undefined || b === undefined ? [] : [Math.abs(a - b) / Math.max(a, b)]
}
