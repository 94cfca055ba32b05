/**
 * The arithmetic of the hash chain, apart from whoever hashes: the store checks its rows with Node's own SHA-256, a
 * release record in the browser with WebCrypto's, and both by what stands here.
 *
 * The hash of an entry is SHA-256, in hex, over the hash before it (64 zeros before the first) followed by the
 * entry's stored text, both as UTF-8: `printf %s%s "$previous" "$body" | sha256sum` says the same.
 */

export const BEFORE_THE_FIRST = '0'.repeat(64)

/** An entry as it is stored: `body` is the text itself, never written anew. */
export interface ChainRow {
  version: number
  body: string
  hash: string
}

/** `GET /api/jobs/:id/chain`: the stored rows of one stream, from the first. */
export interface Chain {
  stream: string
  rows: ChainRow[]
}

/** Whole to `version`, with the hash recomputed there; or the first version that is not as it was. */
export type Walked =
  | { whole: true; version: number; head: string }
  | { whole: false; version: number; found: string }

/** SHA-256 of a text's UTF-8, in hex. */
export type HashText = (text: string) => Promise<string>

/**
 * Hashes every row anew, from the first to `upTo`, believing none of the hashes that came with them. `head` is what
 * somebody wrote down of this chain at `upTo`: a release, or the paper it was printed on.
 */
export async function walkChain(
  { stream, rows }: Chain,
  upTo: number,
  head: string,
  hashText: HashText,
): Promise<Walked> {
  let hash = BEFORE_THE_FIRST
  for (let version = 1; version <= upTo; version++) {
    const row = rows[version - 1]
    if (row?.version !== version) return { whole: false, version, found: 'this entry is missing' }
    hash = await hashText(hash + row.body)
    if (hash !== row.hash)
      return { whole: false, version, found: 'its hash does not fit its content and the entries before it' }
    const misplaced = placeFault(stream, row)
    if (misplaced) return { whole: false, version, found: misplaced }
  }
  if (hash !== head)
    return {
      whole: false,
      version: upTo,
      found: 'the head recomputed here is not the one that was written down',
    }
  return { whole: true, version: upTo, head: hash }
}

/** What a body says of its own place, where that is not the place it stands at. */
function placeFault(stream: string, { version, body }: ChainRow): string | undefined {
  const envelope = readBody(body)
  if (!envelope) return 'its text is not an entry'
  if (envelope.stream !== stream) return `its text belongs to stream "${envelope.stream}"`
  if (envelope.version !== version) return `its text belongs to version ${envelope.version}`
  return undefined
}

/** The entry a stored text holds; nothing where it holds none. */
export function readBody(text: string): Record<string, unknown> | undefined {
  try {
    const value: unknown = JSON.parse(text)
    return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : undefined
  } catch {
    return undefined
  }
}

/**
 * Why an entry cannot stand where it does: one that carries a head (a release) was given on the very entries
 * before it. `previousHash` is the hash recomputed there.
 */
export function headFault(event: { type: string }, previousHash: string): string | undefined {
  const release = headOfRelease(event)
  if (!release || release.head === previousHash) return undefined
  return `release ${release.number} was given on other entries than stand before it (it names the head ${release.head.slice(0, 12)}…, they come to ${previousHash.slice(0, 12)}…)`
}

/** The number and head a release carries, as stored; nothing for any other entry. */
export function headOfRelease(event: { type: string }): { number: string; head: string } | undefined {
  if (event.type !== 'Released') return undefined
  const { number, head } = event as { number?: unknown; head?: unknown }
  return { number: String(number), head: String(head) }
}
