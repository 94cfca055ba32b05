/** What an interrupted joint asks before it goes on, in words. */

import { RESTARTS } from './kinds'
import type { StoppedAt } from './types'

/** What an interrupted joint asks before it goes on, as a sentence without its full stop. */
export const asksInWords = ({ asks: how, pass }: Pick<StoppedAt, 'asks' | 'pass'>): string =>
  how === 'nothing' ? `go on with pass ${pass}` : RESTARTS[how].asks(pass)
