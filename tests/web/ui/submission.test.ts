/** What every form does between its button and its answer. */
import { createRoot } from 'solid-js'
import { describe, expect, test } from 'vitest'
import { createSubmission, type Refused } from '../../../web/ui/submission'

const submissionOf = (send: () => Refused | Promise<Refused>) => createRoot(() => createSubmission(send))

describe('an answer at once', () => {
  test('is taken without ever being busy', async () => {
    const busy: boolean[] = []
    const form = submissionOf(() => void busy.push(form.busy()))
    const done = form.submit()
    expect(form.busy()).toBe(false)
    expect(await done).toBe(true)
    expect(busy).toEqual([false])
    expect([form.done(), form.error()]).toEqual([true, undefined])
  })
  test('a sentence is why not, and stands until the next thing is entered', async () => {
    const form = submissionOf(() => 'Write the note first.')
    expect(await form.submit()).toBe(false)
    expect([form.done(), form.error()]).toEqual([false, 'Write the note first.'])
    form.reset()
    expect(form.error()).toBeUndefined()
  })
  test('false is a refusal that the fields explain', async () => {
    const form = submissionOf(() => false)
    expect(await form.submit()).toBe(false)
    expect([form.done(), form.error()]).toEqual([false, undefined])
  })
})

describe('an answer that is awaited', () => {
  test('busy until it comes, and nothing is sent twice meanwhile', async () => {
    let sent = 0
    let answer: (refused: Refused) => void = () => {}
    const form = submissionOf(() => {
      sent += 1
      return new Promise<Refused>((resolve) => {
        answer = resolve
      })
    })
    const first = form.submit()
    expect(form.busy()).toBe(true)
    expect(await form.submit()).toBe(false)
    answer(undefined)
    expect(await first).toBe(true)
    expect([sent, form.busy(), form.done()]).toEqual([1, false, true])
  })
  test('after a refusal it may be tried again', async () => {
    const answers: Refused[] = ['These initials are taken.', undefined]
    const form = submissionOf(async () => answers.shift())
    expect(await form.submit()).toBe(false)
    expect(form.error()).toBe('These initials are taken.')
    expect(await form.submit()).toBe(true)
    expect(form.error()).toBeUndefined()
  })
  test('is not busy for ever when sending breaks', async () => {
    const form = submissionOf(() => Promise.reject(new Error('broken')))
    await expect(form.submit()).rejects.toThrow('broken')
    expect(form.busy()).toBe(false)
  })
})
