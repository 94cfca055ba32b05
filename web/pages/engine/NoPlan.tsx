/** An engine without a plan: what is missing, who can give it, and, for those who may, the library to choose from. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import type { Plan } from '../../../shared/plan/types'
import { SOMEBODY_WHO_LEADS } from '../../../shared/shop/entitlement'
import { upperFirst } from '../../../shared/words'
import { useJob } from '../../job/scope'
import { useSendAndWait } from '../../live/live'
import { PlanCautions } from '../../shop/PlanCautions'
import { countWords, createWhole, latest } from '../../shop/plan-library'
import { Button } from '../../ui/Button'
import { Invented } from '../../ui/Invented'
import { Sentence } from '../../ui/Sentence'

export function NoPlan() {
  const scope = useJob()
  const sendAndWait = useSendAndWait()
  const [adopting, setAdopting] = createSignal<string>()
  const [refusal, setRefusal] = createSignal<string>()
  const plans = createMemo(() => latest(scope.shop().plans))

  const adopt = async (plan: Plan) => {
    setAdopting(plan.id)
    setRefusal(undefined)
    const answer = await sendAndWait(scope.job().id, {
      type: 'AdoptPlan',
      planId: plan.id,
      edition: plan.edition,
    })
    setAdopting(undefined)
    if (!answer.ok) setRefusal(answer.sentence)
  }

  return (
    <section class="no-plan stack roomy">
      <h2>No build plan yet</h2>
      <p>
        Here the plan will stand, stage by stage: every step with its fasteners, what it comes after and what
        it covers.{' '}
        {scope.leads()
          ? 'Choose the one this engine is built by; a job keeps the edition it adopts.'
          : `${upperFirst(SOMEBODY_WHO_LEADS)} adopts one here.`}
      </p>
      <Show when={refusal()}>
        <Sentence against>{refusal()}</Sentence>
      </Show>
      <ul class="library">
        <For
          each={plans()}
          fallback={<li class="pencil">The library is empty. A supervisor adds a plan file to it first.</li>}
        >
          {(plan) => (
            <li>
              <div>
                <h3>
                  {plan.title} <span class="pencil">edition {plan.edition}</span> <Invented plan={plan} />
                </h3>
                <Size plan={plan} />
                <p class="pencil small">{plan.source}</p>
              </div>
              <Show when={scope.leads()}>
                <Button disabled={adopting() !== undefined} onClick={() => void adopt(plan)}>
                  {adopting() === plan.id ? 'Adopting…' : 'Adopt plan'}
                  <span class="unseen"> {plan.title}</span>
                </Button>
              </Show>
            </li>
          )}
        </For>
      </ul>
    </section>
  )
}

/** How large it is and what is to be looked at, once it is here whole. */
function Size(props: { plan: Plan }) {
  const { whole } = createWhole(() => props.plan)
  return (
    <Show when={whole()} fallback={<p>For {props.plan.family} engines.</p>}>
      {(plan) => (
        <>
          <p>{countWords(plan())}.</p>
          <PlanCautions plan={plan()} />
        </>
      )}
    </Show>
  )
}
