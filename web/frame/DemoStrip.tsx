/**
 * The demonstration's banner: that all of it is invented, the shop's time, what is happening, and the keys of its day.
 * One line, two on a phone once the day goes on; all that needs room stands in the sheet behind "The day".
 */
import { A } from '@solidjs/router'
import { createEffect, createMemo, createSignal, lazy, onCleanup, Show, Suspense } from 'solid-js'
import type { DemoAct, DemoMoment } from '../../shared/protocol'
import { format } from '../format'
import { useLive } from '../live/live'
import { useNow } from '../ui/clock'
import { paintColour } from '../ui/paint'
import './demo.css'

const DemoDay = lazy(() => import('./DemoDay'))

/** Often enough that a hurried clock is seen to go, and no oftener. */
const TICK_MS = 500

export default function DemoStrip() {
  const { demo, clock, session } = useLive()
  const [open, setOpen] = createSignal(false)
  /** Why a key did nothing; the next thing that happens takes it away. */
  const [why, setWhy] = createSignal<string>()
  const act = async (what: DemoAct) => setWhy(await demo.act(what))
  const ticking = useNow(TICK_MS)
  // A clock that was put forward is seen to be at once.
  const now = createMemo(() => {
    demo.state()
    ticking()
    return clock.now()
  })
  createEffect(() => demo.state() && setWhy())
  // Nobody signed in: no socket tells this page how the day goes on.
  createEffect(() => {
    if (!session.person()) onCleanup(demo.keepAsking())
  })

  const playing = () => demo.state()?.playing ?? false
  const refusal = () => {
    const { begun = 0, refused = [] } = demo.state() ?? {}
    return refused.find(({ moment }) => moment === begun - 1)
  }
  const whose = ({ at, person, jobId }: DemoMoment) =>
    `${format.time(at)} ${session.nameOf(person)}, ${jobId.toUpperCase()}`
  /** Who and where; then what to look at. */
  const words = (): [string, string] => {
    const now = demo.happening()
    const next = demo.next()
    const refused = refusal()
    const problem = why()
    if (problem) return ['That did not go', problem]
    if (now) return [whose(now), refused ? `Refused: ${refused.sentence}` : now.shows]
    return next ? ['The rest of the day is yours to play', `Next ${whose(next)}: ${next.shows}`] : ['', '']
  }
  const initials = () => session.cardOf(demo.happening()?.person ?? '')?.initials
  const paint = () => paintColour(session.cardOf(demo.happening()?.person ?? '')?.paint)

  return (
    <>
      <aside class="banner demo" aria-label="About this shop">
        <p class="demo-invented">
          <span class="demo-long">Demo shop. All names and values are invented.</span>
          <span class="demo-short">Demo, all invented</span>
        </p>
        <p class="demo-time">
          <span class="unseen">The shop’s time: </span>
          <time>{format.time(now())}</time>
          <span class="demo-date"> {format.weekdayAndDate(now())}</span>
          <Show when={playing() && demo.state()?.rate}>
            {(rate) => <span class="demo-rate"> {rate()}×</span>}
          </Show>
        </p>
        <p class="demo-now" role="status" title={words().join(': ')}>
          <span class="demo-who" style={{ '--paint': paint() }}>
            {words()[0]}
          </span>
          <span
            class="demo-what"
            data-who={initials()}
            classList={{ against: why() !== undefined || refusal()?.foreseen === false }}
          >
            {words()[1]}
          </span>
        </p>
        <div class="demo-keys">
          <Show
            when={demo.next() || playing()}
            fallback={
              <Show when={demo.isOver()}>
                <span class="demo-over">The day is over.</span>
              </Show>
            }
          >
            <button type="button" onClick={() => act({ do: playing() ? 'pause' : 'play' })}>
              {playing() ? 'Pause' : 'Play'}
              <span class="demo-long">{playing() ? '' : ' the day'}</span>
            </button>
            <button type="button" onClick={() => act({ do: 'step' })}>
              Next<span class="demo-long"> moment</span>
            </button>
          </Show>
          <button type="button" aria-haspopup="dialog" onClick={() => setOpen(true)}>
            <span class="demo-long">The whole day</span>
            <span class="demo-short">Day</span>
          </button>
          <A class="demo-look" href="/first-look">
            First look
          </A>
        </div>
      </aside>
      <Show when={open()}>
        <Suspense>
          <DemoDay onClose={() => setOpen(false)} />
        </Suspense>
      </Show>
    </>
  )
}
