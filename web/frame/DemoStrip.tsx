/**
 * The demonstration's banner: that all of it is invented, the shop's time, what is happening, and the keys of its day.
 * One line, two on a phone once the day goes on; all that needs room stands in the sheet behind "The day".
 */
import { A } from '@solidjs/router'
import { createEffect, createSignal, lazy, onCleanup, Show, Suspense } from 'solid-js'
import { useLive } from '../live/live'
import { paintOf } from '../ui/Stripe'
import './demo.css'

const DemoDay = lazy(() => import('./DemoDay'))

const HOUR = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' })
const DAY = new Intl.DateTimeFormat('en-GB', { weekday: 'short', day: 'numeric', month: 'short' })

/** Often enough that a hurried clock is seen to go, and no oftener. */
const TICK_MS = 500

export default function DemoStrip() {
  const { demo, clock, session } = useLive()
  const [now, setNow] = createSignal(clock.now())
  const [open, setOpen] = createSignal(false)
  const tick = () => document.visibilityState === 'visible' && setNow(clock.now())
  const ticking = setInterval(tick, TICK_MS)
  onCleanup(() => clearInterval(ticking))
  createEffect(() => {
    if (demo.state()) setNow(clock.now())
  })
  // Nobody signed in: no socket tells this page how the day goes on.
  createEffect(() => {
    if (!session.person()) onCleanup(demo.keepAsking())
  })

  const playing = () => demo.state()?.playing ?? false
  const refusal = () => {
    const { begun = 0, refused = [] } = demo.state() ?? {}
    return refused.find(({ moment }) => moment === begun - 1)
  }

  return (
    <aside class="banner demo" aria-label="About this shop">
      <p class="demo-invented">
        Demo shop<span class="demo-long">.</span>
        <span class="demo-short">,</span> <span class="demo-long">All names and values are</span>
        <span class="demo-short">all</span> invented.
      </p>
      <p class="demo-time">
        <span class="unseen">The shop’s time: </span>
        <time>{HOUR.format(now())}</time>
        <span class="demo-date"> {DAY.format(now())}</span>
      </p>
      <p class="demo-now" role="status">
        <Show
          when={demo.happening()}
          fallback={
            <span class="demo-next">
              <Show when={demo.next()}>
                {(next) =>
                  `The day is yours to play: next ${HOUR.format(next().at)}, ${session.nameOf(next().person)}.`
                }
              </Show>
            </span>
          }
        >
          {(moment) => (
            <>
              <span
                class="stripe-initials"
                style={{ '--paint': paintOf(session.cardOf(moment().person)?.paint) }}
              >
                {HOUR.format(moment().at)} {session.cardOf(moment().person)?.initials ?? moment().person}
              </span>{' '}
              <Show when={refusal()} fallback={moment().shows}>
                {(one) => <strong classList={{ against: !one().foreseen }}>Refused: {one().sentence}</strong>}
              </Show>
            </>
          )}
        </Show>
      </p>
      <div class="demo-keys">
        <Show when={demo.next() || playing()} fallback={<span class="demo-over">The day is over.</span>}>
          <button type="button" onClick={() => void demo.act({ do: playing() ? 'pause' : 'play' })}>
            {playing() ? 'Pause' : 'Play'}
          </button>
          <button type="button" onClick={() => void demo.act({ do: 'step' })}>
            Next<span class="demo-long"> moment</span>
          </button>
        </Show>
        <button type="button" aria-haspopup="dialog" onClick={() => setOpen(true)}>
          <span class="demo-long">The </span>day
        </button>
        <A class="demo-look" href="/first-look">
          First look
        </A>
      </div>
      <Show when={open()}>
        <Suspense>
          <DemoDay onClose={() => setOpen(false)} />
        </Suspense>
      </Show>
    </aside>
  )
}
