/**
 * What each stream amounts to now, kept in memory: the shop always, jobs as far as the bound goes.
 *
 * A fold from disk is read through the store's check of its hash chain [DK7], upcast, then folded. Whoever
 * asks for the same stream meanwhile waits for the same reading.
 */
import type { EventStore } from '../store'
import { emptyFold, type Fold, foldOn, type StreamName, upcast } from './streams'

export interface Folds {
  load(stream: StreamName): Promise<Fold>
  /** As committed, if it is in memory. */
  peek(stream: StreamName): Fold | undefined
  put(stream: StreamName, fold: Fold): void
  drop(streams: Iterable<StreamName>): void
}

export function makeFolds(store: EventStore, maxFolds: number): Folds {
  // A Map keeps the order of insertion: the first is the one longest unused.
  const cache = new Map<StreamName, Fold>()
  const loading = new Map<StreamName, Promise<Fold>>()

  function put(stream: StreamName, fold: Fold) {
    cache.delete(stream)
    cache.set(stream, fold)
    if (cache.size <= maxFolds) return
    for (const oldest of cache.keys()) {
      if (oldest === 'shop') continue
      cache.delete(oldest)
      break
    }
  }

  async function read(stream: StreamName): Promise<Fold> {
    const recorded = await store.read(stream)
    const fold = foldOn(
      stream,
      emptyFold(stream),
      recorded.map((row) => upcast(row).event),
    )
    // A job that was never opened is not worth a place: anybody can ask for any id.
    if (fold.version > 0 && loading.has(stream)) put(stream, fold)
    return fold
  }

  return {
    load(stream) {
      const cached = cache.get(stream)
      if (cached) {
        put(stream, cached)
        return Promise.resolve(cached)
      }
      const underWay = loading.get(stream)
      if (underWay) return underWay
      const reading = Promise.resolve()
        .then(() => read(stream))
        .finally(() => loading.delete(stream))
      loading.set(stream, reading)
      return reading
    },
    peek: (stream) => cache.get(stream),
    put,
    drop(streams) {
      for (const stream of streams) cache.delete(stream)
    },
  }
}
