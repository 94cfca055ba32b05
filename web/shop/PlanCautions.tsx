/** What to look at before a plan is used, the gravest first: where it is read, looked at, and adopted. */
import { createMemo, For, Show } from 'solid-js'
import { checkPlan } from '../../shared/plan/check'
import type { Plan } from '../../shared/plan/types'
import './plan-cautions.css'
import { format } from '../format'
import { useShop } from '../live/live'
import { cautionFix, placeWords } from './plan-place'

interface PlanCautionsProps {
  plan: Plan
  /** Says also that there are none. */
  always?: boolean
}

export function PlanCautions(props: PlanCautionsProps) {
  const { shop } = useShop()
  // With the crib and the widths of this shop: what its wrenches reach, and what its limits allow.
  const cautions = createMemo(() => checkPlan(props.plan, format, shop()).cautions)
  return (
    <Show when={props.always || cautions().length > 0}>
      <section class="plan-cautions stack" aria-label="Cautions of the plan">
        <h3>
          {cautions().length === 0 ? 'No cautions' : `To look at before it is used: ${cautions().length}`}
        </h3>
        <Show
          when={cautions().length > 0}
          fallback={
            <p class="pencil">
              Every step that covers a joint comes after the step that tightens it, each class A joint takes
              two signatures, and no torque, word or bolt length is doubtful.
            </p>
          }
        >
          <ul class="stack">
            <For each={cautions()}>
              {({ problem, fix, path }) => (
                <li class="caution">
                  <span class="small pencil">{placeWords(props.plan, path)}</span> <b>{problem}.</b>{' '}
                  {cautionFix(fix)}
                </li>
              )}
            </For>
          </ul>
        </Show>
      </section>
    </Show>
  )
}
