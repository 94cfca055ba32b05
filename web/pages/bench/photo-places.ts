/** The places a photo gate asks for, and how far each has come: open, taken and on its way, here. Pure. */
import type { PlannedJob } from '../../../shared/job/context'
import type { Photo } from '../../../shared/job/types'
import type { AdoptedStep, Gate } from '../../../shared/plan/types'

export interface PhotoPlace {
  place: string
  state: 'open' | 'waiting' | 'here'
  photo?: Photo
}

export const PHOTO_WORDS: Record<PhotoPlace['state'], string> = {
  open: 'to take',
  waiting: 'taken, on its way',
  here: 'taken, here',
}

export function photoPlaces(
  job: PlannedJob,
  step: AdoptedStep,
  gate: Extract<Gate, { kind: 'photo' }>,
): PhotoPlace[] {
  const own = job.photos.filter(({ stepId, gateId }) => stepId === step.id && gateId === gate.id)
  return gate.places.map((place) => {
    const taken = own.filter((photo) => photo.place === place)
    const photo = taken.findLast(({ arrived }) => arrived) ?? taken.at(-1)
    return photo ? { place, state: photo.arrived ? 'here' : 'waiting', photo } : { place, state: 'open' }
  })
}
