/** The places a photo gate asks for, and how far each has come: open, taken and on its way, refused, here. Pure. */
import type { Photo, PlannedJob } from '../../../shared/job/types'
import type { AdoptedStep, Gate } from '../../../shared/plan/types'

export interface PhotoPlace {
  place: string
  state: 'open' | 'waiting' | 'refused' | 'here'
  photo?: Photo
}

export const PHOTO_WORDS: Record<PhotoPlace['state'], string> = {
  open: 'to take',
  waiting: 'taken, on its way',
  refused: 'taken, but the server would not have it',
  here: 'taken, here',
}

export function photoPlaces(
  job: PlannedJob,
  step: AdoptedStep,
  gate: Extract<Gate, { kind: 'photo' }>,
  /** Hashes of what lies on this device refused. */
  refused: ReadonlySet<string> = new Set(),
): PhotoPlace[] {
  const own = job.photos.filter(({ stepId, gateId }) => stepId === step.id && gateId === gate.id)
  return gate.places.map((place) => {
    const taken = own.filter((photo) => photo.place === place)
    const photo = taken.findLast(({ arrived }) => arrived) ?? taken.at(-1)
    if (!photo) return { place, state: 'open' }
    const state = photo.arrived ? 'here' : refused.has(photo.sha256) ? 'refused' : 'waiting'
    return { place, state, photo }
  })
}
