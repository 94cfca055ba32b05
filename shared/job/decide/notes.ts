/** Notes, photos and promises: what the office and the bench leave for each other. */
import { indexPlan } from '../../plan/read'
import { OFFICE } from '../../shop/entitlement'
import type { CommandOf } from '../commands'
import { type Context, done, entryId, no, type Outcome } from '../context'
import type { Job } from '../types'
import { roleMissing } from './roles'

const stepIn = (job: Job, stepId: string) => job.plan && indexPlan(job.plan).stepById.get(stepId)

/** [NO1–NO2] */
export function addNote(job: Job, command: CommandOf<'AddNote'>, context: Context): Outcome {
  const { text, stepId } = command
  if (stepId !== undefined && !stepIn(job, stepId)) return no('step_not_found', { stepId })
  const id = entryId(context.commandId, (taken) => job.notes.some((note) => note.id === taken))
  return [{ type: 'NoteAdded', ...done(context), id, text, ...(stepId === undefined ? {} : { stepId }) }]
}

/** [PH1–PH4] The photo is a fact before its bytes are here. */
export function addPhoto(job: Job, command: CommandOf<'AddPhoto'>, context: Context): Outcome {
  const { photo } = command
  if (job.photos.some(({ id }) => id === photo.id)) return []
  const step = photo.stepId === undefined ? undefined : stepIn(job, photo.stepId)
  if (photo.stepId !== undefined && !step) return no('step_not_found', { stepId: photo.stepId })
  if (photo.gateId !== undefined) {
    const gate = step?.gates.find(({ id }) => id === photo.gateId)
    if (gate?.kind !== 'photo')
      return no('gate_not_found', { stepId: photo.stepId ?? '', gateId: photo.gateId })
    if (photo.place !== undefined && !gate.places.includes(photo.place))
      return no('place_not_found', { what: gate.text, place: photo.place, places: gate.places })
  }
  return [{ type: 'PhotoAdded', ...done(context), photo }]
}

/** [PH5–PH7] Said by the server once the bytes are on disk and match their hash. */
export function confirmPhoto(job: Job, command: CommandOf<'ConfirmPhoto'>, context: Context): Outcome {
  const { photoId } = command
  const photo = job.photos.find(({ id }) => id === photoId)
  if (!photo) return no('photo_not_found', { photoId })
  if (!context.bytesHere?.(photo.sha256)) return no('photo_not_here', { photoId })
  return photo.arrived ? [] : [{ type: 'PhotoArrived', ...done(context), photoId }]
}

/** [PR1–PR3] Every promise keeps its reason; a new one stands after the old. */
export function promiseDate(job: Job, command: CommandOf<'PromiseDate'>, context: Context): Outcome {
  const { date, reason } = command
  const refusal = roleMissing(context, OFFICE, 'promise a date')
  if (refusal) return refusal
  const last = job.promises.at(-1)
  if (last?.date === date && last.reason === reason) return []
  return [{ type: 'DatePromised', ...done(context), date, reason }]
}
