/** The second signer's act, as every press that begins or gives it calls it. */
export const GIVE_SECOND = 'Give second signature'
/** On the press that gives it. */
export const GIVE_SECOND_NOW = `${GIVE_SECOND}: I have looked`
/** What it states: read before it is given. */
export const SECOND_STATES = 'You state: I have looked at this with my own eyes and found nothing wrong.'
