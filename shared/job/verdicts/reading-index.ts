/**
 * A joint's readings looked up by position and by id. Indexed once a list, and from then on carried along as readings are
 * added, so that the ten thousandth costs as much as the tenth; a list never changes in place.
 */
import { append } from '../../look-up'
import type { Job, Reading } from '../types'
import { stands } from './state'

export interface ReadingIndex {
  /** By position: neither struck nor superseded, in the order they were recorded. */
  standingAt: ReadonlyMap<number, readonly Reading[]>
  /** By position: where all its readings are in the list. */
  placesOf: ReadonlyMap<number, readonly number[]>
  /**
   * By id: where a reading is in the list. Shared with the lists this one grew into, so it may name places that lie beyond
   * it or hold another reading here; `placeOf` looks.
   */
  places: Map<string, number>
}

const indexes = new WeakMap<readonly Reading[], ReadingIndex>()
const NONE: readonly Reading[] = []

export function indexReadings(list: readonly Reading[] = NONE): ReadingIndex {
  const cached = indexes.get(list)
  if (cached) return cached
  const standingAt = new Map<number, Reading[]>()
  const placesOf = new Map<number, number[]>()
  const places = new Map<string, number>()
  for (const [place, reading] of list.entries()) {
    append(placesOf, reading.position, place)
    places.set(reading.id, place)
    if (stands(reading)) append(standingAt, reading.position, reading)
  }
  const index = { standingAt, placesOf, places }
  indexes.set(list, index)
  return index
}

/** Where a reading is in the list, or nothing. */
export function placeOf(list: readonly Reading[], id: string): number | undefined {
  const place = indexReadings(list).places.get(id)
  return place !== undefined && list[place]?.id === id ? place : undefined
}

/**
 * The list with one more reading; those of its position that stand and that it takes the place of are marked. What is not
 * touched is shared.
 */
export function addReading(
  list: readonly Reading[],
  reading: Reading,
  replaces: (earlier: Reading) => boolean,
  superseded: NonNullable<Reading['superseded']>,
): Reading[] {
  const { standingAt, placesOf, places } = indexReadings(list)
  const { position, id } = reading
  const next = list.slice()
  const stay: Reading[] = []
  for (const earlier of standingAt.get(position) ?? []) {
    const place = replaces(earlier) ? placeOf(list, earlier.id) : undefined
    if (place === undefined) stay.push(earlier)
    else next[place] = { ...earlier, superseded }
  }
  next.push(reading)
  // Two lists that grew apart from this one may hold the same reading at different places: then each has its own.
  const place = places.get(id)
  if (place !== undefined && place !== list.length) return next
  places.set(id, list.length)
  indexes.set(next, {
    standingAt: new Map(standingAt).set(position, stands(reading) ? [...stay, reading] : stay),
    placesOf: new Map(placesOf).set(position, [...(placesOf.get(position) ?? []), list.length]),
    places,
  })
  return next
}

/** By id: the joint a reading of this job is of. Shared like `places`, and looked at like it. */
const joints = new WeakMap<Job['readings'], Map<string, string>>()

/** The reading of a job with this id, wherever it is. */
export function readingById({ readings }: Job, id: string): Reading | undefined {
  let jointOf = joints.get(readings)
  if (!jointOf) {
    jointOf = new Map()
    for (const [joint, list] of Object.entries(readings))
      for (const { id: each } of list) jointOf.set(each, joint)
    joints.set(readings, jointOf)
  }
  const list = readings[jointOf.get(id) ?? '']
  return list?.[placeOf(list, id) ?? -1]
}

/** What `evolve` calls where readings changed, with the one that is new, if one is. */
export function carryJoints(before: Job['readings'], after: Job['readings'], reading?: Reading): void {
  const jointOf = joints.get(before)
  if (!jointOf) return
  const jointBefore = reading && jointOf.get(reading.id)
  if (reading && jointBefore !== undefined && jointBefore !== reading.jointId) return
  if (reading) jointOf.set(reading.id, reading.jointId)
  joints.set(after, jointOf)
}
