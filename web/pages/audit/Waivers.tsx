/** What a supervisor's word could accept, and what it has accepted, each with its reason. */
import { For } from 'solid-js'
import { VerdictMark } from '../../job/record/VerdictMark'
import { waiverLines } from '../../job/record/waivers'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { createSame } from '../../ui/same'
import { Entry, List } from './AuditList'
import { DeviationEntry } from './DeviationEntry'
import { deviations } from './deviations'

export function Deviations() {
  const scope = useJob()
  const list = createSame(() => deviations(scope.planned(), scope.now()))
  return (
    <List
      title="Other deviations"
      count={list().length}
      empty="No fastener or seal is in doubt, and no step waits because of what it would cover."
    >
      <For each={list()}>{(deviation) => <DeviationEntry deviation={deviation} />}</For>
    </List>
  )
}

export function WaiversGiven() {
  const scope = useJob()
  const lines = createSame(() => waiverLines(scope.planned()))
  return (
    <List title="Accepted with a reason" count={lines().length} empty="Nothing was accepted with a reason.">
      <For each={lines()}>
        {({ waiver, name, stepId }) => (
          <Entry id={stepId} settled>
            <p class="waiver-name">
              <VerdictMark verdict="accepted" /> <b>{name}</b>
            </p>
            <p>“{waiver.reason}”</p>
            <p class="pencil by-line cluster">
              <Stripe person={waiver.by} name="after" /> {scope.words.moment(waiver.doneAt)}
              {waiver.ownWork ? ', who had worked on it' : ''}
            </p>
          </Entry>
        )}
      </For>
    </List>
  )
}
