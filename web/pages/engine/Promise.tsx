/** The date told to the owner, with how much is left; every promise before it, who gave it and why. */
import { createSignal, For, Show } from 'solid-js'
import { FIELD_WORDS } from '../../../shared/format/field-words'
import type { JobCommand } from '../../../shared/job/commands'
import { TEXT_LENGTHS } from '../../../shared/job/text-lengths'
import { ended } from '../../../shared/words'
import { format } from '../../format'
import { CommandDialog } from '../../job/CommandDialog'
import { Promised } from '../../job/Promised'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { DateField } from '../../ui/DateField'
import { Field } from '../../ui/Field'

export function PromiseLine(props: { released: boolean }) {
  const scope = useJob()
  const [promising, setPromising] = createSignal(false)
  const promises = () => scope.job().promises
  const may = () => scope.may({ type: 'PromiseDate', date: '2000-01-01', reason: 'may I' }) === undefined
  return (
    <>
      <div class="promise-line cluster">
        <Promised date={promises().at(-1)?.date} released={props.released} />
        <Show when={!props.released && may()}>
          <Button variant="quiet" onClick={() => setPromising(true)}>
            {promiseLabel(promises().length > 0)}
          </Button>
        </Show>
        <Show when={promises().length > 0}>
          <details class="promises">
            <summary>
              {promises().length === 1 ? 'Who promised it' : `${promises().length} promises so far`}
            </summary>
            <ol>
              <For each={promises().toReversed()}>
                {(promise) => (
                  <li>
                    <b>{format.weekdayAndDate(promise.date)}</b>: {promise.reason}
                    <span class="pencil small">
                      {' '}
                      <Stripe person={promise.by} /> {scope.words.moment(promise.doneAt)}
                    </span>
                  </li>
                )}
              </For>
            </ol>
          </details>
        </Show>
      </div>
      <Show when={promising()}>
        <PromiseForm onClose={() => setPromising(false)} />
      </Show>
    </>
  )
}

const promiseLabel = (before: boolean) => (before ? 'Promise another date' : 'Promise a date')

function PromiseForm(props: { onClose(): void }) {
  const scope = useJob()
  const last = scope.job().promises.at(-1)
  const label = () => promiseLabel(last !== undefined)
  const [date, setDate] = createSignal('')
  const [reason, setReason] = createSignal('')
  const promise = (): JobCommand | string => {
    if (!date()) return 'Choose the day.'
    if (!reason().trim()) return 'Say why this day: it is what you will tell the owner.'
    return { type: 'PromiseDate', date: date(), reason: reason().trim() }
  }
  return (
    <CommandDialog title={label()} submitLabel={label()} command={promise} onClose={props.onClose}>
      <Show when={last}>
        {(before) => (
          <p>
            {format.weekdayAndDate(before().date)} was promised: {ended(before().reason)} It stays in the
            record.
          </p>
        )}
      </Show>
      <div class="whole">
        <DateField
          label={FIELD_WORDS.date}
          value={date()}
          min={format.calendar.dayOf(scope.now())}
          onValue={setDate}
          required
        />
      </div>
      <div class="whole">
        <Field
          label={FIELD_WORDS.reason}
          value={reason()}
          onValue={setReason}
          required
          maxLength={TEXT_LENGTHS.reason}
        />
      </div>
    </CommandDialog>
  )
}
