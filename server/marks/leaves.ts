/** What stands in the trees for an entry of the log, and for an answer. */

export interface StoredAnswer {
  commandId: string
  personId: string
  bodyHash: string
  answeredAt: number
  /** As it lies in its row. */
  answer: string
  deviceId: string | null
  entryNumber: number | null
}

/** The bytes of an event's hash, which stands for its body, its place and all before it in its stream. */
export const entryLeaf = (hash: string): Uint8Array => Buffer.from(hash, 'hex')

/** What a row has from a later build comes behind, and only where it has it: earlier leaves stay what they were. */
export function answerLeaf(row: StoredAnswer): Uint8Array {
  const { commandId, personId, bodyHash, answeredAt, answer, deviceId, entryNumber } = row
  const counted = deviceId === null && entryNumber === null ? [] : [deviceId, entryNumber]
  return Buffer.from(JSON.stringify([commandId, personId, bodyHash, answeredAt, answer, ...counted]))
}
