/** What can be done about an entry of the audit: at the bench, or by a supervisor's word. */
import { A } from '@solidjs/router'
import { Show, untrack } from 'solid-js'
import type { Waived } from '../../../shared/job/types'
import { benchHref } from '../../hrefs'
import { useJobDialogs } from '../../job/dialogs'
import { useJob } from '../../job/scope'
import { GIVE_SECOND } from '../../job/step/second-words'
import { Button } from '../../ui/Button'

export function ToBench(props: { stepId: string }) {
  const scope = useJob()
  // It never changes, though the job does with every entry.
  const { id } = untrack(scope.job)
  return (
    <A class="button" href={benchHref(id, props.stepId)}>
      To the bench<span class="unseen">, {props.stepId}</span>
    </A>
  )
}

/** What a second signature covers: to give it, or for who may not, to look at. */
export function LookButton(props: { stepId: string; setId: string }) {
  const scope = useJob()
  const open = useJobDialogs()
  const mayGive = () =>
    scope.may({ type: 'SecondSignStep', stepId: props.stepId, setId: props.setId }) === undefined
  return (
    <Button
      variant={mayGive() ? 'main' : undefined}
      onClick={() => open({ dialog: 'look', stepId: props.stepId, setId: props.setId })}
    >
      {mayGive() ? GIVE_SECOND : 'Show readings'}
      <span class="unseen">, {props.stepId}</span>
    </Button>
  )
}

/** `of`: what it is about, for a reader who cannot see where the button stands. */
export function AcceptButton(props: { what: readonly Waived[]; of: string }) {
  const { leads } = useJob()
  const open = useJobDialogs()
  return (
    <Show when={leads()}>
      <Button variant="quiet" onClick={() => open({ dialog: 'waive', what: props.what })}>
        Accept with a reason<span class="unseen">, {props.of}</span>
      </Button>
    </Show>
  )
}
