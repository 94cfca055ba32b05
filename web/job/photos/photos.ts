/**
 * Photos as every page shows them: what one is called, and how far each place a check asks for has come. Pure.
 *
 * Compact (bench): the camera, for the step or a place in one press, and the step's pictures small. Full (engine):
 * every picture of the engine, from a file too. Either way one press shows it large.
 */
import type { Job, Photo, PlannedJob } from '../../../shared/job/types'
import type { AdoptedStep, Gate } from '../../../shared/plan/types'

/** Newest first; for one step or for all. */
export const photosOf = (job: Job, stepId?: string): Photo[] =>
  job.photos
    .filter((photo) => stepId === undefined || photo.stepId === stepId)
    .toSorted((a, b) => b.doneAt - a.doneAt)

/** Its place where the caption leaves it out, its caption, its step. */
export function photoTitle({ caption, place, stepId }: Pick<Photo, 'caption' | 'place' | 'stepId'>): string {
  const text = caption?.replace(/\.$/, '')
  const where = place && !text?.toLowerCase().includes(place.toLowerCase()) ? place : undefined
  return (
    [where, text, stepId ? `on ${stepId}` : undefined].filter(Boolean).join(', ') || 'Photo of the engine'
  )
}

export const photoAddress = ({ sha256 }: Pick<Photo, 'sha256'>): string => `/api/photos/${sha256}`

interface PhotoPlace {
  place: string
  state: 'open' | 'waiting' | 'refused' | 'here'
  photo?: Photo
}

export const PLACE_WORDS: Record<PhotoPlace['state'], string> = {
  open: 'to take',
  waiting: 'taken, on its way',
  refused: 'taken, but the server refused it',
  here: 'taken, here',
}

export function photoPlaces(
  job: PlannedJob,
  step: AdoptedStep,
  gate: Extract<Gate, { kind: 'photo' }>,
  /** Hashes of what lies on this device refused. */
  refused: ReadonlySet<string> = new Set(),
): PhotoPlace[] {
  const ofGate = job.photos.filter(({ stepId, gateId }) => stepId === step.id && gateId === gate.id)
  return gate.places.map((place) => {
    const taken = ofGate.filter((photo) => photo.place === place)
    const photo = taken.findLast(({ arrived }) => arrived) ?? taken.at(-1)
    if (!photo) return { place, state: 'open' }
    const state = photo.arrived ? 'here' : refused.has(photo.sha256) ? 'refused' : 'waiting'
    return { place, state, photo }
  })
}
