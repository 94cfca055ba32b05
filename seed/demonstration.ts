/**
 * The invented shop on its own clock, with a day to play, that can begin anew while it is served.
 *
 * - The whole server runs on the shop's clock: D0 09:45 when it opens, then at the player's pace.
 * - A restart makes the folder anew from the seed: the same log to the last byte. Requests that come meanwhile wait
 *   for it; sign-ins are gone with the rest [DM6].
 */
import { v7 } from 'uuid'
import { claimFolder, emptyFolder } from '../server/demonstration/folder'
import { swappableShop } from '../server/demonstration/swappable-shop'
import type { Log } from '../server/desk'
import type { Demo } from '../server/http/parts'
import { type OpenShop, openShop } from '../server/open-shop'
import { repoFolder } from '../server/repo-folder'
import type { DemoState } from '../shared/protocol'
import { OPENS_AT, type ShopClock } from './clock'
import { restOfTheDay } from './day'
import { type DemoPerson, EVENT_IDS, seedDemo } from './demo'
import { idsFrom } from './ids'
import { makePace } from './pace'
import { makePlayer } from './player'

export interface Demonstration {
  shop: OpenShop
  demo: Demo
  table: DemoPerson[]
  /** Told to whoever starts another one on this folder. */
  reachableAt(address: string): void
  close(): Promise<void>
}

export interface DemonstrationParts {
  dataFolder: string
  clock: ShopClock
  log: Log
  /** A restart failed half way: there is no shop any more. */
  failed(error: unknown): void
  device?: () => number
  after?: (ms: number, then: () => void) => () => void
}

const COMMAND_IDS_OF_THE_DAY = 103

/** A day fits a timer; this bounds what a wrong clock could ask for. */
const LONGEST_WAIT_MS = 24 * 3_600_000

function wallTimer(ms: number, then: () => void): () => void {
  const timer = setTimeout(then, Math.min(ms, LONGEST_WAIT_MS))
  return () => clearTimeout(timer)
}

export async function openDemonstration(parts: DemonstrationParts): Promise<Demonstration> {
  const { dataFolder, clock, log, failed, device = Date.now, after = wallTimer } = parts
  const listeners: Parameters<Demo['onChange']>[0][] = []
  const folder = claimFolder(dataFolder)
  let run = await openRun().catch((error: unknown) => {
    folder.release()
    throw error
  })
  let restarting: Promise<void> | undefined
  const { shop, swapped } = swappableShop(() => run.shop)

  async function openRun() {
    emptyFolder(dataFolder)
    const id = v7()
    const pace = makePace(clock.at(0, OPENS_AT), device)
    // The past and the day take ids that come out the same each time; whatever people enter takes them from chance.
    const seedIds = idsFrom(EVENT_IDS)
    let inSeed = true
    const newId = (): string => (inSeed || player?.sending() ? seedIds() : v7())
    let player: ReturnType<typeof makePlayer> | undefined
    const openedShop = await openShop({ dataFolder, now: pace.now, log, newId })
    const { desk, people, photos } = openedShop
    const table = await seedDemo({ desk, people, photos, clock, repo: repoFolder() })
    inSeed = false
    let change = 0
    const state = (): DemoState => ({
      run: id,
      change,
      now: pace.now(),
      rate: pace.rate(),
      ...(player as NonNullable<typeof player>).state(),
    })
    player = makePlayer({
      moments: restOfTheDay(clock),
      clock,
      pace,
      desk,
      newId: idsFrom(COMMAND_IDS_OF_THE_DAY),
      after,
      changed() {
        change += 1
        emit(false)
      },
      failed: (err) => log.error({ err }, 'The day stopped: a moment broke.'),
    })
    return { id, shop: openedShop, player, state, table }
  }

  function emit(anew: boolean) {
    const state = run.state()
    for (const listener of listeners) listener(state, anew)
  }

  async function restart() {
    await run.player.close()
    await run.shop.close()
    run = await openRun()
    swapped()
    emit(true)
  }

  return {
    shop,
    table: run.table,
    reachableAt: folder.reachableAt,
    demo: {
      moments: run.player.moments,
      state: () => run.state(),
      onChange: (listener) => void listeners.push(listener),
      ready: () => (restarting ?? Promise.resolve()).catch(() => undefined),
      act(act) {
        switch (act.do) {
          case 'play':
            return run.player.play()
          case 'pause':
            return run.player.pause()
          case 'step':
            return run.player.step()
          case 'speed':
            return run.player.setSpeed(act.speed)
          case 'restart': {
            if (act.run !== run.id) return Promise.resolve()
            restarting ??= restart()
              .catch((error: unknown) => {
                failed(error)
                throw error
              })
              .finally(() => {
                restarting = undefined
              })
            return restarting
          }
        }
      },
    },
    async close() {
      await restarting?.catch(() => undefined)
      await run.player.close()
      await run.shop.close()
      folder.release()
    },
  }
}
