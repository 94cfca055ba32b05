/** What a step waits for, in a word or two. */
import type { HoldKind } from './types'

export const HOLD_WORDS: Record<HoldKind, string> = {
  part: 'part',
  damage: 'damage',
  tool: 'tool',
  outside_work: 'outside work',
  approval: 'approval',
  room: 'room',
  question: 'question',
}
