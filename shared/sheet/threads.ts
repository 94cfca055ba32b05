/** Threads of a sheet: the same few come a thousand times, and are read once. */
import type { FastenerRefusal } from '../fastener/refusals'
import { thread } from '../fastener/thread'
import { isRefusal } from '../log'

export type ThreadRead =
  | { designation: string; lengthMm?: number }
  | { refusal: FastenerRefusal; other: boolean }
const threads = new Map<string, ThreadRead>()
const MOST_THREADS = 500

/** A thread as the fastener's room understands it; a form it does not compute with (`R1/8`) is no fault. */
export function threadRead(text: string): ThreadRead {
  const known = threads.get(text)
  if (known) return known
  const read = thread(text)
  const made: ThreadRead = isRefusal(read)
    ? { refusal: read, other: read.refused === 'thread_other_form' }
    : {
        designation: read.designation,
        ...(read.lengthMm === undefined ? {} : { lengthMm: read.lengthMm }),
      }
  if (threads.size >= MOST_THREADS) threads.clear()
  threads.set(text, made)
  return made
}
