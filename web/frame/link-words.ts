/** What the bar says of the link and of what waits on this device. */
import type { LinkState } from '../live/link'

export interface Waits {
  entries: number
  photos: number
  /** Photos the server would not take. */
  refused: number
}

const counted = (n: number, singular: string, plural: string) =>
  n === 0 ? [] : [n === 1 ? `1 ${singular}` : `${n} ${plural}`]

export function linkWords(link: LinkState, { entries, photos, refused }: Waits): string {
  const waits = [...counted(entries, 'entry', 'entries'), ...counted(photos, 'photo', 'photos')].join(', ')
  const against = refused === 0 ? '' : `; ${counted(refused, 'photo', 'photos')} not taken over`
  return `${stands(link, waits)}${against}`
}

function stands(link: LinkState, waits: string): string {
  if (link === 'live') return waits ? `sending ${waits}` : 'live'
  if (waits) return `no signal: ${waits} kept on this tablet`
  return link === 'lost' ? 'no signal' : 'connecting'
}
