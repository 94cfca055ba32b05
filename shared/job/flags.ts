/** What each flag says, in a few words that follow "position 3:". */
import type { Flag } from './types'

const WORDS: Record<Flag, string> = {
  not_claimed: 'taken by somebody who had not claimed the step',
  out_of_reach: 'taken where a later step already covers it',
  not_restarted: 'gone on after an interruption without the restart its rule asks',
  out_of_order: 'taken out of the plan’s order',
  pass_skipped: 'an earlier pass is missing',
  too_early: 'taken before the wait, or the cure of its thread, was over',
  out_of_band: 'out of band',
  no_published_value: 'no published value to judge it by',
  unit_held_up: 'perhaps the wrong unit',
  scale_not_entered: 'the number on the scale was not entered',
  wrench_unknown: 'the wrench is not in the crib',
  other_than_asked: 'not what this pass asks for',
  wrench_out_of_range: 'outside the range of the wrench',
  wrench_out_of_date: 'the wrench was past its check',
  wrench_failed: 'the wrench was out of service',
  turned_again: 'the angle was turned a second time',
  overshot: 'turned further than the joint’s rule lets stand',
  not_slackened: 'over the band before, and not slackened since',
}

export const flagWords = (flag: Flag): string => WORDS[flag]
export const FLAGS = Object.keys(WORDS) as [Flag, ...Flag[]]
