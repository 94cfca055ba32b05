/** A field that leads to one joint of a long record; on the screen only. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import { groupsOf } from '../../job/record/rows'
import { auditLines } from '../../job/record/verdict'
import { goTo } from '../../ui/bring-up'
import { Field } from '../../ui/Field'
import { coveredSteps, type Edition } from './edition'
import { findJoints, MOST_FOUND } from './find'

export function FindJoint(props: { edition: Edition }) {
  const [text, setText] = createSignal('')
  const isAsked = createMemo(() => text().trim() !== '')
  const groups = createMemo(() => {
    if (!isAsked()) return []
    const { job, release } = props.edition
    const covered = coveredSteps(job, release.kind)
    return groupsOf(
      auditLines(job).filter(({ stepId }) => covered.has(stepId)),
      job.plan,
    )
  })
  const joints = createMemo(() => findJoints(groups(), text()))
  return (
    <section class="record-find stack" aria-label="Find a joint">
      <Field
        label="Find a joint in this record"
        type="search"
        placeholder="oil filter, rod, F4"
        autocomplete="off"
        value={text()}
        onValue={setText}
      />
      <div role="status">
        <Show when={isAsked() && joints().length === 0}>
          <p class="pencil">No joint of this record is named so. Part of a word will do.</p>
        </Show>
        <Show when={joints().length > MOST_FOUND}>
          <p class="pencil">
            {joints().length} joints; the first {MOST_FOUND}:
          </p>
        </Show>
      </div>
      <ul>
        <For each={joints().slice(0, MOST_FOUND)}>
          {(joint) => (
            <li>
              <a href={`#joint-${joint.jointId}`} onClick={(event) => goTo(event, `joint-${joint.jointId}`)}>
                <b>{joint.stepId}</b> {joint.stepTitle}: {joint.title}
              </a>
            </li>
          )}
        </For>
      </ul>
    </section>
  )
}
