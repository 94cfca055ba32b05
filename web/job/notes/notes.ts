/** Notes on the engine or on a step, newest first, and the command that adds one. Pure. */
import type { JobCommand } from '../../../shared/job/commands'
import type { Job, Note } from '../../../shared/job/types'

/** For one step or for all. */
export const notesOf = (job: Job, stepId?: string): Note[] =>
  job.notes
    .filter((note) => stepId === undefined || note.stepId === stepId)
    .toSorted((a, b) => b.doneAt - a.doneAt)

export const addNote = (text: string, stepId: string | undefined): JobCommand | string =>
  text.trim()
    ? { type: 'AddNote', text: text.trim(), ...(stepId ? { stepId } : {}) }
    : 'Write the note first.'
