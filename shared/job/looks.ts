/** A second person's look whose PIN came sealed and gave no signature: what is told of it where it was entered. */
import type { StreamEvent } from '../log'
import type { Words } from '../words'
import type { EventOf } from './events'
import type { LookFlag } from './kinds'

type Unsigned = EventOf<'LookNoted'> & { flag: LookFlag }

/** Of what a command came to: the look that is no signature, if it came to that. */
export const unsignedLook = (events: readonly StreamEvent<{ type: string }>[]): Unsigned | undefined =>
  events
    .map(({ event }) => event as Partial<Unsigned>)
    .find((event): event is Unsigned => event.type === 'LookNoted' && event.flag !== undefined)

const TOLD: Record<LookFlag, (person: string, stepId: string) => string> = {
  wrong_pin: (person, stepId) =>
    `The PIN entered for ${person} on ${stepId} was wrong. The look is noted and is no second signature. Ask ${person} to enter it again.`,
  pin_unreadable: (person, stepId) =>
    `The PIN entered for ${person} on ${stepId} cannot be read by the shop’s server: it did not come along, or the server has another key now. The look is noted and is no second signature. Ask ${person} to enter it again.`,
  changed: (person, stepId) =>
    `${stepId} is not as ${person} looked at it: something on it changed, or an entry made before was not taken over. The look is noted and is no second signature. Look again, then sign.`,
  second_stands: (person, stepId) =>
    `Somebody else’s second signature on ${stepId} reached the shop first. The look of ${person} is noted. There is nothing left to do.`,
  not_allowed: (person, stepId) =>
    `${person} may not give the second signature on ${stepId}: they worked on it, or may not sign for its class. The look is noted. Ask somebody who may.`,
}

export const unsignedWords = (
  { personId, stepId, flag }: Pick<Unsigned, 'personId' | 'stepId' | 'flag'>,
  words: Pick<Words, 'person'>,
): string => TOLD[flag](words.person(personId), stepId)
