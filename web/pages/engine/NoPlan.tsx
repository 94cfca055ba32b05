/** An engine without a plan: what is missing, who can give it, and, for those who may, the library to choose from. */
import { createMemo, createSignal, For, onMount, Show } from 'solid-js'
import type { Plan } from '../../../shared/plan/types'
import { SOMEBODY_WHO_LEADS } from '../../../shared/shop/entitlement'
import type { Shop } from '../../../shared/shop/types'
import { upperFirst } from '../../../shared/words'
import { Invented } from '../../job/Invented'
import { useJob } from '../../job/scope'
import { ask, isFailure } from '../../live/http'
import { useSendAndWait } from '../../live/live'
import { PlanCautions } from '../../shop/PlanCautions'
import { Button } from '../../ui/Button'
import { Sentence } from '../../ui/Sentence'
import { latestPlans, libraryWords } from './library'

export function NoPlan() {
  const scope = useJob()
  const sendAndWait = useSendAndWait()
  const [adopting, setAdopting] = createSignal<string>()
  const [refusal, setRefusal] = createSignal<string>()
  const plans = createMemo(() => latestPlans(scope.shop().plans))

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
        Here the plan will stand, stage by stage: every step with its fasteners, what it needs and what it
        hides.{' '}
        {scope.leads()
          ? 'Choose the one this engine is built by; a job keeps the edition it adopts.'
          : `${upperFirst(SOMEBODY_WHO_LEADS)} chooses one here.`}
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
                  {plan.title} <span class="pencil">edition {plan.edition}</span>{' '}
                  <Show when={plan.invented}>
                    <Invented />
                  </Show>
                </h3>
                <Size plan={plan} wrenches={scope.shop().wrenches} />
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

/** The library travels without its plans' bodies; each is asked for here, for its counts and its cautions. */
function Size(props: { plan: Plan; wrenches: Shop['wrenches'] }) {
  const [whole, setWhole] = createSignal(props.plan)
  onMount(async () => {
    const { id, edition } = props.plan
    const reply = await ask<Plan>(`/api/plans/${encodeURIComponent(id)}/${edition}`)
    if (!isFailure(reply)) setWhole(reply)
  })
  return (
    <>
      <p>{libraryWords(whole())}</p>
      <PlanCautions plan={whole()} wrenches={props.wrenches} />
    </>
  )
}
