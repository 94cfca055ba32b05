/** What stands in the trees for an entry of the log, and for an answer. */

export interface StoredAnswer {
  commandId: string
  personId: string
  bodyHash: string
  answeredAt: number
  /** As it lies in its row. */
  answer: string
}

/** The bytes of an event's hash, which stands for its body, its place and all before it in its stream. */
export const entryLeaf = (hash: string): Uint8Array => Buffer.from(hash, 'hex')

export const answerLeaf = ({ commandId, personId, bodyHash, answeredAt, answer }: StoredAnswer): Uint8Array =>
  Buffer.from(JSON.stringify([commandId, personId, bodyHash, answeredAt, answer]))
