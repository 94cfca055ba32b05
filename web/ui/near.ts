/**
 * What of a long page is drawn when, so that its first screen stands at once and no tap waits for the rest.
 *
 * Parts come in turn, a slice after each frame, so that what stands is painted before more is drawn. Lines of a long list wait until they come near the screen, nearest first, and then
 * stay; a short list is drawn whole. A line that waits keeps its place, its name and about its room; it is drawn at once when it takes the focus, so
 * the keyboard passes over nothing, and when the browser's own search finds its words (`Findable`). Paper has no
 * screen to be near to: before a print everything is drawn.
 */
import {
  type Accessor,
  createComputed,
  createContext,
  createSignal,
  onCleanup,
  untrack,
  useContext,
} from 'solid-js'
import { createPrinting } from './printing'

/** After this long the others wait until what came is painted. */
const SLICE_MS = 30
/** A list of no more rows than this is drawn whole. */
const SHORT = 80

export interface Waiting {
  drawn: Accessor<boolean>
  /** Takes the element that stands there before and after. */
  place(element: HTMLElement): void
}

export interface Near {
  /** A line: once it is near, or in its turn where the whole list is short. `rows`: how many it draws. */
  line(rows: number): Waiting
  /** A part of the page: when its turn comes; `last`: when nothing that is seen waits. */
  part(when?: 'last'): Accessor<boolean>
  /** So many of a long list, and as many more with each turn until all stand. */
  growing<T>(list: Accessor<readonly T[]>, some: number): Accessor<readonly T[]>
}

const DRAWN: Waiting = { drawn: () => true, place: () => undefined }

export const NearContext = createContext<Near>()

export function useNear(): Near {
  const near = useContext(NearContext)
  if (!near) throw new Error('useNear is for parts of a page that gives a NearContext')
  return near
}

/** `atOnce`: so many lines are drawn with the page itself, so that none of its first screen comes in empty. */
export function createNear({ atOnce = 0 } = {}): Near {
  const printing = createPrinting()
  const parts = new Set<() => void>()
  const last = new Set<() => void>()
  const lines = new Map<Element, () => void>()
  /** Lines that are near, with how far from the middle of the screen. */
  const due = new Map<Element, number>()
  let rowsInAll = 0
  let linesInAll = 0
  let frame: number | undefined
  let afterFrame: ReturnType<typeof setTimeout> | undefined

  const observer = new IntersectionObserver(
    (entries) => {
      for (const { target, isIntersecting, boundingClientRect } of entries)
        if (isIntersecting) due.set(target, fromMiddle(boundingClientRect))
        else due.delete(target)
      goOn()
    },
    { rootMargin: '75% 0px' },
  )
  onCleanup(() => {
    observer.disconnect()
    if (frame !== undefined) cancelAnimationFrame(frame)
    clearTimeout(afterFrame)
  })

  const isShort = () => lines.size > 0 && rowsInAll <= SHORT
  function goOn(): void {
    if (frame === undefined && (parts.size + due.size + last.size > 0 || isShort()))
      frame = requestAnimationFrame(() => {
        afterFrame = setTimeout(slice)
      })
  }
  function slice(): void {
    frame = undefined
    const until = performance.now() + SLICE_MS
    const some = (draws: Iterable<(() => void) | undefined>) => {
      for (const draw of draws) {
        draw?.()
        if (performance.now() >= until) return
      }
    }
    // Lines only once every part has its room: a part that comes pushes them away.
    if (parts.size > 0) some(parts)
    else if (due.size > 0) some([...due].sort(([, a], [, b]) => a - b).map(([line]) => lines.get(line)))
    else if (isShort()) some(lines.values())
    else some(last)
    goOn()
  }

  return {
    part(when) {
      const [come, setCome] = createSignal(false)
      const turns = when === 'last' ? last : parts
      const draw = () => {
        turns.delete(draw)
        setCome(true)
      }
      turns.add(draw)
      onCleanup(() => turns.delete(draw))
      goOn()
      return () => come() || printing()
    },
    growing(list, some) {
      const [count, setCount] = createSignal(some)
      const draw = () => {
        setCount((before) => before + some)
        if (untrack(() => count() >= list().length)) parts.delete(draw)
      }
      createComputed(() => {
        if (list().length <= untrack(count)) return
        parts.add(draw)
        goOn()
      })
      onCleanup(() => parts.delete(draw))
      return () => (printing() ? list() : list().slice(0, count()))
    },
    line(rows) {
      linesInAll += 1
      if (linesInAll <= atOnce) return DRAWN
      rowsInAll += rows
      onCleanup(() => {
        rowsInAll -= rows
      })
      const [come, setCome] = createSignal(false)
      return {
        drawn: () => come() || printing(),
        place(element) {
          const leave = () => {
            observer.unobserve(element)
            lines.delete(element)
            due.delete(element)
          }
          const draw = () => {
            if (!lines.has(element)) return
            leave()
            setCome(true)
          }
          lines.set(element, draw)
          observer.observe(element)
          goOn()
          element.addEventListener('focusin', draw)
          // Not while the browser still reveals what it found: the words it found go as the line is drawn.
          element.addEventListener('beforematch', () =>
            setTimeout(() => {
              draw()
              element.scrollIntoView({ block: 'nearest' })
            }),
          )
          onCleanup(leave)
        },
      }
    },
  }
}

const fromMiddle = ({ top, bottom }: DOMRectReadOnly): number =>
  Math.max(0, top - innerHeight / 2, innerHeight / 2 - bottom)
