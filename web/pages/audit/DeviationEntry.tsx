/** One deviation: what is so, the bench where it is put right, and for a supervisor the waiver. */
import { Show } from 'solid-js'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { Entry } from './AuditList'
import type { Deviation } from './deviations'
import { useAuditDialogs } from './dialogs'
import { ToBench } from './ReleaseLists'

export function DeviationEntry(props: { one: Deviation; says?: string }) {
  const open = useAuditDialogs()
  const scope = useJob()
  return (
    <Entry
      id={props.one.stepId}
      ways={
        <>
          <ToBench stepId={props.one.stepId} words="Put right" />
          <Show when={scope.leads()}>
            <Button
              variant="quiet"
              onClick={() => open({ dialog: 'waive', title: 'Accept with a reason', what: props.one.what })}
            >
              Accept with a reason<span class="unseen"> {props.one.title}</span>
            </Button>
          </Show>
        </>
      }
    >
      <p>
        <b>{props.one.title}</b>
        {props.says ? `: ${props.says}` : ''}
      </p>
      <p class="pencil">{props.one.say}</p>
    </Entry>
  )
}
