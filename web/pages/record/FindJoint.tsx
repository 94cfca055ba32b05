/** A field that leads to one joint of a long record; on the screen only. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import { groupsOf } from '../../job/record/rows'
import { auditLines } from '../../job/record/verdict'
import { goTo } from '../../ui/bring-up'
import { Field } from '../../ui/Field'
import { coveredSteps, type Edition } from './edition'
import { findJoints, MOST_FOUND } from './find'

export function FindJoint(props: { edition: Edition }) {
  const [asked, setAsked] = createSignal('')
  const groups = createMemo(() => {
    const { job, release } = props.edition
    const covered = coveredSteps(job, release.kind)
    return groupsOf(
      auditLines(job).filter(({ stepId }) => covered.has(stepId)),
      job.plan,
    )
  })
  const found = createMemo(() => findJoints(groups(), asked()))
  return (
    <section class="record-find stack" aria-label="Find a joint">
      <Field
        label="Find a joint in this record"
        type="search"
        placeholder="oil filter, rod, F4"
        autocomplete="off"
        value={asked()}
        onValue={setAsked}
      />
      <div role="status">
        <Show when={asked().trim() !== '' && found().length === 0}>
          <p class="pencil">No joint of this record is named so. Part of a word will do.</p>
        </Show>
        <Show when={found().length > MOST_FOUND}>
          <p class="pencil">
            {found().length} joints; the first {MOST_FOUND}:
          </p>
        </Show>
      </div>
      <ul>
        <For each={found().slice(0, MOST_FOUND)}>
          {(one) => (
            <li>
              <a href={`#joint-${one.jointId}`} onClick={(event) => goTo(event, `joint-${one.jointId}`)}>
                <b>{one.stepId}</b> {one.stepTitle}: {one.title}
              </a>
            </li>
          )}
        </For>
      </ul>
    </section>
  )
}
