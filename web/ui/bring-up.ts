/** Going to a place on a page of which much is not laid out yet. */

/** Goes to a place on this page and puts the focus there, without leaving a step in the browser's history. */
export function goTo(event: Event, id: string): void {
  const place = document.getElementById(id)
  if (!place) return
  event.preventDefault()
  bringUp(place, 'start')
}

/** What was not laid out yet takes its true height as it comes near, so the place is looked for once more. */
export function bringUp(place: HTMLElement, block: 'start' | 'center'): void {
  place.focus({ preventScroll: true })
  place.scrollIntoView({ block })
  requestAnimationFrame(() => place.scrollIntoView({ block }))
}
