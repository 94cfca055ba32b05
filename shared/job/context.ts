/**
 * What a decision may look at beside the job itself: the shop as folded now, the person, the times.
 *
 * The browser fills the same context from its replica, so that a tap is answered at once; the server
 * fills it from the log, and its answer stands.
 */
import { type Instant, type Refusal, refuse } from '../log'
import { lookUp } from '../look-up'
import type { AdoptedJoint } from '../plan/types'
import type { Done, Person, Shop } from '../shop/types'
import type { JobEvent } from './events'
import type { RefusalCode, RefusalData } from './refusals'

export interface Context {
  shop: Shop
  /** Person id, resolved by the server from the sign-in the command names. */
  by: string
  doneAt: Instant
  clockOffsetMs?: number
  /** Entries take their short ids from it, so that both sides name a new entry alike. */
  commandId: string
  /**
   * How the person proved who they are; a grant is a second signer's PIN on somebody else's tablet, and it may come later,
   * sealed.
   */
  through: 'sign_in' | 'grant' | 'sealed'
  /** What a grant was given for, as the second signer looked at it: the digest of `lookedAt`, or the job's version. */
  sawDigest?: string
  sawVersion?: number
  /** What became of a sealed PIN; a device that looks ahead does not know. */
  pin?: 'right' | 'wrong' | 'unreadable'
  /** SHA-256 of a text's UTF-8, in hex; only the server has it at hand, and only what was looked at asks. */
  sha256?: (text: string) => string
  /** Whether another job in the shop carries this number; asked only by `OpenJob`. */
  numberTaken?: (number: string) => boolean
  /** Hash of the job's last event; only the server has it, and only a release asks. */
  head?: string
  /** Whether a photo's bytes are on the server's disk and match their hash. */
  bytesHere?: (sha256: string) => boolean
  /** Whether a PIN becomes good in the same commit; only the shop's own decisions ask. */
  withPin?: boolean
}

export type Outcome = JobEvent[] | Refusal<RefusalCode>

/** Says no by a rule, with the data its sentence names. */
export const no = <Code extends RefusalCode>(code: Code, data: RefusalData[Code]): Refusal<RefusalCode> =>
  refuse(code, data as Record<string, unknown>)

/** A joint as refusals name it. */
export const jointData = ({ id, title, fastener }: AdoptedJoint) => ({ joint: id, title, fastener })

export const noPosition = (joint: AdoptedJoint, position: number): Refusal<RefusalCode> =>
  no('position_not_found', { ...jointData(joint), position, positions: joint.positions.map(({ n }) => n) })

/** Who and when, as every event carries it. */
export function done(context: Context): Done {
  const { by, doneAt, clockOffsetMs } = context
  return clockOffsetMs === undefined ? { by, doneAt } : { by, doneAt, clockOffsetMs }
}

export const personOf = (context: Context): Person | undefined => lookUp(context.shop.people, context.by)

/**
 * A name for a new entry: the end of the command's id, longer only where that is taken.
 *
 * Short, because an entry is named on every tablet; unique within its job by looking.
 */
export function entryId(commandId: string, taken: (id: string) => boolean): string {
  const hex = commandId.replaceAll('-', '')
  for (let length = 8; length < hex.length; length += 4) {
    const id = hex.slice(-length)
    if (!taken(id)) return id
  }
  return hex
}
