/** The demo shop with its day to play, on a wall clock that goes only when it is told. */
import { D0, OPENS_AT, shopClock } from '../../seed/clock'
import { restOfTheDay } from '../../seed/day'
import { idsFrom } from '../../seed/ids'
import { makePace } from '../../seed/pace'
import { makePlayer } from '../../seed/player'
import { demoShop } from './shop'

export const clock = shopClock(D0)
export const at = (time: string): number => clock.at(0, time)

/** `HH:MM:SS` of D0 or any other day, as the shop's clock shows it. */
export const shown = (instant: number): string => new Date(instant).toTimeString().slice(0, 8)

export async function drivenDay(moments = restOfTheDay(clock)) {
  const shop = await demoShop()
  const wall = { now: 1_000_000 }
  const waiting = new Set<{ at: number; then: () => void }>()
  const failures: unknown[] = []
  let changes = 0
  const pace = makePace(at(OPENS_AT), () => wall.now)
  const player = makePlayer({
    moments,
    clock,
    pace,
    desk: shop.desk,
    newId: idsFrom(7),
    after(ms, then) {
      const one = { at: wall.now + ms, then }
      waiting.add(one)
      return () => void waiting.delete(one)
    },
    changed: () => {
      changes += 1
    },
    failed: (error) => failures.push(error),
  })
  /** Until everything that was begun is answered. */
  const settled = async () => {
    for (let n = 0; n < 20; n++) await new Promise<void>((resolve) => setImmediate(resolve))
  }

  return {
    ...shop,
    player,
    pace,
    failures,
    changes: () => changes,
    settled,
    /** So many seconds go by on the wall; timers come up when it is their turn. */
    async seconds(count: number) {
      const end = wall.now + count * 1000
      for (;;) {
        await settled()
        const next = [...waiting].sort((a, b) => a.at - b.at)[0]
        if (!next || next.at > end) break
        waiting.delete(next)
        wall.now = Math.max(wall.now, next.at)
        next.then()
      }
      wall.now = end
    },
    async atOnce() {
      await player.setSpeed('at_once')
      await player.play()
      for (let n = 0; player.state().playing; n++) {
        if (n > 1000) throw new Error('The day does not end.')
        await settled()
        for (const one of [...waiting]) {
          waiting.delete(one)
          one.then()
        }
      }
    },
  }
}
