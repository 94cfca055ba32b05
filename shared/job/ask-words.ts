/** What an interrupted joint asks before it goes on, in words. */
import type { RestartHow, StoppedAt } from './types'

const ASKS: Record<RestartHow, (pass: number) => string> = {
  again: (pass) => `do pass ${pass} again from the start`,
  slackened: () => 'slacken all of them and start again at pass 1',
  new_fasteners: () => 'fit new fasteners and start again at pass 1',
}

/** What an interrupted joint asks before it goes on, as a sentence without its full stop. */
export const asksInWords = ({ asks: how, pass }: Pick<StoppedAt, 'asks' | 'pass'>): string =>
  how === 'nothing' ? `go on with pass ${pass}` : ASKS[how](pass)
