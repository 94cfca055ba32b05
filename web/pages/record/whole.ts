/**
 * Whether a record is still what was released: the stored entries it covers, computed on this device, come to the
 * head the release names. What the page shows is folded from these very entries and no others.
 *
 * It proves that nothing before the release was changed since. Whoever could write the log anew together with its
 * release is found by the head alone: compare it with an earlier print.
 */
import { type Chain, type HashText, readBody, walkChain } from '../../../shared/chain'
import type { JobEvent } from '../../../shared/job/events'
import { liftJobEvent } from '../../../shared/job/upcast'
import type { StreamEvent } from '../../../shared/log'

export type Whole =
  | { state: 'checking' }
  | { state: 'whole'; version: number }
  | { state: 'differs'; version: number; found: string }
  | { state: 'cannot'; why: string }

export interface Covered {
  version: number
  head: string
}

/** `hashText`: nothing where this browser has no SHA-256 for a page that came this way. */
export async function checkWhole(
  chain: Chain,
  { version, head }: Covered,
  hashText: HashText | undefined,
): Promise<Whole> {
  if (!hashText)
    return {
      state: 'cannot',
      why: 'this browser computes no check number for a page that was not loaded securely. Open the record by its https address',
    }
  try {
    const walked = await walkChain(chain, version, head, hashText)
    return walked.whole
      ? { state: 'whole', version }
      : { state: 'differs', version: walked.version, found: walked.found }
  } catch {
    return { state: 'cannot', why: 'this browser stopped computing. Load the page again' }
  }
}

/** What stands on the record, on the screen and on paper. */
export function wholeWords(whole: Whole): string {
  switch (whole.state) {
    case 'checking':
      return 'Computing the check number on this device…'
    case 'whole':
      return `The record is whole: entries 1 to ${whole.version}, computed on this device, come to this check number.`
    case 'differs':
      return `This is not what was released. Entry ${whole.version}: ${whole.found}. Do not rely on this record; tell the supervisor, and compare it with an earlier print.`
    case 'cannot':
      return `The check number was not computed: ${whole.why}.`
  }
}

/** The entries as the rest of the page reads them; nothing where one of them is no entry this page knows. */
export function eventsOf({ rows }: Chain): StreamEvent<JobEvent>[] | undefined {
  const events: StreamEvent<JobEvent>[] = []
  for (const { version, body } of rows) {
    const { recordedAt, event } = (readBody(body) ?? {}) as {
      recordedAt?: unknown
      event?: { type?: unknown }
    }
    if (typeof recordedAt !== 'number' || typeof event?.type !== 'string') return undefined
    const lifted = liftJobEvent(event as { type: string })
    if (!lifted) return undefined
    events.push({ version, recordedAt, event: lifted })
  }
  return events
}
