/** A long first answer is packed once for whoever can unpack it; everything later is short. */
import { gzipSync } from 'node:zlib'
import type { Packed } from '../../shared/protocol'

/** Below this the wire's own frames weigh as much as what is saved. */
const LONG_BYTES = 2048

/** At once, not in the background: an answer must not be overtaken by what is broadcast after it [WI7]. */
export function pack<A extends object>(request: unknown, answer: A): A | Packed {
  const unpacks =
    typeof request === 'object' && request !== null && 'unpacks' in request && request.unpacks === true
  if (!unpacks || !('ok' in answer) || answer.ok !== true) return answer
  const text = JSON.stringify(answer)
  return text.length < LONG_BYTES ? answer : { ok: true, packed: new Uint8Array(gzipSync(text)) }
}
