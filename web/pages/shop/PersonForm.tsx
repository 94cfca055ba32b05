/** Somebody's card: name, initials, paint, roles, and what they may do and second-sign. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import { v7 as uuid } from 'uuid'
import { kindsOf } from '../../../shared/kinds'
import { CLASSES, JOINT_CLASSES } from '../../../shared/plan/kinds'
import { ROLES } from '../../../shared/shop/kinds'
import { type Entitlement, PAINTS, type Person } from '../../../shared/shop/types'
import { listed } from '../../../shared/words'
import { type ShopScope, useShopSend } from '../../shop/scope'
import { Button } from '../../ui/Button'
import { Choices } from '../../ui/Choices'
import { Field } from '../../ui/Field'
import { FormDialog } from '../../ui/Form'
import { paintColour } from '../../ui/paint'
import { familiesKnown, initialsFor, newPerson, personMissing, tidyPerson, wornBy } from './people'
import '../../people/dab.css'
import { FIELD_WORDS } from '../../../shared/format/field-words'

export function PersonForm(props: {
  scope: ShopScope
  before?: Person
  /** They had left: what they may do is entered anew, and their PIN too. */
  comesBack?: boolean
  onDone(person: Person): void
  onClose(): void
}) {
  const { scope, before } = props
  const send = useShopSend()
  const [person, setPerson] = createSignal<Person>(before ?? newPerson(uuid(), scope.shop()))
  const [initials, setInitials] = createSignal<string | undefined>(before?.initials)
  const change = (part: Partial<Person>) => setPerson({ ...person(), ...part })
  const shown = createMemo(() =>
    tidyPerson({
      ...person(),
      initials: initials() ?? initialsFor(person().name, scope.shop(), person().id),
    }),
  )
  const command = () => ({ type: before ? 'ChangePerson' : 'AddPerson', person: shown() }) as const
  const worn = createMemo(() => wornBy(scope.shop(), person().id))
  const others = () => worn().get(person().paint) ?? []
  /** What the rules say, as soon as there is something to say it about. */
  const refused = () => (personMissing(shown()) ? undefined : scope.may(command()))

  const clash = () => (refused()?.code === 'initials_taken' ? refused()?.sentence : undefined)
  const write = () => personMissing(shown()) ?? refused()?.sentence ?? send(command())

  return (
    <FormDialog
      broad
      title={
        before ? (props.comesBack ? `${before.name} comes back` : `Change ${before.name}`) : 'Add person'
      }
      submitLabel={
        before ? (props.comesBack ? 'Enter again, then set PIN' : 'Save') : 'Add person, then set PIN'
      }
      busyLabel="Writing…"
      error={clash() ? undefined : refused()?.sentence}
      onSubmit={write}
      onDone={() => props.onDone(shown())}
      onClose={props.onClose}
    >
      <Field
        label={FIELD_WORDS.name}
        value={person().name}
        onValue={(name) => change({ name })}
        required
        maxLength={80}
        autocomplete="off"
      />
      <Field
        label={FIELD_WORDS.initials}
        hint="Two or three letters; they appear beside every paint stripe."
        value={shown().initials}
        onValue={(value) => setInitials(value.toUpperCase())}
        error={clash()}
        required
        maxLength={3}
        autocomplete="off"
      />
      <fieldset class="choices whole">
        <legend>Paint</legend>
        <div class="paints">
          <For each={PAINTS}>
            {(paint) => (
              <label class="choice paint" style={{ '--paint': paintColour(paint) }}>
                <input
                  type="radio"
                  name="paint"
                  checked={person().paint === paint}
                  onChange={() => change({ paint })}
                />
                <span class="paint-dab dab" aria-hidden="true" />
                <span class="paint-name">
                  {paint}
                  <Show when={worn().get(paint)}>
                    {(wearers) => (
                      <span class="pencil"> {listed(wearers().map((person) => person.initials))}</span>
                    )}
                  </Show>
                </span>
              </label>
            )}
          </For>
        </div>
        <p class="small pencil" role="status">
          <Show when={others().length > 0} fallback={`Nobody else has ${person().paint}.`}>
            {listed(others().map((person) => person.name))} {others().length === 1 ? 'wears' : 'wear'}{' '}
            {person().paint} already. The initials still tell the stripes apart; another paint does it at a
            glance.
          </Show>
        </p>
      </fieldset>
      <Choices
        multiple
        label="Roles"
        options={kindsOf(ROLES).map((id) => ({ id, title: ROLES[id].word, hint: ROLES[id].means }))}
        value={person().roles}
        onValue={(roles) => change({ roles })}
        hint={person().roles.length === 0 ? 'Without a role: may look at everything, and enter facts.' : ''}
      />
      <EntitlementFields
        scope={scope}
        label="May do and sign"
        value={person().mayDo}
        onChange={(mayDo) => change({ mayDo })}
      />
      <EntitlementFields
        scope={scope}
        label="May second-sign the work of others"
        value={person().maySecondSign}
        onChange={(maySecondSign) => change({ maySecondSign })}
      />
    </FormDialog>
  )
}

interface EntitlementProps {
  scope: ShopScope
  label: string
  value: Entitlement
  onChange(value: Entitlement): void
}

/** Classes first; without one the families mean nothing and are not asked. */
function EntitlementFields(props: EntitlementProps) {
  const [more, setMore] = createSignal<readonly string[]>([])
  const [typed, setTyped] = createSignal('')
  const known = () =>
    [...new Set([...familiesKnown(props.scope.shop()), ...more()])].map((id) => ({ id, title: id }))
  const add = () => {
    const family = typed().trim()
    setTyped('')
    if (!family) return
    setMore([...more(), family])
    props.onChange({ ...props.value, families: [...new Set([...props.value.families, family])] })
  }
  return (
    <div class="whole entitlement stack roomy">
      <Choices
        multiple
        label={props.label}
        options={JOINT_CLASSES.map((id) => ({
          id,
          title: `class ${id}`,
          hint: CLASSES[id],
        }))}
        value={props.value.classes}
        onValue={(classes) => props.onChange({ ...props.value, classes })}
        hint={props.value.classes.length === 0 ? 'Nothing chosen: nothing.' : ''}
      />
      <Show when={props.value.classes.length > 0}>
        <Choices
          multiple
          label="on these engine families"
          options={known()}
          value={props.value.families}
          onValue={(families) => props.onChange({ ...props.value, families })}
          hint={props.value.families.length === 0 ? 'Nothing chosen: every family.' : ''}
        />
        <div class="family-more">
          <Field
            label="Another family"
            value={typed()}
            onValue={setTyped}
            maxLength={40}
            autocomplete="off"
            onKeyDown={(event) => {
              if (event.key !== 'Enter') return
              event.preventDefault()
              add()
            }}
          />
          <Button onClick={add}>Name it</Button>
        </div>
      </Show>
    </div>
  )
}
