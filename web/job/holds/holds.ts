/**
 * Holds as every page shows them, and the commands their forms make. Pure.
 *
 * Compact (bench): the step is known; a kind, a preset or a few words, the day; one press clears and says how.
 * Full (engine, audit): also which steps wait, at what time it is expected, how it was settled in words of one's own.
 * An approval is never cleared by one press: it costs somebody money.
 */

import type { JobCommand } from '../../../shared/job/commands'
import { HOLD_KINDS, type HoldKind } from '../../../shared/job/kinds'
import type { Hold, Job } from '../../../shared/job/types'
import type { Words } from '../../../shared/words'

interface KindForm {
  /** What is asked of it. */
  label: string
  /** Words that need no typing. */
  presets: readonly string[]
  /** How it is cleared with one press; none where that must be told. */
  cleared?: string
}

export const HOLD_FORMS: Record<HoldKind, KindForm> = {
  part: {
    label: 'Which part, from where',
    presets: ['A part is missing', 'Wrong part delivered', 'Fasteners to order'],
    cleared: 'The part is here',
  },
  damage: {
    label: 'What is damaged, and how',
    presets: ['Thread damaged', 'Part cracked', 'Surface scored'],
    cleared: 'Put right',
  },
  tool: {
    label: 'Which tool',
    presets: ['Wrench out for its check', 'Special tool in use', 'Tool missing'],
    cleared: 'The tool is here',
  },
  outside_work: {
    label: 'What is done, and by whom',
    presets: ['Out for machining', 'Out for cleaning', 'Out for testing'],
    cleared: 'Back from outside',
  },
  approval: {
    label: 'What the owner must agree to',
    presets: ['Owner to agree to extra work', 'Owner to agree to the price'],
  },
  room: {
    label: 'What room it needs',
    presets: ['Stand is taken', 'Crane is taken', 'No room to lay parts out'],
    cleared: 'There is room',
  },
  question: {
    label: 'The question, and to whom',
    presets: ['Torque unclear', 'Ask the supervisor', 'Maker’s information to be found'],
    cleared: 'Answered',
  },
}

/** Open ones, of one step or of all, the soonest expected first: what is late stands on top, what has no date at the end. */
export const openHolds = (job: Job, stepId?: string): Hold[] =>
  job.holds
    .filter(({ cleared, stepIds }) => !cleared && (stepId === undefined || stepIds.includes(stepId)))
    .sort((a, b) => {
      const [first, second] = [a.expectedAt ?? Infinity, b.expectedAt ?? Infinity]
      return first === second ? a.raised.doneAt - b.raised.doneAt : first - second
    })

export const holdOf = (job: Job, holdId: string): Hold | undefined =>
  job.holds.find(({ id }) => id === holdId)

export const isLate = ({ expectedAt }: Pick<Hold, 'expectedAt'>, now: number): boolean =>
  expectedAt !== undefined && expectedAt < now

/** `expected 14:00`, `was expected 20 Nov 12:00`, `no date known`. */
export function expectedWords(hold: Pick<Hold, 'expectedAt'>, now: number, words: Words): string {
  if (hold.expectedAt === undefined) return 'no date known'
  return `${isLate(hold, now) ? 'was expected' : 'expected'} ${words.moment(hold.expectedAt)}`
}

/** `part: head gasket, expected 14:00`: why a step is on hold. */
export const holdWords = (hold: Hold, now: number, words: Words): string =>
  `${HOLD_KINDS[hold.kind].word}: ${hold.what}, ${expectedWords(hold, now, words)}`

/** What is asked when it is cleared. */
export const clearedLabel = (hold: Pick<Hold, 'kind'> | undefined): string =>
  hold?.kind === 'approval'
    ? 'Who agreed, when, by telephone or letter, and to what amount'
    : 'How it was settled'

interface HoldDraft {
  kind: HoldKind | undefined
  what: string
  stepIds: readonly string[]
  expectedAt: number | undefined
}

/** The command as entered, or the sentence that says what is missing. */
export function raiseHold({ kind, what, stepIds, expectedAt }: HoldDraft): JobCommand | string {
  if (!kind) return 'Choose what it waits for.'
  if (!what.trim()) return 'Say what it waits for, in words fit to read aloud.'
  if (stepIds.length === 0) return 'Tick at least one step that waits for it.'
  return {
    type: 'RaiseHold',
    kind,
    what: what.trim(),
    stepIds: [...stepIds],
    ...(expectedAt === undefined ? {} : { expectedAt }),
  }
}

export function changeHold(holdId: string, { what, expectedAt }: Omit<HoldDraft, 'kind' | 'stepIds'>) {
  if (!what.trim()) return 'Say what it waits for, in words fit to read aloud.'
  return { type: 'ChangeHold' as const, holdId, what: what.trim(), expectedAt: expectedAt ?? null }
}
