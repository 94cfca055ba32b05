/**
 * SHA-256 on this device, in hex. The browser gives it only where the way to the page is safe: TLS, or this very
 * machine; `canHash` says whether it does.
 */

export const canHash = (): boolean => typeof crypto !== 'undefined' && crypto.subtle !== undefined

const HEX = Array.from({ length: 256 }, (_, byte) => byte.toString(16).padStart(2, '0'))

export function hex(digest: ArrayBuffer): string {
  let text = ''
  for (const byte of new Uint8Array(digest)) text += HEX[byte]
  return text
}

export const hashBytes = async (bytes: ArrayBuffer | Uint8Array<ArrayBuffer>): Promise<string> =>
  hex(await crypto.subtle.digest('SHA-256', bytes))

const utf8 = new TextEncoder()

/** Over the text's UTF-8. */
export const hashText = (text: string): Promise<string> => hashBytes(utf8.encode(text))
