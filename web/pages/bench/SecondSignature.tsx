/**
 * The second signer's mark on this tablet, without signing anyone out: choose who, their PIN, done. The PIN goes
 * to the server and nowhere else; what comes back is good for this one signature. Without signal it waits here, sealed
 * so that only the server can open it.
 */

import { createMemo, createSignal, For, Show } from 'solid-js'
import { lookedAt } from '../../../shared/job/looked-at'
import { stepState } from '../../../shared/job/verdicts'
import { signatureSets } from '../../../shared/plan/read'
import { presentIn } from '../../../shared/shop/left'
import type { Person } from '../../../shared/shop/types'
import { counted, listed } from '../../../shared/words'
import { useJob } from '../../job/scope'
import { GIVE_SECOND, SEALED_WAITS, SECOND_STATES } from '../../job/step/second-words'
import { canHash, hashText } from '../../live/hash'
import { ask, isFailure } from '../../live/http'
import { useLive } from '../../live/live'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { NumberPad } from '../../ui/NumberPad'
import { useBench } from './bench'
import './entry.css'
import './sign.css'

export function SecondSignature(props: { setId: string; onClose(): void }) {
  const bench = useBench()
  const scope = useJob()
  const { link } = useLive()
  const stepId = bench.step().id
  /** Who has looked already: only the PIN is missing. */
  const { look } = stepState(scope.planned(), stepId).sets[props.setId] ?? {}
  const [who, setWho] = createSignal<Person | undefined>(look && scope.shop().people[look.personId])
  const [pin, setPin] = createSignal('')
  const [error, setError] = createSignal<string>()
  const [offline, setOffline] = createSignal(false)
  const [busy, setBusy] = createSignal(false)
  const away = () => scope.link() === 'lost' || scope.link() === 'apart'
  const command = { type: 'SecondSignStep' as const, stepId, setId: props.setId }
  const asked = createMemo(() =>
    presentIn(scope.shop())
      .map((person) => ({ person, refusal: scope.may(command, { as: person.id }) }))
      .sort((a, b) => a.person.name.localeCompare(b.person.name)),
  )
  const people = () => asked().flatMap(({ person, refusal }) => (refusal ? [] : [person]))
  /** Why the others may not: one sentence for all who are not entitled. */
  const others = () => {
    const refused = asked().flatMap(({ person, refusal }) => (refusal ? [{ person, refusal }] : []))
    const unentitled = refused.filter(({ refusal }) => refusal.code === 'not_entitled_to_second')
    const names = unentitled.map(({ person }) => person.name)
    return [
      ...new Set(
        refused
          .filter(({ refusal }) => refusal.code !== 'not_entitled_to_second')
          .map(({ refusal }) => refusal.sentence),
      ),
      ...(names.length > 0 ? [`${listed(names)} may not give this second signature.`] : []),
    ]
  }
  /** Without the server nobody's PIN can be checked: the look is noted, and is no signature yet. */
  const noteLook = (personId: string) => {
    void scope.send({ ...command, type: 'NoteLook', personId })
    props.onClose()
  }
  /** Nothing when it is given, or waits to be; else the sentence that says why not. */
  const give = async (person: Person, entered: string): Promise<string | undefined> => {
    const step = bench.step()
    const set = signatureSets(step).find(({ id }) => id === props.setId)
    if (!set) return undefined
    const content = lookedAt(scope.planned(), step, set)
    const sealed = () =>
      scope.sealSecond({ stepId, setId: props.setId, personId: person.id, pin: entered, content })
    if (away() && scope.sealing()) return sealed()
    // A page that can hash nothing names the version, and a server one older knows nothing else: what is not confirmed
    // yet is not in that.
    const hashes = canHash() && link.outdated() !== 'older'
    if (!hashes && scope.pending().length > 0)
      return 'Entries on this tablet are still being sent. The second signature can follow when they have arrived.'
    const looked = hashes ? { digest: await hashText(content) } : { version: scope.confirmed().version }
    const answer = await ask<{ grantId: string }>('/api/grants', {
      personId: person.id,
      pin: entered,
      jobId: scope.planned().id,
      stepId,
      ...looked,
    })
    if (!isFailure(answer)) {
      const sawVersion = 'version' in looked ? { sawVersion: looked.version } : {}
      void scope.send(command, { id: answer.grantId, by: person.id, ...sawVersion })
      return undefined
    }
    if (answer.code !== 'no_signal') return answer.sentence
    if (scope.sealing()) return sealed()
    setOffline(true)
    return 'No signal: the PIN cannot be checked. Note the look now; with the PIN it becomes a signature when the signal is back.'
  }
  const sign = async () => {
    const person = who()
    if (!person || pin() === '' || busy()) return
    setBusy(true)
    setOffline(false)
    const problem = await give(person, pin())
    setBusy(false)
    setPin('')
    setError(problem)
    if (!problem) props.onClose()
  }
  return (
    <Dialog open title={GIVE_SECOND} onClose={props.onClose}>
      <Show
        when={who()}
        fallback={
          <>
            <p>Who has looked? It must be somebody else who may second-sign this.</p>
            <ul class="people stack">
              <For each={people()}>
                {(person) => (
                  <li>
                    <button
                      type="button"
                      class="person"
                      onClick={() => {
                        setError(undefined)
                        setWho(person)
                      }}
                    >
                      <Stripe person={person.id} name="after" />
                    </button>
                  </li>
                )}
              </For>
            </ul>
            <For each={others()}>{(sentence) => <p class="pencil">{sentence}</p>}</For>
          </>
        }
      >
        {(person) => (
          <div class="entry">
            <h3>
              <Stripe person={person().id} name="after" />
            </h3>
            <p>{SECOND_STATES}</p>
            <Show when={away() && scope.sealing()}>
              <p>No signal. {SEALED_WAITS} It counts if nothing on the step has changed by then.</p>
            </Show>
            <p class="entry-display" aria-live="polite">
              <span aria-hidden="true">{pin() === '' ? '–' : '•'.repeat(pin().length)}</span>
              <span class="unseen">{counted(pin().length, 'digit')}</span>
            </p>
            <NumberPad
              value={pin()}
              onChange={setPin}
              onEnter={() => void sign()}
              maxLength={12}
              label="PIN"
            />
            <Show when={error()}>
              <p class="sentence against" role="alert">
                {error()}
              </p>
            </Show>
            <Button variant="main" wide disabled={pin().length < 4 || busy()} onClick={() => void sign()}>
              {busy() ? 'Asking…' : `${GIVE_SECOND} as ${person().name}`}
            </Button>
            <Show when={(offline() || away()) && !(scope.sealing() && !error())}>
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
