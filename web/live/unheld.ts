/** What only this page holds, and what the person must know of it. */
import { onCleanup } from 'solid-js'
import type { Instant } from '../../shared/log'
import type { EntriesMissing } from '../../shared/protocol'
import { counted, upperFirst } from '../../shared/words'
import type { Unheld } from './retry-queue'

const WHY: Record<Unheld, string> = {
  no_store: 'This browser keeps nothing once the page is closed or loaded again.',
  full: 'There is no room left on this device.',
  failed: 'This device could not keep what was entered.',
}

/** Where the browser does not keep the pages themselves. */
export const OPENS_NOT_ALONE = 'Leave this page open: without signal this device cannot open it again.'

/** Where the browser has not agreed to keep it until somebody says otherwise. */
export const MAY_BE_CLEARED =
  'A device that runs out of room may clear this. The shop then says how many entries never arrived.'

/** Nothing when all is kept. */
export function unheldWords(unheld: readonly Unheld[], one: string, many?: string): string | undefined {
  const [first] = unheld
  if (!first) return undefined
  const are = unheld.length === 1 ? 'is' : 'are'
  return `${WHY[first]} Leave this page open: ${counted(unheld.length, one, many)} ${are} held only here until sent.`
}

/** What was entered here and never reached the shop, and what to do about it. */
export function lostWords({ count, after, before }: EntriesMissing, moment: (at: Instant) => string): string {
  const when = [after && `after ${moment(after)}`, before && `before ${moment(before)}`]
    .filter(Boolean)
    .join(' and ')
  return `${upperFirst(counted(count, 'entry', 'entries'))} made on this device${when && `, ${when},`} never reached the shop: this browser no longer has what it kept. Look at what was done then and enter it again.`
}

/** Asks before the page is left while something is held by it alone. */
export function askBeforeLeaving(isHeldHereOnly: () => boolean): void {
  if (typeof window === 'undefined') return
  const ask = (leaving: BeforeUnloadEvent) => isHeldHereOnly() && leaving.preventDefault()
  window.addEventListener('beforeunload', ask)
  onCleanup(() => window.removeEventListener('beforeunload', ask))
}
