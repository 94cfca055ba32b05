/**
 * Which rows are on the screen or within a screen of it. A strip is drawn when its row comes near and stays drawn;
 * before that its row stands with all its words, so that search, reading aloud and print miss nothing. Paper has
 * no screen to be near to: before a print everything is drawn.
 */
import { type Accessor, createSignal, onCleanup } from 'solid-js'
import { createPrinting } from '../../ui/printing'

export interface Near {
  /** Whether this row was near once. */
  watch(row: Element): Accessor<boolean>
}

/** Drawn with the page itself: more rows than the tallest office screen shows, so that none comes in empty. */
const AT_ONCE = 12

export function createNear(): Near {
  const printing = createPrinting()
  const come = new Map<Element, () => void>()
  let seen = 0
  const observer = new IntersectionObserver(
    (entries) => {
      for (const { target, isIntersecting } of entries) if (isIntersecting) come.get(target)?.()
    },
    { rootMargin: '100% 0px' },
  )
  onCleanup(() => observer.disconnect())
  return {
    watch(row) {
      seen += 1
      if (seen <= AT_ONCE) return () => true
      const [near, setNear] = createSignal(false)
      const leave = () => {
        observer.unobserve(row)
        come.delete(row)
      }
      come.set(row, () => {
        leave()
        setNear(true)
      })
      observer.observe(row)
      onCleanup(leave)
      return () => near() || printing()
    },
  }
}
