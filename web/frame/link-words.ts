/** What the bar says of the link and of what waits here; that it is kept only where the device keeps all of it. */
import { counted } from '../../shared/words'
import type { LinkState } from '../live/link'

export interface Waits {
  entries: number
  photos: number
  /** What the server would not take. */
  refused: { entries: number; photos: number }
  /** Whether this device keeps all that waits. */
  kept: boolean
  /** Entries that were made here and never reached the shop. */
  lost: number
}

export function linkWords(link: LinkState, { entries, photos, refused, kept, lost }: Waits): string {
  const against = things(refused)
  return [
    stands(link, things({ entries, photos }), kept),
    against && `${against} not taken over`,
    lost && `${counted(lost, 'entry', 'entries')} never arrived`,
  ]
    .filter(Boolean)
    .join('; ')
}

const things = ({ entries, photos }: Waits['refused']): string =>
  [entries && counted(entries, 'entry', 'entries'), photos && counted(photos, 'photo')]
    .filter(Boolean)
    .join(', ')

function stands(link: LinkState, waits: string, kept: boolean): string {
  if (link === 'live') return waits ? `sending ${waits}` : 'live'
  const why = link === 'apart' ? 'another version' : 'no signal'
  if (waits) return `${why}: ${waits} ${kept ? 'kept on this device' : 'on this page'}`
  return link === 'connecting' ? 'connecting' : why
}
