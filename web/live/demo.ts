/**
 * The demonstration's day as this device knows it: how far it has come, at what pace the shop's clock goes, and the
 * way to steer it. In a real shop there is none of it.
 */
import { createSignal } from 'solid-js'
import type { DemoAct, DemoMoment, DemoState } from '../../shared/protocol'
import type { Clock } from './clock'
import { ask, isFailure } from './http'
import type { Link } from './link'

export type Demo = ReturnType<typeof makeDemo>

/** A page nobody is signed in on has no socket; it asks. */
const ASK_MS = 2000

export function makeDemo(clock: Clock, link: Link, reload: () => void = () => location.reload()) {
  const [state, setState] = createSignal<DemoState>()
  const [moments, setMoments] = createSignal<readonly DemoMoment[]>([])

  function take(next: DemoState, sentAt = Date.now()): void {
    const before = state()
    // Another run is another shop: nothing this page holds is of it.
    if (before && before.run !== next.run) {
      reload()
      return
    }
    if (before && next.change < before.change) return
    clock.setPace(sentAt, next.now, next.rate)
    setState(next)
    if (!before) void readMoments()
  }

  async function readMoments(): Promise<void> {
    const answer = await ask<DemoState & { moments: DemoMoment[] }>('/api/demo')
    if (!isFailure(answer)) setMoments(answer.moments)
  }

  async function askAgain(): Promise<void> {
    const sentAt = Date.now()
    const answer = await ask<DemoState>('/api/demo')
    if (!isFailure(answer)) take(answer, sentAt)
  }

  link.on('demo', (next) => take(next))

  return {
    /** Nothing in a real shop. */
    state,
    moments,
    take,
    /** What is happening: the moment that began last. */
    happening: (): DemoMoment | undefined => moments()[(state()?.begun ?? 0) - 1],
    next: (): DemoMoment | undefined => moments()[state()?.begun ?? 0],
    /** That nothing comes any more; false where the moments are not known. */
    isOver: () => moments().length > 0 && (state()?.begun ?? 0) >= moments().length,
    /** Keeps asking until the returned function is called. */
    keepAsking(): () => void {
      const timer = setInterval(() => document.visibilityState === 'visible' && void askAgain(), ASK_MS)
      return () => clearInterval(timer)
    },
    /** Answers with the sentence that says why not, or nothing when it is done. */
    async act(act: DemoAct): Promise<string | undefined> {
      const sentAt = Date.now()
      const answer = await ask<DemoState>('/api/demo', act)
      if (isFailure(answer)) return answer.sentence
      take(answer, sentAt)
      return undefined
    },
  }
}
