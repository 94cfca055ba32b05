/**
 * SHA-256 on this device, in hex. The browser gives it only where the way to the page is safe: TLS, or this very
 * machine; `canHash` says whether it does.
 */

export const canHash = (): boolean => typeof crypto !== 'undefined' && crypto.subtle !== undefined

export const hex = (digest: ArrayBuffer): string =>
  [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('')

export const hashBytes = async (bytes: ArrayBuffer | Uint8Array<ArrayBuffer>): Promise<string> =>
  hex(await crypto.subtle.digest('SHA-256', bytes))

/** Over the text's UTF-8. */
export const hashText = (text: string): Promise<string> => hashBytes(new TextEncoder().encode(text))
