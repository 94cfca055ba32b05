/** What each flag says, in a few words that follow "position 3:". */
import type { Flag } from './types'

const WORDS: Record<Flag, string> = {
  not_claimed: 'recorded by somebody who had not claimed the step',
  out_of_reach: 'recorded while a later step covered it',
  not_restarted: 'continued after an interruption without starting again as the plan says',
  out_of_order: 'out of the plan’s order',
  pass_skipped: 'an earlier pass is missing',
  too_early: 'before the wait or the cure of its thread was over',
  out_of_band: 'out of band',
  no_published_value: 'no published torque to compare it with',
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
}

export const flagWords = (flag: Flag): string => WORDS[flag]
export const FLAGS = Object.keys(WORDS) as [Flag, ...Flag[]]
