/**
 * A second signer's PIN on somebody else's tablet buys one word: for one step as it was looked at, from that
 * tablet, within three minutes, once [PE7].
 *
 * "Once" means for one command: a resend of it finds its grant again. Kept in memory; after a restart the
 * second signer gives the PIN again.
 */
import { type Refusal, refuse } from '../../shared/log'

export const GRANT_MS = 3 * 60_000
/** How long a used grant answers for resends of its command. */
const USED_MS = 60 * 60_000

export interface GrantTerms {
  personId: string
  deviceId: string
  jobId: string
  stepId: string
  /** What was looked at: the digest of `lookedAt`, or the job's version where a page of an older build asks. */
  digest?: string
  version?: number
}

export interface Grants {
  /** `now`, here and below: milliseconds of a clock that only goes forward. Gives the grant's id. */
  give(terms: GrantTerms, now: number): string
  /** The grant, now used up by this command; or why it does not hold. */
  take(
    grantId: string,
    use: { commandId: string; deviceId: string; jobId: string; stepId: string },
    now: number,
  ): GrantTerms | Refusal
}

export function makeGrants(newId: () => string): Grants {
  const grants = new Map<string, GrantTerms & { expiresAt: number; usedBy?: string }>()

  function forgetOld(now: number) {
    for (const [id, { expiresAt, usedBy }] of grants)
      if (now > expiresAt + (usedBy ? USED_MS : 0)) grants.delete(id)
  }

  return {
    give(terms, now) {
      forgetOld(now)
      const grantId = newId()
      grants.set(grantId, { ...terms, expiresAt: now + GRANT_MS })
      return grantId
    },
    take(grantId, use, now) {
      const grant = grants.get(grantId)
      const fits =
        grant &&
        grant.deviceId === use.deviceId &&
        grant.jobId === use.jobId &&
        grant.stepId === use.stepId &&
        (grant.usedBy ? grant.usedBy === use.commandId : now <= grant.expiresAt)
      if (!fits) return refuse('grant_not_valid')
      grant.usedBy = use.commandId
      return grant
    },
  }
}
