/** What the bar says of the link and of what waits on this device. */
import { counted } from '../../shared/words'
import type { LinkState } from '../live/link'

export interface Waits {
  entries: number
  photos: number
  /** Photos the server would not take. */
  refused: number
}

export function linkWords(link: LinkState, { entries, photos, refused }: Waits): string {
  const waits = [entries && counted(entries, 'entry', 'entries'), photos && counted(photos, 'photo')]
    .filter(Boolean)
    .join(', ')
  const against = refused === 0 ? '' : `; ${counted(refused, 'photo')} not taken over`
  return `${stands(link, waits)}${against}`
}

function stands(link: LinkState, waits: string): string {
  if (link === 'live') return waits ? `sending ${waits}` : 'live'
  if (waits) return `no signal: ${waits} kept on this tablet`
  return link === 'lost' ? 'no signal' : 'connecting'
}
