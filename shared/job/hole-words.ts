/** What a hole is, in words: the register, the trail and the record say it alike. */
import { formatNumber } from '../units'
import type { HoleEntry } from './types'

export const HOLE_WORDS: Record<HoleEntry['condition'], string> = {
  original: 'thread as the maker left it',
  worn: 'thread worn',
  stripped: 'thread stripped',
  insert: 'thread insert fitted',
}

export const INSERT_WORDS = { wire: 'wire insert', solid: 'solid insert' } as const

/** `solid insert, 12 mm long, 0.5 mm below the face; full thread 18.5 mm`. */
export function holeWords({
  condition,
  insert,
  depthMm,
  threadMm,
}: Pick<HoleEntry, 'condition' | 'insert' | 'depthMm' | 'threadMm'>): string {
  const kind = insert
    ? `${INSERT_WORDS[insert.kind]}, ${formatNumber(insert.lengthMm)} mm long${insert.setDownMm ? `, ${formatNumber(insert.setDownMm)} mm below the face` : ''}`
    : HOLE_WORDS[condition]
  const sizes = [
    ...(threadMm === undefined ? [] : [`full thread ${formatNumber(threadMm)} mm`]),
    ...(depthMm === undefined ? [] : [`drilled ${formatNumber(depthMm)} mm`]),
  ]
  return [kind, ...sizes].join('; ')
}
