import { LOOK_FLAGS, type LookFlag } from '../../../shared/job/kinds'
import type { Pending } from '../../live/replica'

/** The second signer's act, as every press that begins or gives it calls it. */
export const GIVE_SECOND = 'Give second signature'
/** On the press that gives it. */
export const GIVE_SECOND_NOW = `${GIVE_SECOND}: I have looked`
/** What it states: read before it is given. */
export const SECOND_STATES = 'You state: I have looked at this with my own eyes and found nothing wrong.'

/** Of a look whose PIN waits here for the shop: no signature yet. */
export const SEALED_WAITS = 'The PIN is sealed on this device and checked when it reaches the shop.'

/** What is said of a look that is no signature: `waits` where its sealed PIN is still on this device. */
export const lookedWords = ({ flag }: { flag?: LookFlag }, waits: boolean): string => {
  if (waits) return 'no signature before the shop has checked their PIN'
  return flag ? `no second signature: ${LOOK_FLAGS[flag]}` : 'no signature before their PIN'
}

/** The set's second signature is among what this device still has to send. */
export const isSealedHere = (pending: readonly Pending[], stepId: string, setId: string): boolean =>
  pending.some(
    ({ command }) =>
      command.type === 'SecondSignStep' &&
      command.look !== undefined &&
      command.stepId === stepId &&
      command.setId === setId,
  )
