/**
 * A command's one way in, whether it comes over HTTP or a socket: its form, its author, then the desk.
 *
 * Credentials stay at this door: the desk is told a person and how they proved it, never a cookie or a PIN.
 */
import { jobCommandSchema } from '../shared/job/schema'
import { refuse } from '../shared/log'
import { lookUp } from '../shared/look-up'
import type { Fault, SentJobCommand, SentShopCommand } from '../shared/protocol'
import type { SealedTerms } from '../shared/sealed-pin'
import { shopCommandSchema } from '../shared/shop/schema'
import type { Access } from './access'
import { badMessage, check } from './check'
import { type Asker, bodyHash, type Desk, type Log, type Reply, type StreamName } from './desk'
import { jobIdOf } from './desk/streams'
import { doneUnder, type People, type SignIn } from './people'
import { NotCanonical } from './store'

export interface Received {
  stream: StreamName
  /** As it was parsed from JSON, before anything looked at it. */
  body: unknown
  /** A second signer's PIN beside the command, sealed to the shop's key. */
  sealed?: string | undefined
  deviceId: string | undefined
  sender?: string
  reply?: (answer: Reply) => void
}

export type Intake = (received: Received) => Promise<Reply>

export interface IntakeParts {
  desk: Desk
  people: People
  access: Pick<Access, 'submit'>
  now: () => number
  /** Told of PINs that came sealed and were wrong. */
  log: Log
}

export function makeIntake({ desk, people, access, now, log }: IntakeParts): Intake {
  return async ({ stream, body, sealed, deviceId, sender, reply }) => {
    const fault = (answer: Fault): Reply => {
      reply?.(answer)
      return answer
    }
    const checked = stream === 'shop' ? check(shopCommandSchema, body) : check(jobCommandSchema, body)
    if ('fault' in checked) return fault(checked.fault)
    const claimed = checked.value as unknown as SentJobCommand | SentShopCommand
    const hash = hashOf(stream, body as object)
    if (typeof hash !== 'string') return fault(hash.fault)
    const receivedAt = now()
    const { doneAt = receivedAt } = claimed
    const signIn = people.signInFor(deviceId, claimed.signInId, doneAt)
    if ('code' in signIn) return fault(signIn)
    // Who names no sign-in says the time as somebody who enters the past: only a sign-in of a device has times to hold it against.
    const command = {
      ...claimed,
      doneAt: claimed.signInId === undefined ? doneAt : doneUnder(signIn, doneAt, receivedAt),
    }
    const asker = await askerOf()
    if ('code' in asker) return fault(asker)
    return access.submit({
      stream,
      command,
      bodyHash: hash,
      asker,
      receivedAt,
      deviceId: signIn.deviceId,
      sender,
      reply,
    })

    async function askerOf(): Promise<Asker | Fault | ReturnType<typeof refuse>> {
      const { deviceId: device, personId } = signIn as SignIn
      if (command.grantId) return byGrant(command, command.grantId, device)
      if (stream === 'shop' || !('type' in command) || command.type !== 'SecondSignStep' || !command.look)
        return { person: personId, through: 'sign_in' }
      const { commandId, signInId, stepId, setId, look } = command
      // Answered before: neither a try more, nor any need of the PIN.
      if (await desk.isAnswered(commandId)) return { person: personId, through: 'sealed', pin: 'unreadable' }
      const terms = { commandId, signInId, jobId: jobIdOf(stream), stepId, setId, ...look }
      const pin = await people.proveSealed(sealed, terms as SealedTerms, device)
      if (pin !== 'right') {
        const known = lookUp((await desk.shop()).people, look.personId)
        log.warn(
          { personId: known?.id, deviceId: device },
          SEALED_WORDS[typeof pin === 'object' ? 'waits' : pin],
        )
      }
      if (typeof pin === 'object') return PIN_WAITS
      return { person: pin === 'right' ? look.personId : personId, through: 'sealed', pin }
    }

    function byGrant({ commandId, ...rest }: typeof command, grantId: string, device: string) {
      if (stream === 'shop' || !('type' in rest) || rest.type !== 'SecondSignStep')
        return refuse('grant_not_valid')
      const use = { commandId, deviceId: device, jobId: jobIdOf(stream), stepId: rest.stepId }
      return people.takeGrant(grantId, use)
    }
  }
}

const SEALED_WORDS = {
  wrong: 'A PIN that came sealed was wrong.',
  unreadable: 'A PIN that came sealed could not be opened.',
  waits: 'A PIN that came sealed was not looked at: after wrong ones it has to wait.',
} as const

/** Not answered for good: the device sends it again, with the PIN that it keeps until then [PE12]. */
const PIN_WAITS: Fault = {
  ok: false,
  code: 'pin_waits',
  sentence: 'After wrong PINs the next one has to wait. This entry is kept here and sent again by itself.',
}

/** JSON can carry half a surrogate pair; the log cannot. */
function hashOf(stream: StreamName, body: object): string | { fault: Fault } {
  try {
    return bodyHash(stream, body)
  } catch (error) {
    if (!(error instanceof NotCanonical)) throw error
    return badMessage(
      error.path.replace(/^\/1/, ''),
      'A text is broken in the middle of a character. Enter it again.',
    )
  }
}
