/** One deviation: what is so, the bench where it is put right, and for a supervisor the waiver. */
import { Entry } from './AuditList'
import type { Deviation } from './deviations'
import { AcceptButton, ToBench } from './EntryWays'

export function DeviationEntry(props: { deviation: Deviation; says?: string }) {
  return (
    <Entry
      id={props.deviation.stepId}
      ways={
        <>
          <ToBench stepId={props.deviation.stepId} />
          <AcceptButton what={props.deviation.what} of={props.deviation.title} />
        </>
      }
    >
      <p>
        <b>{props.deviation.title}</b>
        {props.says ? `: ${props.says}` : ''}
      </p>
      <p class="pencil">{props.deviation.say}</p>
    </Entry>
  )
}
