/**
 * The one reason an engine waits, in words fit to read aloud on the phone, and how much it wants attention.
 *
 * The board orders its rows by `ATTENTION`, so the order here is the order there. Words only: how the reason is found
 * stands in `reason-for.ts`, so that a board that is told reasons need not load the rules.
 */
import type { Instant } from '../log'
import { limitsWords, toDecimals } from '../plan/words'
import { unitAfter } from '../units/show'
import { ended, listed, type Words } from '../words'
import { asksInWords } from './ask-words'
import { type Flag, flagWords, HOLD_KINDS, type HoldKind, holdWords } from './kinds'
import type { Release, StoppedAt } from './types'

export type Reason =
  | {
      code: 'flagged'
      step: string
      joint: string
      fastener?: string
      position: number
      flag: Flag
      by: string
    }
  | {
      code: 'out_of_limits'
      step: string
      title: string
      /** Absent where it is taken at one place only. */
      place?: string
      value: number
      unit: string
      min?: number
      max?: number
      by: string
    }
  | { code: 'wrong_count'; step: string; text: string; count: number; expect: number; by: string }
  | { code: 'second_late'; step: string; title: string; behind: string }
  | { code: 'on_hold'; kind: HoldKind; what: string; expectedAt?: Instant; ready: number }
  | {
      code: 'stopped'
      joint: string
      fastener?: string
      position: number
      pass: number
      asks: StoppedAt['asks']
    }
  | { code: 'released'; kind: Release['kind']; number: string }
  | { code: 'warranty'; complaint: string }
  | { code: 'second_due'; step: string; title: string; before?: string }
  | { code: 'no_plan' }
  | { code: 'all_signed' }
  /** Nothing else can begin: a bead cures until then, and these steps wait for it. */
  | { code: 'curing'; step: string; title: string; until: Instant; next: string }
  | { code: 'stuck'; step: string; title: string; behind: string[] }
  | { code: 'nobody_on_it'; step: string; title: string; ready: number }
  | { code: 'in_work'; on: { by: string; title: string }[] }

/** Most urgent first. */
export const ATTENTION: readonly Reason['code'][] = [
  'second_late',
  'flagged',
  'out_of_limits',
  'wrong_count',
  'on_hold',
  'second_due',
  'warranty',
  'stopped',
  'no_plan',
  'stuck',
  'all_signed',
  'nobody_on_it',
  'curing',
  'in_work',
  'released',
]

/** What cannot wait: it stands against the engine, not merely before it. */
const AGAINST: ReadonlySet<Reason['code']> = new Set([
  'second_late',
  'flagged',
  'out_of_limits',
  'wrong_count',
])
export const standsAgainst = (code: Reason['code']): boolean => AGAINST.has(code) || code === 'stuck'

/** Released to its owner, and no complaint came since. */
export const isFinished = ({ reason }: { reason: Reason }): boolean => reason.code === 'released'

/** `Head nuts, nut 3`; a summary written by an older build does not have the noun. */
const at = ({
  joint,
  fastener = 'position',
  position,
}: {
  joint: string
  fastener?: string
  position: number
}) => `${joint}, ${fastener} ${position}`

type Sentences = { [R in Reason as R['code']]: (reason: R, words: Words) => string }

const SENTENCES: Sentences = {
  second_late: (r) =>
    `${r.behind}: not signed off, and covered by “${r.title}”. Take it off, or accept with a reason.`,
  flagged: (r, w) => `${at(r)}: ${flagWords(r.flag)}. ${w.person(r.by)} recorded it.`,
  out_of_limits: (r, w) =>
    `${r.title}${r.place === undefined ? '' : ` at ${r.place}`} reads ${toDecimals(r.value, r, w)}${unitAfter(r.unit)}; the plan says ${limitsWords(r, w)}. ${w.person(r.by)} measured it.`,
  wrong_count: (r, w) => `“${r.text}”: ${r.count} counted, ${r.expect} needed. ${w.person(r.by)} counted.`,
  on_hold: (r, w) => {
    const meanwhile = r.ready > 0 ? ' Other work can go on.' : ' No other work is possible.'
    return `${HOLD_KINDS[r.kind].waits}: ${holdWords(r, w)}${meanwhile}`
  },
  stopped: (r) => `${at(r)}: interrupted in pass ${r.pass}. Next: ${asksInWords(r)}.`,
  released: (r) => `Released to its owner, record ${r.number}.`,
  warranty: (r) => `Back under warranty: ${ended(r.complaint)}`,
  second_due: (r) =>
    r.before
      ? `“${r.title}” needs its second signature before “${r.before}” covers it.`
      : `“${r.title}” needs its second signature.`,
  no_plan: () => 'No build plan yet. A supervisor adopts one.',
  curing: (r, w) => `The sealant of “${r.title}” cures until ${w.moment(r.until)}. Next: ${r.next}.`,
  all_signed: () => 'Every step is signed.',
  stuck: (r) => `Nothing can go on until “${r.title}” is finished.`,
  nobody_on_it: (r) => `Nobody is working on it. Next: ${r.title}.`,
  in_work: (r, w) => `${listed(r.on.map(({ by, title }) => `${w.person(by)} is working on “${title}”`))}.`,
}

export function reasonSentence(reason: Reason, words: Words): string {
  return (SENTENCES[reason.code] as (reason: Reason, words: Words) => string)(reason, words)
}
