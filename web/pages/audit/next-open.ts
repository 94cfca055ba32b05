/**
 * One key to the next thing that is open: from where the reader stands, down the page, and round again.
 *
 * Everything marked `data-open` counts, in the order of the page; the choosing is apart from the page so that it
 * can be tested.
 */
import { bringUp } from '../../ui/bring-up'

export function nextOf<T>(items: readonly T[], isAfter: (item: T) => boolean): T | undefined {
  return items.find(isAfter) ?? items[0]
}

export function goToNextOpen(root: ParentNode): boolean {
  const open = [...root.querySelectorAll<HTMLElement>('[data-open]')]
  const here = document.activeElement
  const next = nextOf(
    open,
    (item) =>
      here !== null &&
      here !== item &&
      !item.contains(here) &&
      (here.compareDocumentPosition(item) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0,
  )
  if (!next) return false
  bringUp(next, 'center')
  // A joint of the record that was not drawn yet is now, and what is open in it stands for itself.
  return next.matches('[data-open]') || goToNextOpen(root)
}

/** A key pressed while something is typed, or held with another, is not meant for the page. */
export function isForThePage(event: KeyboardEvent): boolean {
  const target = event.target as HTMLElement | null
  if (event.ctrlKey || event.metaKey || event.altKey) return false
  if (document.querySelector('dialog[open]')) return false
  return !target || !/^(?:INPUT|TEXTAREA|SELECT)$/.test(target.tagName)
}
