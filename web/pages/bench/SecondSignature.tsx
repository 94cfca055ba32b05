/**
 * The second signer's mark on this tablet, without signing anyone out: choose who, their PIN, done. The PIN goes
 * to the server and nowhere else; what comes back is good for this one signature.
 */
import { createEffect, createSignal, For, on, Show } from 'solid-js'
import type { Person } from '../../../shared/shop/types'
import { useJob } from '../../job/scope'
import { ask, isFailure } from '../../live/http'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { NumberPad } from '../../ui/NumberPad'
import { useBench } from './bench'
import './entry.css'
import './sign.css'

interface SecondSignatureProps {
  setId: string | undefined
  /** Who has looked already: only the PIN is missing. */
  looked?: string | undefined
  onClose: () => void
}

export function SecondSignature(props: SecondSignatureProps) {
  const bench = useBench()
  const scope = useJob()
  const [who, setWho] = createSignal<Person>()
  const [pin, setPin] = createSignal('')
  const [said, setSaid] = createSignal<string>()
  const [offline, setOffline] = createSignal(false)
  const [asking, setAsking] = createSignal(false)
  const command = () => ({
    type: 'SecondSignStep' as const,
    stepId: bench.step().id,
    ...(props.setId === undefined ? {} : { setId: props.setId }),
  })
  const people = () =>
    Object.values(scope.shop().people)
      .map((person) => ({
        person,
        why: scope.may(command(), {
          grant: { id: '', by: person.id, sawVersion: scope.confirmed().version },
        })?.sentence,
      }))
      .sort(
        (a, b) =>
          Number(a.why !== undefined) - Number(b.why !== undefined) ||
          a.person.name.localeCompare(b.person.name),
      )
  createEffect(
    on(
      () => props.setId,
      () => {
        const person = props.looked && scope.shop().people[props.looked]
        if (person) setWho(person)
      },
    ),
  )
  const close = () => {
    setWho(undefined)
    setPin('')
    setSaid(undefined)
    setOffline(false)
    props.onClose()
  }
  /** Without the server nobody's PIN can be checked: the look is noted, and is no signature yet. */
  const noteLook = (personId: string) => {
    const { type: _, ...which } = command()
    void scope.send({ type: 'NoteLook', ...which, personId })
    close()
  }
  const sign = async () => {
    const person = who()
    if (!person || pin() === '' || asking()) return
    // The PIN is given for a version of the record: what is not confirmed yet has not been looked at.
    if (scope.pending().length > 0) {
      setSaid(
        'Entries on this tablet are still being sent. The second signature can follow when they have arrived.',
      )
      return
    }
    setAsking(true)
    const sawVersion = scope.confirmed().version
    const answer = await ask<{ grantId: string }>('/api/grants', {
      personId: person.id,
      pin: pin(),
      jobId: scope.planned().id,
      stepId: bench.step().id,
      version: sawVersion,
    })
    setAsking(false)
    setPin('')
    if (isFailure(answer)) {
      setOffline(answer.code === 'no_signal')
      setSaid(
        answer.code === 'no_signal'
          ? 'No signal: the PIN cannot be checked. Note the look now; with the PIN it becomes a signature when the signal is back.'
          : answer.sentence,
      )
      return
    }
    void scope.send(command(), { id: answer.grantId, by: person.id, sawVersion })
    close()
  }
  return (
    <Dialog open={props.setId !== undefined} title="Second signature" onClose={close}>
      <Show
        when={who()}
        fallback={
          <>
            <p>Who has looked? It must be somebody else who may second-sign this.</p>
            <ul class="people stack">
              <For each={people()}>
                {({ person, why }) => (
                  <li>
                    <button
                      type="button"
                      class="person"
                      disabled={why !== undefined}
                      onClick={() => {
                        setSaid(undefined)
                        setWho(person)
                      }}
                    >
                      <Stripe person={person.id} name="after" />
                    </button>
                    <Show when={why}>
                      <p class="small pencil">{why}</p>
                    </Show>
                  </li>
                )}
              </For>
            </ul>
          </>
        }
      >
        {(person) => (
          <div class="entry">
            <h3>
              <Stripe person={person().id} name="after" />
            </h3>
            <p>With your PIN you state: I have looked at this with my own eyes and found nothing wrong.</p>
            <p class="entry-display" aria-live="polite">
              <span aria-hidden="true">{pin() === '' ? '–' : '•'.repeat(pin().length)}</span>
              <span class="unseen">{pin().length} digits</span>
            </p>
            <NumberPad
              value={pin()}
              onChange={setPin}
              onEnter={() => void sign()}
              maxLength={12}
              label="PIN"
            />
            <Show when={said()}>
              <p class="sentence against" role="alert">
                {said()}
              </p>
            </Show>
            <Button variant="main" wide disabled={pin().length < 4 || asking()} onClick={() => void sign()}>
              {asking() ? 'Asking…' : `Give second signature as ${person().name}`}
            </Button>
            <Show when={offline() || scope.link() === 'lost'}>
              <Button variant={offline() ? 'main' : undefined} wide onClick={() => noteLook(person().id)}>
                Note that {person().name} has looked
              </Button>
            </Show>
            <Button variant="quiet" onClick={() => setWho(undefined)}>
              Somebody else
            </Button>
          </div>
        )}
      </Show>
    </Dialog>
  )
}
