/** A joint's readings looked up by position, indexed once a list; a list never changes in place. */
import type { Reading } from '../types'
import { stands } from './state'

export interface ReadingIndex {
  /** Neither struck nor superseded, in the order they were recorded. */
  standing: readonly Reading[]
  /** The same, by position. */
  standingAt: ReadonlyMap<number, readonly Reading[]>
  /** By position: where all its readings are in the list. */
  placesOf: ReadonlyMap<number, readonly number[]>
}

const indexes = new WeakMap<readonly Reading[], ReadingIndex>()
const NONE: ReadingIndex = { standing: [], standingAt: new Map(), placesOf: new Map() }

export function indexReadings(list: readonly Reading[] | undefined): ReadingIndex {
  if (!list || list.length === 0) return NONE
  const known = indexes.get(list)
  if (known) return known
  const standing: Reading[] = []
  const standingAt = new Map<number, Reading[]>()
  const placesOf = new Map<number, number[]>()
  for (const [place, reading] of list.entries()) {
    append(placesOf, reading.position, place)
    if (!stands(reading)) continue
    standing.push(reading)
    append(standingAt, reading.position, reading)
  }
  const index = { standing, standingAt, placesOf }
  indexes.set(list, index)
  return index
}

function append<V>(lists: Map<number, V[]>, key: number, value: V): void {
  const list = lists.get(key)
  if (list) list.push(value)
  else lists.set(key, [value])
}
