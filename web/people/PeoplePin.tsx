/** People as tiles, then a PIN pad for the one touched. Used by the sign-in page and by the change of person. */

import { createSignal, For, Show } from 'solid-js'
import { counted } from '../../shared/words'
import { useSession } from '../live/live'
import type { Card } from '../live/session'
import { Button } from '../ui/Button'
import { NumberPad } from '../ui/NumberPad'
import { paintColour } from '../ui/paint'
import { Sentence } from '../ui/Sentence'
import { createSubmission } from '../ui/submission'
import './people.css'
import './dab.css'

interface PeoplePinProps {
  /** Whoever has the tablet now needs no tile. */
  skip?: string
  onDone(): void
}

const LONGEST_PIN = 12

export function PeoplePin(props: PeoplePinProps) {
  const session = useSession()
  const [person, setPerson] = createSignal<Card>()
  const tiles = () => session.people().filter(({ id, left }) => id !== props.skip && !left)
  return (
    <Show
      when={person()}
      keyed
      fallback={
        <ul class="tiles">
          <For each={tiles()}>
            {(card) => (
              <li>
                <button
                  type="button"
                  class="tile"
                  onClick={() => setPerson(card)}
                  style={{ '--paint': paintColour(card.paint) }}
                >
                  <span class="tile-dab dab" aria-hidden="true" />
                  <span class="tile-initials">{card.initials}</span>
                  <span class="tile-name">{card.name}</span>
                </button>
              </li>
            )}
          </For>
        </ul>
      }
    >
      {(card) => <Pin card={card} onBack={() => setPerson()} onDone={props.onDone} />}
    </Show>
  )
}

function Pin(props: { card: Card; onBack(): void; onDone(): void }) {
  const session = useSession()
  const [pin, setPin] = createSignal('')
  const signingIn = createSubmission(async () => {
    const refusal = await session.signIn(props.card.id, pin())
    setPin('')
    if (refusal) return refusal
    props.onDone()
  })
  const enter = () => pin() !== '' && void signingIn.submit()

  return (
    <section
      class="pin"
      style={{ '--paint': paintColour(props.card.paint) }}
      aria-label={`PIN of ${props.card.name}`}
    >
      <div class="pin-who">
        <span class="tile-dab dab" aria-hidden="true" />
        <p class="pin-name">
          <span class="tile-initials">{props.card.initials}</span> {props.card.name}
        </p>
        <p class="pin-dots" role="status">
          <span class="unseen">
            {pin().length === 0 ? 'Enter the PIN' : `${counted(pin().length, 'digit')} entered`}
          </span>
          <span aria-hidden="true">{pin() === '' ? 'PIN' : '●'.repeat(pin().length)}</span>
        </p>
        <Show when={signingIn.error()}>{(sentence) => <Sentence against>{sentence()}</Sentence>}</Show>
        <Button variant="quiet" onClick={props.onBack}>
          Somebody else
        </Button>
      </div>
      <NumberPad
        label="PIN pad"
        value={pin()}
        onChange={setPin}
        onEnter={enter}
        enterLabel={signingIn.busy() ? 'Looking…' : 'Sign in'}
        maxLength={LONGEST_PIN}
        disabled={signingIn.busy()}
      />
    </section>
  )
}
