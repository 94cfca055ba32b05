/** A second signature by PIN while the shop is out of reach: an entry like any other, with its sealed PIN kept apart. */
import { v7 as uuid } from 'uuid'
import { canHash, hashText } from './hash'
import type { SealedPins } from './sealed-pins'
import type { Sender } from './sender'
import type { Session } from './session'

export interface SealedSecond {
  stepId: string
  setId: string
  personId: string
  pin: string
  /** What they looked at, as `lookedAt` has it. */
  content: string
}

export interface SealedSeconds {
  /** Whether a PIN can be sealed here: the way to the shop is safe, and its key was fetched. */
  offered(): boolean
  /** Resolves when the PIN is kept and the entry waits; with the sentence that says why not, where it cannot be kept. */
  give(jobId: string, second: SealedSecond): Promise<string | undefined>
}

interface Parts {
  session: Pick<Session, 'me' | 'signInId'>
  sender: Pick<Sender, 'sendToJob'>
  /** Opened at the first need. */
  pins: () => Promise<{ store: SealedPins; seal: typeof import('./sealed-pins').sealPin }>
}

const NOT_KEPT =
  'This device could not keep the PIN for later. Note the look; the PIN can follow with signal.'

export function makeSealedSeconds({ session, sender, pins }: Parts): SealedSeconds {
  const key = () => session.me()?.pinKey
  return {
    offered: () => canHash() && key() !== undefined,
    async give(jobId, { stepId, setId, personId, pin, content }) {
      const serverKey = key()
      if (serverKey === undefined) return NOT_KEPT
      const commandId = uuid()
      const signInId = session.signInId()
      try {
        const digest = await hashText(content)
        const look = { personId, digest }
        const terms = { commandId, ...(signInId ? { signInId } : {}), jobId, stepId, setId, ...look }
        const { store, seal } = await pins()
        // On the disk before its entry is: one without the other would be no signature.
        await store.keep(commandId, await seal(pin, terms, serverKey))
        void sender.sendToJob(jobId, { type: 'SecondSignStep', stepId, setId, look }, { commandId })
        return undefined
      } catch {
        return NOT_KEPT
      }
    },
  }
}
