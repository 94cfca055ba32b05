/** What can be done about an entry of the audit: at the bench, or by a supervisor's word. */
import { A } from '@solidjs/router'
import { Show } from 'solid-js'
import type { Waived } from '../../../shared/job/types'
import { benchHref } from '../../hrefs'
import { useJobDialogs } from '../../job/dialogs'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'

export function ToBench(props: { stepId: string; words?: string }) {
  const scope = useJob()
  return (
    <A class="button" href={benchHref(scope.job().id, props.stepId)}>
      {props.words ?? 'To the bench'}
      <span class="unseen">, {props.stepId}</span>
    </A>
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
