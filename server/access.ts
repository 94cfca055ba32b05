/**
 * Who may come in, changed: a PIN set, somebody gone. Each is an entry of the shop, written in one commit with what becomes
 * of PIN and sign-ins [PE14]. PINs are changed one after the other, since the seal is over all of them.
 */
import { bodyHash, type Desk, type Reply } from './desk'
import type { People } from './people'

export interface Access {
  /** The entry's answer. `by` is a person at a device, or `AT_THE_MACHINE`. */
  setPin(setting: { personId: string; pin: string; by: string; deviceId?: string }): Promise<Reply>
}

export interface AccessParts {
  desk: Pick<Desk, 'submit'>
  people: Pick<People, 'pinToWrite' | 'signOutEverywhere'>
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

  return {
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
