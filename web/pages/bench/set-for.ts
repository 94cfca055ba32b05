/** Where each wrench is set for, as this device was told last, across engines: no job knows what is done on another. */
import { recall, remember } from '../../ui/device'

const keyOf = (wrenchId: string): string => `paintmark-set-${wrenchId}`

export const noteSetFor = (wrenchId: string, place: string): void => remember(keyOf(wrenchId), place)

/** Whether this device was told since that it is set for another place: what was entered here is on its scale no more. */
export function isSetElsewhere(wrenchId: string, place: string): boolean {
  const last = recall(keyOf(wrenchId))
  return last !== undefined && last !== place
}
