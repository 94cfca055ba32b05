/** Steps to choose from, in the plan's order, each a box to tick; those signed already are left out. */
import { For } from 'solid-js'
import { isSigned } from '../../../shared/job/verdicts'
import { useJob } from '../../job/scope'

export function StepTicks(props: { chosen: readonly string[]; onChosen(ids: string[]): void }) {
  const scope = useJob()
  const steps = () => {
    const job = scope.planned()
    return job.plan.steps.filter((step) => props.chosen.includes(step.id) || !isSigned(job, step))
  }
  const turn = (id: string, on: boolean) => {
    const order = steps().map((step) => step.id)
    const next = on ? [...props.chosen, id] : props.chosen.filter((other) => other !== id)
    props.onChosen(order.filter((step) => next.includes(step)))
  }
  return (
    <fieldset class="ticks whole">
      <legend>Which steps wait</legend>
      <div class="ticks-list">
        <For each={steps()}>
          {(step) => (
            <label class="tick">
              <input
                type="checkbox"
                checked={props.chosen.includes(step.id)}
                onChange={(event) => turn(step.id, event.currentTarget.checked)}
              />
              <b>{step.id}</b> {step.title}
            </label>
          )}
        </For>
      </div>
    </fieldset>
  )
}
