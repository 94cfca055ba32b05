/** Finds an engine by any words of its number, serial, name, owner or what it drives. */
import type { JobSummary } from '../../../shared/job/summary'

const plain = (text: string) => text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase()

type Sought = Pick<JobSummary, 'number' | 'serial' | 'engine' | 'owner' | 'drives'>

export function matches({ number, serial, engine, owner, drives }: Sought, query: string): boolean {
  const text = plain(
    [number, number.replace(/[^\p{L}\p{N}]/gu, ''), serial, engine, owner, drives ?? ''].join(' '),
  )
  return plain(query)
    .split(/\s+/)
    .every((word) => text.includes(word))
}
