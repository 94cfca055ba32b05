/** How what people wrote is fitted into a sentence. */
import { expect, test } from 'vitest'
import { ended, unended } from '../../shared/words'

test('one mark at the end, whatever was written', () => {
  expect(
    ['seen', 'seen.', ' seen. ', 'seen?', 'seen!', 'seen…', 'he said “seen.”', '(seen)'].map(ended),
  ).toEqual(['seen.', 'seen.', 'seen.', 'seen?', 'seen!', 'seen…', 'he said “seen.”', '(seen).'])
})

test('without its full stop where the sentence goes on; dots that mean more stay', () => {
  expect(['seen.', 'seen', 'seen?', 'seen...', ' a. b. '].map(unended)).toEqual([
    'seen',
    'seen',
    'seen?',
    'seen...',
    'a. b',
  ])
})
