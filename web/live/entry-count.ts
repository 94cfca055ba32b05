/**
 * Counts what is entered on this device, for one shop: each entry carries its number, and what never arrives leaves a gap
 * that the server can tell.
 *
 * A browser that clears what it keeps takes the waiting entries with everything else of the page, but not the cookies; so the
 * count stands in both. Two pages that count in the same moment may give one number twice: then one gap would not show.
 */
import { recall, remember } from '../ui/device'

interface Count {
  upTo: number
  /** Up to which all is known to be with the shop, or was looked into. */
  since: number
}

export interface EntryCount {
  /** The next entry's number; none before the shop is known. */
  next(): number | undefined
  now(): Count | undefined
  /** All up to it is with the shop, or somebody has looked into it. */
  settle(since: number): void
  /** Told to whoever entered it, and not kept by the shop: no gap. */
  refused(number: number | undefined): void
  refusals(): readonly number[]
}

/** The longest that browsers keep a cookie (from memory). */
const COOKIE_SECONDS = 400 * 24 * 3600
/** Every request carries them: of the shops that were at this address only the last few have one. */
const MOST_COOKIES = 4

export function makeEntryCount(shopKey: () => string | undefined): EntryCount {
  const nameOf = (key: string) => `${NAME}${key}`
  const refusalsOf = (key: string) => `paintmark-refused-${key}`
  const refusals = (key: string): number[] =>
    (recall(refusalsOf(key)) ?? '').split(' ').map(Number).filter(isCount)

  function read(key: string): Count {
    const name = nameOf(key)
    const [a, b] = [parse(cookies().get(name)), parse(recall(name))]
    return { upTo: Math.max(a.upTo, b.upTo), since: Math.max(a.since, b.since) }
  }

  function write(key: string, { upTo, since }: Count): void {
    const text = `${upTo}.${since}`
    setCookie(nameOf(key), text, COOKIE_SECONDS)
    // The oldest come first.
    const others = [...cookies().keys()].filter((name) => name.startsWith(NAME) && name !== nameOf(key))
    for (const name of others.slice(0, Math.max(0, others.length - MOST_COOKIES + 1))) setCookie(name, '', 0)
    remember(nameOf(key), text)
  }

  return {
    next() {
      const key = shopKey()
      if (key === undefined) return undefined
      const count = read(key)
      write(key, { ...count, upTo: count.upTo + 1 })
      return count.upTo + 1
    },
    now() {
      const key = shopKey()
      return key === undefined ? undefined : read(key)
    },
    settle(since) {
      const key = shopKey()
      if (key === undefined) return
      const count = read(key)
      if (since <= count.since) return
      write(key, { ...count, since: Math.min(since, count.upTo) })
      remember(
        refusalsOf(key),
        refusals(key)
          .filter((number) => number > since)
          .join(' '),
      )
    },
    refused(number) {
      const key = shopKey()
      if (key !== undefined && number !== undefined)
        remember(refusalsOf(key), [...refusals(key), number].join(' '))
    },
    refusals() {
      const key = shopKey()
      return key === undefined ? [] : refusals(key)
    },
  }
}

const NAME = 'paintmark-count-'

const cookies = (): Map<string, string> =>
  new Map(
    document.cookie.split('; ').map((pair): [string, string] => {
      const [name = '', value = ''] = pair.split('=')
      return [name, value]
    }),
  )

/** Read and written at once, which the newer interface for cookies cannot. */
function setCookie(name: string, value: string, seconds: number): void {
  // biome-ignore lint/suspicious/noDocumentCookie: see above
  document.cookie = `${name}=${value}; path=/; max-age=${seconds}; samesite=strict`
}

function parse(text = ''): Count {
  const [upTo = 0, since = 0] = text.split('.').map(Number)
  return { upTo: isCount(upTo) ? upTo : 0, since: isCount(since) ? since : 0 }
}

const isCount = (count: number) => Number.isSafeInteger(count) && count > 0
