/** Which number on a scale counts for a reading that names none itself. */
import { lookUp } from '../look-up'
import type { TakeReading } from './commands'
import type { Job, ScaleEntry } from './types'

/** [SC8] The number this hand entered last for this wrench, if it was for this target. */
export function scaleInForce(
  job: Job,
  { wrenchId, jointId, pass }: Pick<TakeReading, 'wrenchId' | 'jointId' | 'pass'>,
  by: string,
): ScaleEntry | undefined {
  const scale = wrenchId === undefined ? undefined : lookUp(job.scales, wrenchId)
  return scale?.jointId === jointId && scale.pass === pass && scale.by === by ? scale : undefined
}
