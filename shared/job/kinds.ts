/**
 * The kinds a job speaks of, each a table with its words, which are the same on screen, in the trail and on paper.
 *
 * The names are stored: they never change. A new one is a new line here; what else it needs the compiler says.
 */

import type { Instant } from '../log'
import { OFFICE } from '../shop/entitlement'
import type { Role } from '../shop/kinds'
import { ended, type Words } from '../words'

interface HoldKindEntry {
  /** `on hold (outside work)`. */
  word: string
  /** What the board says first. */
  waits: string
  /** What a date on it means: the beginning of `The part is expected by 2 Dec 12:00.` */
  due: string
  /** What the office is to do about it; nothing where it is the floor's to see to. */
  office?: string
  /** Who may clear it; anybody where nobody is named. */
  clearedBy?: readonly Role[]
}

/** What a step waits for. */
export const HOLD_KINDS = {
  part: {
    word: 'part',
    waits: 'Waits for a part',
    due: 'The part is expected by',
    office: 'Ask about the part',
  },
  damage: {
    word: 'damage',
    waits: 'Held up by damage',
    due: 'It should be put right by',
    office: 'Damage',
  },
  tool: { word: 'tool', waits: 'Waits for a tool', due: 'The tool is expected by' },
  outside_work: {
    word: 'outside work',
    waits: 'Waits for outside work',
    due: 'It is expected back by',
    office: 'Ask about the outside work',
  },
  approval: {
    word: 'approval',
    waits: 'Waits for the owner’s approval',
    due: 'An answer is expected by',
    office: 'Owner’s approval',
    clearedBy: OFFICE,
  },
  room: { word: 'room', waits: 'Waits for room', due: 'There will be room by' },
  question: {
    word: 'question',
    waits: 'Waits for an answer',
    due: 'An answer is expected by',
    office: 'Question',
  },
} as const satisfies Record<string, HoldKindEntry>
export type HoldKind = keyof typeof HOLD_KINDS
export const holdKind = (kind: HoldKind): HoldKindEntry => HOLD_KINDS[kind]

/** What a hold is for, and by when its end is expected: whole sentences. */
export const holdWords = (
  { kind, what, expectedAt }: { kind: HoldKind; what: string; expectedAt?: Instant },
  words: Pick<Words, 'moment'>,
): string =>
  expectedAt === undefined
    ? ended(what)
    : `${ended(what)} ${HOLD_KINDS[kind].due} ${words.moment(expectedAt)}.`

/** What is known of a fastener in its place. */
export const FASTENER_CONDITIONS = {
  hand_tight: 'hand-tight',
  temporary: 'temporary',
  new: 'new',
  reused: 'reused',
  removed: 'removed',
} as const satisfies Record<string, string>
export type FastenerCondition = keyof typeof FASTENER_CONDITIONS

/** What is odd about the history of a fastener, as the end of a sentence. */
export const FASTENER_FLAGS = {
  fitted_twice: 'one-use, fitted again',
  cycles_spent: 'tightened more often than allowed',
} as const satisfies Record<string, string>
export type FastenerFlag = keyof typeof FASTENER_FLAGS

/** `new`, `reused, cycle 2`, `new, one-use, fitted again`. */
export const conditionWords = (fastener: {
  condition: FastenerCondition
  cycle?: number
  flags: readonly FastenerFlag[]
}): string =>
  [
    FASTENER_CONDITIONS[fastener.condition],
    ...(fastener.cycle === undefined || (fastener.condition === 'new' && fastener.cycle === 1)
      ? []
      : [`cycle ${fastener.cycle}`]),
    ...fastener.flags.map((flag) => FASTENER_FLAGS[flag]),
  ].join(', ')

export const HOLE_CONDITIONS = {
  original: 'thread as the maker left it',
  worn: 'thread worn',
  stripped: 'thread stripped',
  insert: 'thread insert fitted',
} as const satisfies Record<string, string>
export type HoleCondition = keyof typeof HOLE_CONDITIONS

/**
 * What is odd about a fact, in a few words that follow "position 3:". Each stops a signature while it stands; none stops
 * the record.
 */
export const FLAGS = {
  not_claimed: 'recorded by somebody who had not claimed the step',
  out_of_reach: 'recorded while a later step covered it',
  not_restarted: 'continued after an interruption without starting again as the plan says',
  out_of_order: 'out of the plan’s order',
  pass_skipped: 'an earlier pass is missing',
  too_early: 'before the wait or the cure of its thread was over',
  out_of_band: 'out of band',
  no_published_value: 'no published torque to compare it with',
  torque_impossible: 'more than the fastener bears',
  unit_held_up: 'perhaps in the wrong unit',
  scale_not_entered: 'the number on the scale was not entered',
  wrench_unknown: 'the wrench is not in the crib',
  other_than_asked: 'not what this pass calls for',
  wrench_out_of_range: 'outside the range of the wrench',
  wrench_out_of_date: 'the wrench was overdue for its check',
  wrench_failed: 'the wrench was out of service',
  turned_again: 'the angle was turned twice',
  overshot: 'turned further than the plan allows',
  not_slackened: 'over the band before, and not slackened since',
} as const satisfies Record<string, string>
export type Flag = keyof typeof FLAGS
export const flagWords = (flag: Flag): string => FLAGS[flag]

/**
 * Why a second person's look, whose PIN came sealed, is no signature: words that follow "no second signature:". The look
 * itself happened, and is recorded.
 */
export const LOOK_FLAGS = {
  wrong_pin: 'the PIN was wrong',
  pin_unreadable: 'the PIN could not be read',
  changed: 'the step is not as it was looked at',
  second_stands: 'somebody else had given it',
  not_allowed: 'it is not theirs to give',
} as const satisfies Record<string, string>
export type LookFlag = keyof typeof LOOK_FLAGS

/** How one head is read. Slackened outside a slacken pass takes the fastener back: its readings so far are superseded. */
export const READ_BY_HEAD = ['clicked', 'indicated', 'turned', 'slackened'] as const
/** Or in one count of its whole round. */
export type ReadingHow = (typeof READ_BY_HEAD)[number] | 'counted'

interface Restart {
  /** What there is to do, as the end of a sentence. */
  asks(pass: number): string
  /** On the press that records it. */
  done(pass: number, fastener: string): string
  /** Behind `started again`. */
  after: string
}

/** How a round is started again, as the rule of its joint asks; each does more than the one before. */
export const RESTARTS = {
  again: {
    asks: (pass) => `do pass ${pass} again from the start`,
    done: (pass, fastener) => `Pass ${pass} starts again at its first ${fastener}`,
    after: '',
  },
  slackened: {
    asks: () => 'slacken all of them and start again at pass 1',
    done: () => 'All slackened: start again at pass 1',
    after: ', after slackening all of them',
  },
  new_fasteners: {
    asks: () => 'fit new fasteners and start again at pass 1',
    done: (_, fastener) => `New ${fastener}s fitted: start again at pass 1`,
    after: ', with new fasteners',
  },
} as const satisfies Record<string, Restart>
export type RestartHow = keyof typeof RESTARTS
