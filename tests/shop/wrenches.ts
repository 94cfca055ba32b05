/** The test shop's crib: a click wrench in service and in date, unless a test says otherwise. */
import type { Wrench } from '../../shared/shop/types'
import { DAY, START } from './time'

export const wrench = (id: string, some: Partial<Wrench> = {}): Wrench => ({
  id,
  kind: 'click',
  title: `Wrench ${id}`,
  unit: 'N·m',
  min: 5,
  max: 60,
  lastCheckedAt: START - 100 * DAY,
  dueAt: START + 265 * DAY,
  state: 'in_service',
  ...some,
})

/** One of every kind. */
export const crib = {
  /** Clicks, N·m. */
  click: wrench('click'),
  /** Clicks, lbf·ft. */
  foot: wrench('foot', { unit: 'lbf·ft', min: 5, max: 80 }),
  /** Shows, N·m. */
  dial: wrench('dial', { kind: 'indicating', max: 100 }),
  gauge: wrench('gauge', { kind: 'angle_gauge', unit: 'deg', min: 0, max: 360 }),
  failed: wrench('failed', { kind: 'indicating', state: 'failed' }),
  stale: wrench('stale', { kind: 'indicating', dueAt: START - DAY }),
}
