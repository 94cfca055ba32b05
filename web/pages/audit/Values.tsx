/** Torques nobody published: those that await a word, and those settled, with what each rests on. */
import { A } from '@solidjs/router'
import { createMemo, For, Show } from 'solid-js'
import { unpublished } from '../../../shared/audit/awaiting'
import { basisWords } from '../../../shared/job/trail/sentences'
import { indexPlan } from '../../../shared/plan/read'
import { bandWords, gradeWords } from '../../../shared/plan/words'
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
    unpublished(scope.job()).map((value) => ({
      ...value,
      settled: scope.job().settled[value.joint]?.[value.pass],
    })),
  )
  const list = createMemo(() => [
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
        {(value) => {
          const joint = indexPlan(scope.planned().plan).jointById.get(value.joint)
          return (
            <Entry
              id={value.step.id}
              settled={value.settled !== undefined}
              ways={
                <>
                  <A
                    class={value.settled || !scope.leads() ? 'button quiet' : 'button'}
                    href={settleHref(scope.job().id, value.joint, value.pass)}
                  >
                    {value.settled
                      ? 'Where it comes from'
                      : scope.leads()
                        ? 'Decide torque'
                        : 'What is known'}
                    <span class="unseen"> {value.jointTitle}</span>
                  </A>
                  <a class="button quiet" href={`#joint-${value.joint}`}>
                    See<span class="unseen"> {value.jointTitle}</span>
                  </a>
                </>
              }
            >
              <p>
                <b>{value.jointTitle}</b> {positionsInWords(value.positions)}, {joint?.thread},{' '}
                {joint && gradeWords(joint)}
              </p>
              <Show
                when={value.settled}
                fallback={
                  <p class="pencil">
                    The maker gives no torque; nothing here can be signed off until a competent person decides
                    one in writing.
                    {value.recorded > 0
                      ? ` ${value.recorded} of ${value.positions.length} recorded already.`
                      : ''}
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
