/** Torques nobody published: those that await a word, and those settled, with what each rests on. */
import { A } from '@solidjs/router'
import { createMemo, For, Show } from 'solid-js'
import { unpublished } from '../../../shared/audit/awaiting'
import { basisWords } from '../../../shared/job/trail/sentences'
import { indexPlan } from '../../../shared/plan/read'
import { bandWords } from '../../../shared/plan/words'
import { positionsInWords } from '../../../shared/words'
import { format } from '../../format'
import { settleHref } from '../../hrefs'
import { showNm } from '../../job/record/rows'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { Entry, List } from './AuditList'

export function Values() {
  const scope = useJob()
  const all = createMemo(() =>
    unpublished(scope.job()).map((one) => ({ ...one, settled: scope.job().settled[one.joint]?.[one.pass] })),
  )
  const list = createMemo(() => [
    ...all().filter((one) => !one.settled),
    ...all().filter((one) => one.settled),
  ])
  const awaiting = () => all().filter((one) => !one.settled).length
  return (
    <List
      title={awaiting() === 0 && all().length > 0 ? 'Torques decided here' : 'Torques that nobody published'}
      count={all().length}
      empty="Every torque in the plan is published."
    >
      <For each={list()}>
        {(one) => {
          const joint = indexPlan(scope.planned().plan).jointById.get(one.joint)
          return (
            <Entry
              id={one.step.id}
              settled={one.settled !== undefined}
              ways={
                <>
                  <A
                    class={one.settled || !scope.leads() ? 'button quiet' : 'button'}
                    href={settleHref(scope.job().id, one.joint, one.pass)}
                  >
                    {one.settled ? 'Where it comes from' : scope.leads() ? 'Decide torque' : 'What is known'}
                    <span class="unseen"> {one.jointTitle}</span>
                  </A>
                  <a class="button quiet" href={`#joint-${one.joint}`}>
                    See<span class="unseen"> {one.jointTitle}</span>
                  </a>
                </>
              }
            >
              <p>
                <b>{one.jointTitle}</b> {positionsInWords(one.positions)}, {joint?.thread}, {joint?.grade}
              </p>
              <Show
                when={one.settled}
                fallback={
                  <p class="pencil">
                    The maker gives no torque; nothing here can be signed off until a competent person decides
                    one in writing.
                    {one.recorded > 0 ? ` ${one.recorded} of ${one.positions.length} recorded already.` : ''}
                  </p>
                }
              >
                {(value) => (
                  <>
                    <p>
                      <b>{showNm(value().torqueNm)} N·m</b>, {bandWords(value().band, format)};{' '}
                      {basisWords(value().basis)}
                    </p>
                    <p>“{value().reason}”</p>
                    <Show when={value().earlier}>
                      {(before) => (
                        <p class="pencil">
                          Decided before at{' '}
                          {before()
                            .map(({ torqueNm }) => showNm(torqueNm))
                            .join(', ')}{' '}
                          N·m.
                        </p>
                      )}
                    </Show>
                    <p class="pencil by-line cluster">
                      <Stripe person={value().by} name="after" /> {scope.words.moment(value().doneAt)}
                    </p>
                  </>
                )}
              </Show>
            </Entry>
          )
        }}
      </For>
    </List>
  )
}
