/**
 * What each device may ask, weighed by what it costs the server, over HTTP and sockets alike: more than any bench and any reload
 * needs, less than a loop gone wild [WI9]. One coin is a short message.
 *
 * What something costs is often known only once it is done; then it is paid afterwards, and whoever owes waits.
 */
export const COINS_A_SECOND = 250
export const MOST_COINS = 500

/** Beside the message: nobody enters by mistake as often as a broken page does. */
export const REFUSED = 4
/** Of what many could ask at once before the first is answered and paid: beforehand. */
export const WATCH = 5
export const WHOLE_LOG = 25
/** Bytes of JSON made for this one asker, a coin. */
const MADE_BYTES = 16 * 1024
/** Of what takes the whole log of an engine, or reads a plan. */
const HARD_BYTES = 4 * 1024
/** Of what lay ready. */
const READY_BYTES = 64 * 1024

export const made = (bytes: number): number => bytes / MADE_BYTES
export const hard = (bytes: number): number => bytes / HARD_BYTES
export const ready = (bytes: number): number => bytes / READY_BYTES

/** More are known only while the shop is under attack; whoever has all coins again is forgotten. */
const KNOWN = 2000

export interface Purses {
  /** Takes a coin for a message, or what it costs at least; 0, or how many milliseconds to wait. */
  ask(who: string, price?: number): number
  /** What it cost beside that. */
  pay(who: string, coins: number): void
}

/** Of a clock that only goes forward: one that is set back would keep a device waiting for as long. */
export function makePurses(monotonic: () => number): Purses {
  const purses = new Map<string, { coins: number; at: number }>()

  function purseOf(who: string) {
    const now = monotonic()
    const purse = purses.get(who) ?? { coins: MOST_COINS, at: now }
    purse.coins = Math.min(MOST_COINS, purse.coins + ((now - purse.at) / 1000) * COINS_A_SECOND)
    purse.at = now
    if (!purses.has(who) && purses.size >= KNOWN) forget(now)
    purses.set(who, purse)
    return purse
  }

  function forget(now: number) {
    for (const [who, { coins, at }] of purses)
      if (coins + ((now - at) / 1000) * COINS_A_SECOND >= MOST_COINS) purses.delete(who)
  }

  return {
    ask(who, price = 1) {
      const purse = purseOf(who)
      if (purse.coins < price) return Math.ceil(((price - purse.coins) / COINS_A_SECOND) * 1000)
      purse.coins -= price
      return 0
    },
    pay(who, coins) {
      purseOf(who).coins -= coins
    },
  }
}
