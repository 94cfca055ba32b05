/** The board draws the strips near the screen; a print draws them all. */
import { createRoot } from 'solid-js'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { createNear } from '../../../web/pages/board/near'

/** What the browser would tell of each row that is watched. */
let come: (row: unknown) => void
let watched: Set<unknown>

beforeEach(() => {
  watched = new Set()
  const window = new EventTarget()
  class Observer {
    constructor(tell: (entries: { target: unknown; isIntersecting: boolean }[]) => void) {
      come = (target) => tell([{ target, isIntersecting: true }])
    }
    observe = (row: unknown) => watched.add(row)
    unobserve = (row: unknown) => watched.delete(row)
    disconnect = () => watched.clear()
  }
  vi.stubGlobal('IntersectionObserver', Observer)
  for (const name of ['addEventListener', 'removeEventListener', 'dispatchEvent'] as const)
    vi.stubGlobal(name, window[name].bind(window))
})
afterEach(() => {
  vi.unstubAllGlobals()
})

const rows = Array.from({ length: 40 }, (_, n) => ({ n }) as unknown as Element)

function watchAll() {
  return createRoot((dispose) => {
    const near = createNear()
    return { drawn: rows.map((row) => near.watch(row)), dispose }
  })
}
const count = (drawn: readonly (() => boolean)[]) => drawn.filter((one) => one()).length

describe('rows near the screen', () => {
  test('a screenful is drawn at once, the others when they come near, and then for good', () => {
    const { drawn, dispose } = watchAll()
    expect(count(drawn)).toBe(12)
    expect(drawn[30]?.()).toBe(false)
    come(rows[30])
    expect(drawn[30]?.()).toBe(true)
    expect(watched.has(rows[30])).toBe(false)
    expect(count(drawn)).toBe(13)
    dispose()
  })

  test('a print draws every row, and the screen is as before afterwards', () => {
    const { drawn, dispose } = watchAll()
    dispatchEvent(new Event('beforeprint'))
    expect(count(drawn)).toBe(40)
    dispatchEvent(new Event('afterprint'))
    expect(count(drawn)).toBe(12)
    dispose()
  })

  test('a board that is left watches nothing any more', () => {
    const { dispose } = watchAll()
    expect(watched.size).toBe(28)
    dispose()
    expect(watched.size).toBe(0)
  })
})
