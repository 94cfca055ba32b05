/**
 * Who may come in, changed: a PIN set, somebody gone. Each is an entry of the shop, written in one commit with what becomes
 * of PIN and sign-ins [PE14, PE18]. PINs are changed one after the other, since the seal is over all of them.
 */

import { lookUp } from '../shared/look-up'
import { bodyHash, type Desk, type Reply, type Submission } from './desk'
import type { People } from './people'

export interface Access {
  /** The entry's answer. `by` is a person at a device, or `AT_THE_MACHINE`. */
  setPin(setting: { personId: string; pin: string; by: string; deviceId?: string }): Promise<Reply>
  /** A command on its way to the desk, with what it ends: who leaves has no PIN, and who has no role left no sign-in [PE18]. */
  submit(submission: Submission): Promise<Reply>
}

export interface AccessParts {
  desk: Pick<Desk, 'submit' | 'shop'>
  people: Pick<People, 'pinToWrite' | 'pinToDrop' | 'signOutEverywhere'>
  now: () => number
  newId: () => string
}

export function makeAccess({ desk, people, now, newId }: AccessParts): Access {
  let last: Promise<unknown> = Promise.resolve()
  function inTurn<T>(work: () => Promise<T>): Promise<T> {
    const next = last.then(work)
    last = next.catch(() => undefined)
    return next
  }

  const rolesOf = async (personId: string) => lookUp((await desk.shop()).people, personId)?.roles.length ?? 0

  async function ending(personId: string, submission: Submission): Promise<Reply> {
    const signOut = { personId, at: submission.receivedAt }
    const answer = await desk.submit({ ...submission, signOut })
    // A resend, answered when they are back already, ends nothing.
    if (answer.ok && (await rolesOf(personId)) === 0) people.signOutEverywhere(signOut)
    return answer
  }

  return {
    async submit(submission) {
      const { command } = submission
      if (command.type === 'LeaveShop') {
        const { personId } = command
        return inTurn(() => ending(personId, { ...submission, pin: people.pinToDrop(personId) }))
      }
      if (command.type === 'ChangePerson') {
        const { id, roles } = command.person
        if (roles.length === 0 && (await rolesOf(id)) > 0) return ending(id, submission)
      }
      return desk.submit(submission)
    },
    setPin: ({ personId, pin, by, deviceId }) =>
      inTurn(async () => {
        const at = now()
        const command = { type: 'SetPin' as const, commandId: newId(), personId }
        // Who sets their own stays where they are.
        const signOut = { personId, at, ...(by === personId && deviceId ? { except: deviceId } : {}) }
        const answer = await desk.submit({
          stream: 'shop',
          command,
          bodyHash: bodyHash('shop', command),
          asker: { person: by, through: 'sign_in' },
          receivedAt: at,
          pin: await people.pinToWrite(personId, pin, at),
          signOut,
        })
        if (answer.ok) people.signOutEverywhere(signOut)
        return answer
      }),
  }
}
