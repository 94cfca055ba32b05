/** What a watcher is given first, where the disk and what is in memory differ: an answer, and no head that is not this state's. */
import { expect, test } from 'vitest'
import type { Desk } from '../../server/desk'
import { initialSync } from '../../server/gateway/watch'
import { makeRig } from './rig'

test('[WI7] a head of another version, as of a row that was altered under the server: the state without it, at once', async () => {
  const { desk, opened } = await makeRig()
  await opened()
  let looks = 0
  const altered: Desk = {
    ...desk,
    async head(stream) {
      if (++looks > 20) throw new Error('It looks again and again.')
      return { stream, version: 99, hash: 'ab'.repeat(32) }
    },
  }
  let joined = 0
  const given = { now: () => 7, epoch: 'first', join: () => void joined++ }
  const sent = await initialSync(altered, 'job:j1', undefined, given)
  const answer = sent?.answer
  expect(answer).toMatchObject({ ok: true, room: 'job:j1', epoch: 'first', now: 7 })
  expect(answer).not.toHaveProperty('head')
  expect([joined, looks]).toEqual([1, 1])
})
