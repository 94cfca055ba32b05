/** Who works here: paint, roles, what they may do and what they may second-sign. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import { ROLES } from '../../../shared/shop/kinds'
import type { Person } from '../../../shared/shop/types'
import { listed } from '../../../shared/words'
import { useSession } from '../../live/live'
import { pinWords } from '../../shop/pin-words'
import type { ShopScope } from '../../shop/scope'
import { Button } from '../../ui/Button'
import { createDialogs } from '../../ui/dialogs'
import { paintColour } from '../../ui/paint'
import { Sentence } from '../../ui/Sentence'
import { PartHead } from './PartHead'
import { PersonForm } from './PersonForm'
import { PinForm } from './PinForm'
import { byName, entitlementWords } from './people'
import '../../people/dab.css'

type PeopleDialog =
  | { dialog: 'add' }
  | { dialog: 'change'; person: Person }
  | { dialog: 'pin'; person: Person }

export function People(props: { scope: ShopScope }) {
  const { scope } = props
  const session = useSession()
  const [message, setMessage] = createSignal<string>()
  const dialogs = createDialogs<PeopleDialog>({
    // Without a PIN nobody can sign in: the one thing leads to the other.
    add: ({ onClose }) => (
      <PersonForm
        scope={scope}
        onClose={onClose}
        onDone={(person) => dialogs.open({ dialog: 'pin', person })}
      />
    ),
    change: ({ person, onClose }) => (
      <PersonForm scope={scope} before={person} onClose={onClose} onDone={onClose} />
    ),
    pin: ({ person, onClose }) => (
      <PinForm
        person={person}
        own={person.id === scope.me()}
        onClose={onClose}
        onSet={() => setMessage(`The PIN of ${person.name} is set.`)}
      />
    ),
  })
  const people = createMemo(() => byName(scope.shop()))
  return (
    <section aria-labelledby="people-title">
      <PartHead id="people-title" title="People" beside={people().length}>
        <Show when={scope.mayEdit()}>
          <Button onClick={() => dialogs.open({ dialog: 'add' })}>Add person</Button>
        </Show>
      </PartHead>
      <Show when={message()}>
        <Sentence>{message()}</Sentence>
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
                  ? listed(person.roles.map((role) => ROLES[role].word))
                  : 'no role: may look and record, not sign'}
                , paint {person.paint}
              </p>
              <dl class="pairs">
                <dt>May do</dt>
                <dd>{entitlementWords(person.mayDo)}</dd>
                <dt>May second-sign</dt>
                <dd>{entitlementWords(person.maySecondSign)}</dd>
                <dt>PIN</dt>
                <dd>{pinWords(scope.shop(), person.id, session.words)}</dd>
              </dl>
              <Show when={scope.mayEdit() || person.id === scope.me()}>
                <div class="card-acts cluster">
                  <Show when={scope.mayEdit()}>
                    <Button
                      onClick={() => dialogs.open({ dialog: 'change', person })}
                      aria-label={`Change ${person.name}`}
                    >
                      Change
                    </Button>
                  </Show>
                  <Button
                    variant="quiet"
                    onClick={() => dialogs.open({ dialog: 'pin', person })}
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
      <dialogs.Outlet />
    </section>
  )
}
