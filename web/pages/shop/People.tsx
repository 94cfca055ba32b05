/** Who works here: paint, roles, what they may do and what they may second-sign. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import { type Person, ROLE_WORDS } from '../../../shared/shop/types'
import { listed } from '../../../shared/words'
import type { ShopScope } from '../../shop/scope'
import { Button } from '../../ui/Button'
import { paintColour } from '../../ui/paint'
import { Sentence } from '../../ui/Sentence'
import { PersonForm } from './PersonForm'
import { PinForm } from './PinForm'
import { byName, entitlementWords } from './people'

export function People(props: { scope: ShopScope }) {
  const { scope } = props
  const [adding, setAdding] = createSignal(false)
  const [changing, setChanging] = createSignal<Person>()
  const [pinFor, setPinFor] = createSignal<Person>()
  const [said, setSaid] = createSignal<string>()
  const people = createMemo(() => byName(scope.shop()))
  return (
    <section aria-labelledby="people-title">
      <div class="part-head cluster">
        <h2 id="people-title">
          People <span class="pencil">{people().length}</span>
        </h2>
        <Show when={scope.mayEdit()}>
          <Button onClick={() => setAdding(true)}>Add a person</Button>
        </Show>
      </div>
      <Show when={said()}>
        <Sentence>{said()}</Sentence>
      </Show>
      <ul class="cards">
        <For each={people()}>
          {(person) => (
            <li class="shop-card person stack" style={{ '--paint': paintColour(person.paint) }}>
              <span class="person-dab dab" aria-hidden="true" />
              <h3>
                <span class="person-initials">{person.initials}</span> {person.name}
              </h3>
              <p class="pencil">
                {person.roles.length > 0
                  ? listed(person.roles.map((role) => ROLE_WORDS[role]))
                  : 'no role: looks on, enters facts'}
                , paint {person.paint}
              </p>
              <dl class="pairs">
                <dt>May do</dt>
                <dd>{entitlementWords(person.mayDo)}</dd>
                <dt>May second-sign</dt>
                <dd>{entitlementWords(person.maySecondSign)}</dd>
              </dl>
              <Show when={scope.mayEdit() || person.id === scope.me()}>
                <div class="card-acts cluster">
                  <Show when={scope.mayEdit()}>
                    <Button
                      onClick={() => setChanging(person)}
                      aria-label={`Change the card of ${person.name}`}
                    >
                      Change
                    </Button>
                  </Show>
                  <Button
                    variant="quiet"
                    onClick={() => setPinFor(person)}
                    aria-label={`Set PIN of ${person.name}`}
                  >
                    Set PIN
                  </Button>
                </div>
              </Show>
            </li>
          )}
        </For>
      </ul>
      <Show when={people().length === 1 && scope.mayEdit()}>
        <p class="part-note">
          Only one person is entered. A class A joint takes two: the doer and another who has looked. Add at
          least one more.
        </p>
      </Show>
      <Show when={adding()}>
        <PersonForm
          scope={scope}
          onClose={(added) => {
            setAdding(false)
            // Without a PIN nobody can sign in: the one thing leads to the other.
            if (added) setPinFor(added)
          }}
        />
      </Show>
      <Show when={changing()} keyed>
        {(person) => <PersonForm scope={scope} before={person} onClose={() => setChanging()} />}
      </Show>
      <Show when={pinFor()} keyed>
        {(person) => (
          <PinForm
            person={person}
            onClose={() => setPinFor()}
            onSet={() => setSaid(`The PIN of ${person.name} is set.`)}
          />
        )}
      </Show>
    </section>
  )
}
