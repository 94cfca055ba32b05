/** What the office and the bench tell each other about this engine: holds, what was left out, notes, photos. */
import { createSignal, Show } from 'solid-js'
import { Deferrals, Withdraw } from './Deferrals'
import { ChangeHold, ClearHold, Holds, RaiseHold } from './Holds'
import { LeaveOut } from './LeaveOut'
import { Notes } from './Notes'
import { type Form, OfficeContext } from './office'
import { LargePhoto, Photos } from './Photos'
import { PromiseForm } from './Promise'
import './office.css'
import type { ParentProps } from 'solid-js'

/** The forms, for all that stands inside. */
export function OfficeForms(props: ParentProps) {
  const [form, setForm] = createSignal<Form>()
  const close = () => setForm()
  const open = <F extends Form['form']>(kind: F) => {
    const now = form()
    return now?.form === kind ? (now as Extract<Form, { form: F }>) : undefined
  }
  return (
    <OfficeContext.Provider value={setForm}>
      {props.children}
      <Show when={open('raise')}>{(at) => <RaiseHold stepIds={at().stepIds} onClose={close} />}</Show>
      <Show when={open('change')}>{(at) => <ChangeHold holdId={at().holdId} onClose={close} />}</Show>
      <Show when={open('clear')}>{(at) => <ClearHold holdId={at().holdId} onClose={close} />}</Show>
      <Show when={open('leave_out')}>{(at) => <LeaveOut stepId={at().stepId} onClose={close} />}</Show>
      <Show when={open('withdraw')}>{(at) => <Withdraw deferralId={at().deferralId} onClose={close} />}</Show>
      <Show when={open('promise')}>
        <PromiseForm onClose={close} />
      </Show>
      <Show when={open('photo')}>{(at) => <LargePhoto photoId={at().photoId} onClose={close} />}</Show>
    </OfficeContext.Provider>
  )
}

export function Office() {
  return (
    <div class="office">
      <Holds />
      <Deferrals />
      <Photos />
      <Notes />
    </div>
  )
}
