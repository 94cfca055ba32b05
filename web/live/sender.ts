/** Puts what was entered into the outbox: by whoever is signed in here, stamped with the moment it was entered. */
import { v7 as uuid } from 'uuid'
import type { JobCommand } from '../../shared/job/commands'
import type { Answer, Fault } from '../../shared/protocol'
import type { ShopCommand } from '../../shared/shop/types'
import type { Clock } from './clock'
import type { EntryCount } from './entry-count'
import type { Outbox } from './outbox'
import { authorOf, type Grant, type Session } from './session'

export interface SendOptions {
  /** A second signer's, on somebody else's tablet. */
  grant?: Grant | undefined
  /** Whether whoever sends is there to tell a refusal, asked when the answer comes; else the outbox keeps it. */
  explains?: () => boolean
  /** Where something was made for this very command before it. */
  commandId?: string
}

/** Each resolves with the final answer, however long that takes. */
export interface Sender {
  sendToJob(jobId: string, command: JobCommand, options?: SendOptions): Promise<Answer | Fault>
  sendToShop(command: ShopCommand, options?: SendOptions): Promise<Answer | Fault>
}

interface Parts {
  clock: Clock
  session: Pick<Session, 'person' | 'signInId'>
  outbox: Outbox
  count: Pick<EntryCount, 'next'>
}

export function makeSender({ clock, session, outbox, count }: Parts): Sender {
  const author = (grant?: Grant) => authorOf(session.person()?.id, grant)

  function head(grant?: Grant, commandId = uuid()) {
    const signInId = session.signInId()
    const entryNumber = count.next()
    return {
      commandId,
      doneAt: clock.now(),
      clockOffsetMs: clock.offsetMs(),
      ...(signInId ? { signInId } : {}),
      ...(grant ? { grantId: grant.id } : {}),
      ...(entryNumber === undefined ? {} : { entryNumber }),
    }
  }

  return {
    sendToJob: (jobId, command, { grant, explains, commandId } = {}) =>
      outbox.add(
        { stream: `job:${jobId}`, command: { ...head(grant, commandId), ...command }, ...author(grant) },
        explains,
      ),
    sendToShop: (command, { explains } = {}) =>
      outbox.add({ stream: 'shop', command: { ...head(), ...command }, ...author() }, explains),
  }
}
