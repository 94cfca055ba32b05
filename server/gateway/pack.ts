/**
 * A long first answer is packed for whoever can unpack it; everything later is short. Packed off the main path, and kept for the
 * next who asks for the same version.
 */
import { promisify } from 'node:util'
import { gzip, gzipSync } from 'node:zlib'
import type { Watched } from '../../shared/protocol'
import { made, ready } from '../purse'
import type { Packing, Sent } from './watch'

const gzipAsync = promisify(gzip)

/** Below this the wire's own frames weigh as much as what is saved. */
const LONG_BYTES = 2048
const KEPT_BYTES = 32 * 2 ** 20

/** Of the very state it was packed from: another version, or another shop's, is another object. */
interface Kept {
  of: WeakRef<object>
  bytes: Uint8Array<ArrayBuffer>
}

export function makePacker(keptMost = KEPT_BYTES) {
  /** The one used last stands last. */
  const kept = new Map<string, Kept>()
  let keptBytes = 0
  /** Asked for by many at once, as after a restart: packed once. */
  const inWork = new Map<string, { of: object; sent: Promise<Sent> }>()

  function keep(key: string, of: object, bytes: Uint8Array<ArrayBuffer>) {
    keptBytes += bytes.byteLength - (kept.get(key)?.bytes.byteLength ?? 0)
    kept.delete(key)
    kept.set(key, { of: new WeakRef(of), bytes })
    for (const [old, { bytes }] of kept) {
      if (keptBytes <= keptMost) break
      kept.delete(old)
      keptBytes -= bytes.byteLength
    }
  }

  return {
    keptBytes: () => keptBytes,
    /**
     * For one who asks for what is kept under `key`. Whether what it was packed from is still the newest is asked by whoever calls:
     * an answer must not be overtaken by what is broadcast after it [WI7].
     */
    packing: (key: string): Packing => ({
      kept(of, { now }) {
        const found = kept.get(key)
        if (found?.of.deref() !== of) return undefined
        kept.delete(key)
        kept.set(key, found)
        return { answer: { ok: true, packed: found.bytes, now }, cost: ready(found.bytes.byteLength) }
      },
      async make(of, answer, atOnce) {
        // Without the head it is of a moment in between.
        const isToKeep = 'summaries' in answer || answer.head !== undefined
        const other = inWork.get(key)
        if (isToKeep && !atOnce && other?.of === of) return other.sent
        const sent = packed(answer, atOnce)
        if (!isToKeep || atOnce) return sent
        inWork.set(key, { of, sent })
        try {
          const { answer: given } = await sent
          if ('packed' in given) keep(key, of, given.packed)
          return await sent
        } finally {
          if (inWork.get(key)?.sent === sent) inWork.delete(key)
        }
      },
    }),
  }
}

async function packed(answer: Watched, atOnce: boolean): Promise<Sent> {
  const text = JSON.stringify(answer)
  if (text.length < LONG_BYTES) return { answer, cost: 0 }
  const bytes = new Uint8Array(atOnce ? gzipSync(text) : await gzipAsync(text))
  return { answer: { ok: true, packed: bytes, now: answer.now }, cost: made(text.length) }
}

/** For a page of version 1, which reads the time inside: packed for itself. */
export const PACKED_ONCE: Packing = {
  kept: () => undefined,
  make: (_, answer) => packed(answer, true),
}
