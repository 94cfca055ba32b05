/** Parts come in turn, lines as they come near; a print waits for nothing. */
import { createRoot, createSignal } from 'solid-js'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { createNear } from '../../../web/ui/near'

class Line extends EventTarget {
  scrollIntoView = vi.fn()
}
type Told = { target: unknown; isIntersecting: boolean; boundingClientRect: { top: number; bottom: number } }

let tell: (entries: Told[]) => void
let frames: (() => void)[]
let watched: Set<unknown>
/** What each thing that is drawn costs, in milliseconds of a clock of our own. */
let now: number

const at = (target: unknown, top: number, isIntersecting = true): Told => ({
  target,
  isIntersecting,
  boundingClientRect: { top, bottom: top + 10 },
})
/** And what runs once it is painted. */
const frame = () => {
  for (const run of frames.splice(0)) run()
  vi.runAllTimers()
}

beforeEach(() => {
  frames = []
  watched = new Set()
  now = 0
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] })
  const window = new EventTarget()
  class Observer {
    constructor(told: typeof tell) {
      tell = told
    }
    observe = (line: unknown) => watched.add(line)
    unobserve = (line: unknown) => watched.delete(line)
    disconnect = () => watched.clear()
  }
  vi.stubGlobal('IntersectionObserver', Observer)
  vi.stubGlobal('innerHeight', 800)
  vi.stubGlobal('requestAnimationFrame', (run: () => void) => frames.push(run))
  vi.stubGlobal('cancelAnimationFrame', () => frames.splice(0))
  vi.spyOn(performance, 'now').mockImplementation(() => {
    now += 16
    return now
  })
  for (const name of ['addEventListener', 'removeEventListener', 'dispatchEvent'] as const)
    vi.stubGlobal(name, window[name].bind(window))
})
afterEach(() => {
  vi.useRealTimers()
  vi.restoreAllMocks()
  vi.unstubAllGlobals()
})

/** `rows`: of each line; a hundred make a long list. */
function page(rows = 20) {
  return createRoot((dispose) => {
    const near = createNear()
    const words = near.part('last')
    const parts = [near.part(), near.part(), near.part()]
    const lines = Array.from({ length: 5 }, () => {
      const element = new Line()
      const line = near.line(rows)
      line.place(element as unknown as HTMLElement)
      return { element, drawn: line.drawn }
    })
    return { words, parts, lines, dispose }
  })
}
const which = (drawn: readonly (() => boolean)[]) => drawn.map((one) => (one() ? 'drawn' : 'waits')).join(' ')

describe('what is drawn when', () => {
  test('parts in their order, no more in a frame than there is time for; lines after them, the nearest first; words last', () => {
    const { words, parts, lines, dispose } = page()
    tell([at(lines[0]?.element, 1200), at(lines[1]?.element, 300), at(lines[2]?.element, 790)])
    expect(which(parts)).toBe('waits waits waits')
    frame()
    expect(which(parts)).toBe('drawn drawn waits')
    frame()
    expect(which(parts)).toBe('drawn drawn drawn')
    expect(which(lines.map(({ drawn }) => drawn))).toBe('waits waits waits waits waits')
    frame()
    expect(which(lines.map(({ drawn }) => drawn))).toBe('waits drawn drawn waits waits')
    expect(words()).toBe(false)
    frame()
    frame()
    expect(which(lines.map(({ drawn }) => drawn))).toBe('drawn drawn drawn waits waits')
    expect(words()).toBe(true)
    expect(frames).toEqual([])
    dispose()
  })

  test('a long list stands some at a time, more with each turn, also when it grows later; for a print all of it', () => {
    createRoot((dispose) => {
      const [list, setList] = createSignal(['a', 'b', 'c', 'd', 'e'])
      const some = createNear().growing(list, 2)
      const shown = () => some().join('')
      expect(shown()).toBe('ab')
      frame()
      expect(shown()).toBe('abcd')
      frame()
      expect(shown()).toBe('abcde')
      expect(frames).toEqual([])
      setList([...'abcdefghij'])
      expect(shown()).toBe('abcdef')
      dispatchEvent(new Event('beforeprint'))
      expect(shown()).toBe('abcdefghij')
      dispose()
    })
  })

  test('a line that has gone away again before its turn waits on, and one that was drawn stays', () => {
    const { lines, dispose } = page()
    frame()
    frame()
    tell([at(lines[0]?.element, 100)])
    tell([at(lines[0]?.element, 9000, false)])
    frame()
    expect(lines[0]?.drawn()).toBe(false)
    tell([at(lines[0]?.element, 100)])
    frame()
    expect(lines[0]?.drawn()).toBe(true)
    expect(watched.has(lines[0]?.element)).toBe(false)
    dispose()
  })

  test('a line that takes the focus is drawn at once, and one whose words the browser finds comes up', () => {
    const { lines, dispose } = page()
    lines[3]?.element.dispatchEvent(new Event('focusin'))
    expect(lines[3]?.drawn()).toBe(true)
    lines[4]?.element.dispatchEvent(new Event('beforematch'))
    vi.runAllTimers()
    expect(lines[4]?.drawn()).toBe(true)
    expect(lines[4]?.element.scrollIntoView).toHaveBeenCalled()
    vi.useRealTimers()
    dispose()
  })

  test('a short list is drawn whole, though nobody has come near', () => {
    const { lines, words, dispose } = page(16)
    for (let n = 0; n < 5; n++) frame()
    expect(which(lines.map(({ drawn }) => drawn))).toBe('drawn drawn drawn drawn drawn')
    frame()
    expect(words()).toBe(true)
    dispose()
  })

  test('a screenful is drawn with the page itself, and counts for no turn', () => {
    createRoot((dispose) => {
      const near = createNear({ atOnce: 2 })
      const lines = Array.from({ length: 4 }, () => {
        const line = near.line(100)
        line.place(new Line() as unknown as HTMLElement)
        return line.drawn
      })
      expect(which(lines)).toBe('drawn drawn waits waits')
      expect(watched.size).toBe(2)
      expect(frames).toEqual([])
      dispose()
    })
  })

  test('a print draws everything, and the screen is as before afterwards', () => {
    const { words, parts, lines, dispose } = page()
    dispatchEvent(new Event('beforeprint'))
    expect(which([words, ...parts, ...lines.map(({ drawn }) => drawn)])).not.toContain('waits')
    dispatchEvent(new Event('afterprint'))
    expect(which([words, ...parts, ...lines.map(({ drawn }) => drawn)])).not.toContain('drawn')
    dispose()
  })

  test('a page that is left watches nothing and draws nothing any more', () => {
    const { parts, dispose } = page()
    dispose()
    expect(watched.size).toBe(0)
    frame()
    expect(which(parts)).toBe('waits waits waits')
  })
})
