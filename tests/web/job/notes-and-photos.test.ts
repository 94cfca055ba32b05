/** Notes in their order and the command that adds one; what a photo is called. */
import { expect, test } from 'vitest'
import { addNote, notesOf } from '../../../web/job/notes/notes'
import { photosOf, photoTitle } from '../../../web/job/photos/photos'
import { tell } from '../../shop/small-engine'
import { START } from '../../shop/time'

test('notes: newest first, for a step or for all', () => {
  const { job } = tell(
    ['bram', { type: 'AddNote', text: 'one' }],
    ['suvi', { type: 'AddNote', text: 'two', stepId: 'S1' }],
  )
  expect(notesOf(job).map(({ text }) => text)).toEqual(['two', 'one'])
  expect(notesOf(job, 'S1').map(({ text }) => text)).toEqual(['two'])
})

test('a note is on the engine unless a step is named', () => {
  expect(addNote(' ', undefined)).toBe('Write the note first.')
  expect(addNote(' weeps ', '')).toEqual({ type: 'AddNote', text: 'weeps' })
  expect(addNote('weeps', 'S1')).toEqual({ type: 'AddNote', text: 'weeps', stepId: 'S1' })
})

test('a photo is named by its caption, its place once, and its step', () => {
  expect(photoTitle({})).toBe('Photo of the engine')
  expect(photoTitle({ caption: 'Port 3, clear.', place: 'port 3', stepId: 'F3' })).toBe(
    'Port 3, clear, on F3',
  )
  expect(photoTitle({ place: 'port 3' })).toBe('port 3')
})

test('photos: newest first, for a step or for all', () => {
  const photo = { sha256: '', bytes: 1, mime: 'image/jpeg' as const, widthPx: 1, heightPx: 1, by: 'bram' }
  const job = {
    ...tell().job,
    photos: [
      { ...photo, id: 'a', doneAt: START },
      { ...photo, id: 'b', doneAt: START + 1, stepId: 'S1' },
    ],
  }
  expect(photosOf(job).map(({ id }) => id)).toEqual(['b', 'a'])
  expect(photosOf(job, 'S1').map(({ id }) => id)).toEqual(['b'])
})
