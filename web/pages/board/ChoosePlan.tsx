/**
 * A supervisor gives a job its plan, at an edition. A job keeps the plan it adopted for good, so it takes two
 * presses: one to choose, one to say so.
 */
import { createSignal, For, Show } from 'solid-js'
import type { JobSummary } from '../../../shared/job/summary'
import type { Plan } from '../../../shared/plan/types'
import { SOMEBODY_WHO_LEADS } from '../../../shared/shop/entitlement'
import { upperFirst } from '../../../shared/words'
import { useSendAndWait, useShop } from '../../live/live'
import { PlanCautions } from '../../shop/PlanCautions'
import { createWhole, editions } from '../../shop/plan-library'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { Sentence } from '../../ui/Sentence'
import { createSubmission } from '../../ui/submission'

export default function ChoosePlan(props: { job: JobSummary; onClose(): void }) {
  const sendAndWait = useSendAndWait()
  const { shop, known } = useShop()
  const [chosen, setChosen] = createSignal<Plan>()
  const { whole } = createWhole(chosen)

  const adopting = createSubmission(async ({ id, edition }: Plan) => {
    const answer = await sendAndWait(props.job.id, {
      type: 'AdoptPlan',
      planId: id,
      edition,
    })
    if (!answer.ok) return answer.sentence
    props.onClose()
  })

  const nothing = () =>
    known()
      ? `There is no plan in the library yet. ${upperFirst(SOMEBODY_WHO_LEADS)} adds one.`
      : 'Reading the library…'

  return (
    <Dialog open title={`Adopt plan for ${props.job.number}`} onClose={props.onClose}>
      <p>
        {props.job.engine}, serial {props.job.serial}.
      </p>
      <ul class="plans stack">
        <For each={editions(shop().plans)} fallback={<li class="pencil">{nothing()}</li>}>
          {(plan) => (
            <li>
              <button
                type="button"
                class="plan stack close"
                aria-pressed={chosen() === plan}
                onClick={() => setChosen(plan)}
              >
                <strong>
                  {plan.title}, edition {plan.edition}
                </strong>
                <span class="small pencil">
                  For {plan.family} engines. {plan.invented ? 'Invented values. ' : ''}
                  {plan.source}
                </span>
              </button>
            </li>
          )}
        </For>
      </ul>
      <Show when={chosen()}>
        {(plan) => (
          <>
            <Show when={whole()} keyed>
              {(read) => <PlanCautions plan={read} />}
            </Show>
            <Sentence>The job keeps this plan and edition, with the shop’s tolerances of today.</Sentence>
            <Button variant="main" disabled={adopting.busy()} onClick={() => adopting.submit(plan())}>
              {adopting.busy() ? 'Adopting…' : `Adopt plan: ${plan().title}, edition ${plan().edition}`}
            </Button>
          </>
        )}
      </Show>
      <Show when={adopting.error()}>{(sentence) => <Sentence against>{sentence()}</Sentence>}</Show>
    </Dialog>
  )
}
