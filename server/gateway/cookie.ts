/** One cookie out of a handshake's header. */
export function cookieNamed(name: string, header: string | undefined): string | undefined {
  for (const pair of header?.split(';') ?? []) {
    const at = pair.indexOf('=')
    if (at > 0 && pair.slice(0, at).trim() === name) return pair.slice(at + 1).trim()
  }
  return undefined
}
