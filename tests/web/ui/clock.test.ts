/** The clock of every page: it moves while it is looked at, and stops with the page. */
import { createRoot } from 'solid-js'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { createNow } from '../../../web/ui/clock'

class Page extends EventTarget {
  visibilityState = 'visible'
  show(state: 'visible' | 'hidden') {
    this.visibilityState = state
    this.dispatchEvent(new Event('visibilitychange'))
  }
}

let page: Page
let time = 0
beforeEach(() => {
  vi.useFakeTimers()
  page = new Page()
  vi.stubGlobal('document', page)
  time = 1000
})
afterEach(() => {
  vi.useRealTimers()
  vi.unstubAllGlobals()
})

const clockOf = (everyMs: number) =>
  createRoot((dispose) => ({ now: createNow(() => time, everyMs), dispose }))

test('moves as often as asked, and stands still between', () => {
  const { now } = clockOf(500)
  time = 1400
  vi.advanceTimersByTime(400)
  expect(now()).toBe(1000)
  time = 1500
  vi.advanceTimersByTime(100)
  expect(now()).toBe(1500)
})

test('stands still while nobody looks, and is right at once when somebody does', () => {
  const { now } = clockOf(500)
  page.show('hidden')
  time = 9000
  vi.advanceTimersByTime(8000)
  expect(now()).toBe(1000)
  page.show('visible')
  expect(now()).toBe(9000)
})

test('ends with its page', () => {
  const { now, dispose } = clockOf(500)
  dispose()
  time = 9000
  vi.advanceTimersByTime(8000)
  page.show('visible')
  expect(now()).toBe(1000)
  expect(vi.getTimerCount()).toBe(0)
})
