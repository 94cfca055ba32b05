/** Who works here: paint, roles, what they may do and what they may second-sign. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import { ROLES } from '../../../shared/shop/kinds'
import type { Person } from '../../../shared/shop/types'
import { listed } from '../../../shared/words'
import { format } from '../../format'
import { useSession } from '../../live/live'
import { Stripe } from '../../people/Stripe'
import { pinWords } from '../../shop/pin-words'
import type { ShopScope } from '../../shop/scope'
import { Button } from '../../ui/Button'
import { createDialogs } from '../../ui/dialogs'
import { paintColour } from '../../ui/paint'
import { Sentence } from '../../ui/Sentence'
import { LeaveForm } from './LeaveForm'
import { PartHead } from './PartHead'
import { PersonForm } from './PersonForm'
import { PinForm } from './PinForm'
import { byName, entitlementWords, leftLast } from './people'
import '../../people/dab.css'

type PeopleDialog =
  | { dialog: 'add' }
  | { dialog: 'change'; person: Person }
  | { dialog: 'pin'; person: Person }
  | { dialog: 'leave'; person: Person }
  | { dialog: 'back'; person: Person }

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
    leave: ({ person, onClose }) => (
      <LeaveForm
        person={person}
        onClose={onClose}
        onDone={() => {
          setMessage(`${person.name} has left the shop, and is signed out everywhere.`)
          onClose()
        }}
      />
    ),
    // Their PIN went with them.
    back: ({ person, onClose }) => (
      <PersonForm
        scope={scope}
        before={person}
        comesBack
        onClose={onClose}
        onDone={(again) => dialogs.open({ dialog: 'pin', person: again })}
      />
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
                  <Show when={scope.mayEdit()}>
                    <Button
                      variant="quiet"
                      onClick={() => dialogs.open({ dialog: 'leave', person })}
                      aria-label={`${person.name} leaves the shop`}
                    >
                      Leaves the shop
                    </Button>
                  </Show>
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
      <Show when={leftLast(scope.shop()).length > 0}>
        <h3 class="left-title">Left the shop</h3>
        <ul class="left-list stack">
          <For each={leftLast(scope.shop())}>
            {({ person, at, by }) => (
              <li class="cluster">
                <span>
                  <Stripe person={person.id} name="after" />{' '}
                  <span class="pencil">
                    left on {format.dateAndTime(at)}, entered by {session.nameOf(by)}
                  </span>
                </span>
                <Show when={scope.mayEdit()}>
                  <Button
                    variant="quiet"
                    onClick={() => dialogs.open({ dialog: 'back', person })}
                    aria-label={`${person.name} comes back`}
                  >
                    Comes back
                  </Button>
                </Show>
              </li>
            )}
          </For>
        </ul>
      </Show>
      <dialogs.Outlet />
    </section>
  )
}
