/** The demonstration's day, moment by moment: what was, what is, what comes; its speed, and beginning it anew. */

import { A } from '@solidjs/router'
import { createSignal, For, Show } from 'solid-js'
import type { DemoMoment, DemoRefusal, DemoSpeed } from '../../shared/protocol'
import { format } from '../format'
import { engineHref } from '../hrefs'
import { useLive } from '../live/live'
import { Stripe } from '../people/Stripe'
import { Button } from '../ui/Button'
import { Dialog } from '../ui/Dialog'
import { Sentence } from '../ui/Sentence'

const SPEEDS: readonly { speed: DemoSpeed; title: string }[] = [
  { speed: 1, title: 'As it happens' },
  { speed: 10, title: '10 times' },
  { speed: 60, title: '60 times' },
  { speed: 'at_once', title: 'At once' },
]

export default function DemoDay(props: { onClose(): void }) {
  const { demo } = useLive()
  const [why, setWhy] = createSignal<string>()
  const [sure, setSure] = createSignal(false)
  const act = async (...args: Parameters<typeof demo.act>) => setWhy(await demo.act(...args))
  const playing = () => demo.state()?.playing ?? false

  return (
    <Dialog open title="The day" broad onClose={props.onClose}>
      <div class="cluster roomy">
        <Show
          when={demo.next() || playing()}
          fallback={
            <p>
              {demo.isOver()
                ? 'The day is over. The shop’s clock goes on; what you enter counts as before.'
                : 'What the day holds is not known here yet.'}
            </p>
          }
        >
          <Button variant="main" onClick={() => act({ do: playing() ? 'pause' : 'play' })}>
            {playing() ? 'Pause' : 'Play the day'}
          </Button>
          <Button onClick={() => act({ do: 'step' })}>Next moment</Button>
        </Show>
        <fieldset class="day-speeds cluster">
          <legend>Speed</legend>
          <For each={SPEEDS}>
            {({ speed, title }) => (
              <label>
                <input
                  type="radio"
                  name="speed"
                  checked={demo.state()?.speed === speed}
                  onChange={() => act({ do: 'speed', speed })}
                />
                {title}
              </label>
            )}
          </For>
        </fieldset>
      </div>
      <Show when={why()}>{(sentence) => <Sentence against>{sentence()}</Sentence>}</Show>
      <p class="pencil">
        Anybody may join in: sign in, claim a step, enter something. Paused, the shop’s clock still goes on as
        on the wall; moments it passes are played late, under their own time.
      </p>
      <ol class="day-moments">
        <For each={demo.moments()}>
          {(moment, index) => (
            <Moment
              moment={moment}
              place={
                index() < (demo.state()?.begun ?? 0) - 1
                  ? 'was'
                  : index() < (demo.state()?.begun ?? 0)
                    ? 'is'
                    : 'comes'
              }
              refusal={demo.state()?.refused.find(({ moment }) => moment === index())}
              onClose={props.onClose}
            />
          )}
        </For>
      </ol>
      <p>
        <A href="/first-look" onClick={props.onClose}>
          First look: a screen for everybody
        </A>
      </p>
      <div class="day-anew cluster roomy">
        <Show
          when={sure()}
          fallback={
            <Button variant="quiet" onClick={() => setSure(true)}>
              Start the day over
            </Button>
          }
        >
          <p>
            The shop goes back to 09:45 on every screen. What was entered since is lost, and everybody signs
            in again.
          </p>
          <Button variant="rust" onClick={() => act({ do: 'restart', run: demo.state()?.run ?? '' })}>
            Yes, start the day over
          </Button>
          <Button variant="quiet" onClick={() => setSure(false)}>
            Cancel
          </Button>
        </Show>
      </div>
    </Dialog>
  )
}

interface MomentProps {
  moment: DemoMoment
  place: 'was' | 'is' | 'comes'
  refusal: DemoRefusal | undefined
  onClose(): void
}

function Moment(props: MomentProps) {
  return (
    <li class={`day-moment ${props.place}`} aria-current={props.place === 'is' ? 'step' : undefined}>
      <p class="day-when">
        <time>{format.time(props.moment.at)}</time>
        <Show when={props.moment.due !== props.moment.at}>
          <span class="small"> reaches the shop {format.time(props.moment.due)}</span>
        </Show>
      </p>
      <p class="day-who">
        <Stripe person={props.moment.person} />
        <A href={engineHref(props.moment.jobId)} onClick={props.onClose}>
          {props.moment.jobId.toUpperCase()}
        </A>
      </p>
      <div>
        <p>{props.moment.shows}</p>
        <Show when={props.refusal}>
          {(refusal) => (
            <p class="day-refused strong" classList={{ against: !refusal().foreseen }}>
              Refused{refusal().foreseen ? ', as the day has it' : ''}: {refusal().sentence}
              <Show when={refusal().leftOut > 0}>
                {' '}
                {refusal().leftOut === 1 ? 'One more entry' : `${refusal().leftOut} more entries`} of this
                moment left out.
              </Show>
            </p>
          )}
        </Show>
      </div>
    </li>
  )
}
