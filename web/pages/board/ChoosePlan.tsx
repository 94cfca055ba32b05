/** A supervisor gives a job its plan, at an edition. The copy keeps that edition whatever the library does later. */
import { createSignal, For, Show } from 'solid-js'
import type { JobSummary } from '../../../shared/job/summary'
import { useLive, useShop } from '../../live/live'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { Sentence } from '../../ui/Sentence'

export default function ChoosePlan(props: { job: JobSummary; onClose(): void }) {
  const { sendAndWait } = useLive()
  const { shop, known } = useShop()
  const [why, setWhy] = createSignal<string>()
  const [busy, setBusy] = createSignal(false)
  const plans = () =>
    Object.values(shop().plans)
      .flatMap((editions) => Object.values(editions))
      .sort((a, b) => a.title.localeCompare(b.title) || b.edition - a.edition)

  async function adopt(planId: string, edition: number): Promise<void> {
    setBusy(true)
    const answer = await sendAndWait(props.job.id, { type: 'AdoptPlan', planId, edition })
    setBusy(false)
    if (answer.ok) props.onClose()
    else setWhy(answer.sentence)
  }

  return (
    <Dialog open title={`A plan for ${props.job.number}`} onClose={props.onClose}>
      <p>
        {props.job.engine}, serial {props.job.serial}. The job keeps the edition it adopts.
      </p>
      <ul class="plans">
        <For
          each={plans()}
          fallback={
            <li class="pencil">
              {known()
                ? 'The library has no plan yet. A supervisor or the owner adds one as a plan file.'
                : 'Reading the library…'}
            </li>
          }
        >
          {(plan) => (
            <li>
              <div>
                <h3>
                  {plan.title}, edition {plan.edition}
                </h3>
                <p class="small pencil">
                  {plan.family}. {plan.invented ? 'Invented values, for demonstration. ' : ''}
                  {plan.source}
                </p>
              </div>
              <Button
                disabled={busy()}
                aria-label={`Adopt ${plan.title}, edition ${plan.edition}`}
                onClick={() => adopt(plan.id, plan.edition)}
              >
                Adopt
              </Button>
            </li>
          )}
        </For>
      </ul>
      <Show when={why()}>{(sentence) => <Sentence against>{sentence()}</Sentence>}</Show>
    </Dialog>
  )
}
