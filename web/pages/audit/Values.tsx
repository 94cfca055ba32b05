/** Torques nobody published: those that await a word, and those settled, with what each rests on. */
import { A } from '@solidjs/router'
import { createMemo, For, Show } from 'solid-js'
import { unpublished } from '../../../shared/audit/awaiting'
import { indexPlan } from '../../../shared/plan/read'
import { gradeWords } from '../../../shared/plan/words'
import { positionsInWords } from '../../../shared/words'
import { settleHref } from '../../hrefs'
import { useJob } from '../../job/scope'
import { SettledInFull } from '../../job/settled/Settled'
import { createSame } from '../../ui/same'
import { Entry, List } from './AuditList'

export function Values() {
  const scope = useJob()
  const all = createMemo(() => unpublished(scope.job()))
  const list = createSame(() => [
    ...all().filter((value) => !value.settled),
    ...all().filter((value) => value.settled),
  ])
  const awaiting = () => all().filter((value) => !value.settled).length
  return (
    <List
      title={awaiting() === 0 && all().length > 0 ? 'Torques decided here' : 'Torques that nobody published'}
      count={all().length}
      empty="Every torque in the plan is published."
    >
      <For each={list()}>
        {(at) => {
          const joint = indexPlan(scope.planned().plan).jointById.get(at.joint)
          return (
            <Entry
              id={at.step.id}
              settled={at.settled !== undefined}
              ways={
                <>
                  <A
                    class={at.settled || !scope.leads() ? 'button quiet' : 'button'}
                    href={settleHref(scope.job().id, at.joint, at.pass)}
                  >
                    {at.settled ? 'Where it comes from' : scope.leads() ? 'Decide torque' : 'What is known'}
                    <span class="unseen"> {at.jointTitle}</span>
                  </A>
                  <a class="button quiet" href={`#joint-${at.joint}`}>
                    See<span class="unseen"> {at.jointTitle}</span>
                  </a>
                </>
              }
            >
              <p>
                <b>{at.jointTitle}</b> {positionsInWords(at.positions)}, {joint?.thread},{' '}
                {joint && gradeWords(joint)}
              </p>
              <Show
                when={at.settled}
                fallback={
                  <p class="pencil">
                    The maker gives no torque; nothing here can be signed off until a competent person decides
                    one in writing.
                    {at.recorded > 0 ? ` ${at.recorded} of ${at.positions.length} recorded already.` : ''}
                  </p>
                }
              >
                {(value) => <SettledInFull value={value()} of={`Pass ${at.pass}`} />}
              </Show>
            </Entry>
          )
        }}
      </For>
    </List>
  )
}
