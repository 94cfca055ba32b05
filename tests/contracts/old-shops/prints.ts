/**
 * What a log amounts to, in hashes: of every stream where its chain ends, and what it folds to.
 *
 * A fold's hash is over its canonical JSON. Its members are hashed one by one too, so that a fold that comes out
 * otherwise says where.
 */
import { createHash } from 'node:crypto'
import { asStreamName, emptyFold, foldOn, type StreamName, upcast } from '../../../server/desk/streams'
import type { EventStore, Recorded } from '../../../server/store'
import { canonical } from '../../../server/store/canonical'

export interface StreamPrint {
  version: number
  head: string
  fold: string
  members: Record<string, string>
}

export type Prints = Record<string, StreamPrint>

/** A fold as another build knew it: without what was added since, under the names it had. */
export type Projection = (fold: object) => object

export const AS_IT_IS: Projection = (fold) => fold

export async function printsOf(store: EventStore, project: Projection): Promise<Prints> {
  const prints: Prints = {}
  for (const { stream, version, hash } of await store.streams()) {
    const name = asStreamName(stream)
    if (!name) throw new Error(`${stream} is no stream of a shop.`)
    prints[stream] = { version, head: hash, ...foldPrint(project(fold(name, await store.read(stream)))) }
  }
  return prints
}

export function fold(stream: StreamName, recorded: readonly Recorded[]): object {
  return foldOn(
    stream,
    emptyFold(stream),
    recorded.map((row) => upcast(row).event),
  )
}

export function foldPrint(fold: object): Pick<StreamPrint, 'fold' | 'members'> {
  const members = Object.entries(fold).map(([name, value]) => [name, hash(value).slice(0, 16)] as const)
  return { fold: hash(fold), members: Object.fromEntries(members) }
}

/** What is absent and what is `undefined` are the same, as everywhere in the log. */
const hash = (value: unknown): string =>
  createHash('sha256')
    .update(value === undefined ? '' : canonical(value))
    .digest('hex')
