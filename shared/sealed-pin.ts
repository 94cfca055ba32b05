/**
 * A second signer's PIN given without signal: sealed on the device to the server's key, so that nothing on the device can
 * tell it, and opened by the server for the one entry it was given with [PE10].
 *
 * RSA-OAEP with SHA-256 (RFC 8017, 7.1) over 32 bytes that name what it is for, the SHA-256 of `sealedFor`, and the PIN's
 * digits after them. Both sides use what their platform has; nothing here computes.
 */

export const PIN_KEY_BITS = 3072
/** Of what the PIN is for. */
export const TERMS_BYTES = 32

/** The entry a PIN was given with: sent with any other it is none. */
export interface SealedTerms {
  commandId: string
  /** A sign-in belongs to one device. */
  signInId?: string
  jobId: string
  stepId: string
  setId?: string
  personId: string
  digest: string
}

export const sealedFor = (terms: SealedTerms): string => {
  const { commandId, signInId = '', jobId, stepId, setId = '', personId, digest } = terms
  return JSON.stringify([commandId, signInId, jobId, stepId, setId, personId, digest])
}
