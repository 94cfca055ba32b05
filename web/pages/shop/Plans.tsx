/** The plan library: every plan at every edition, its size and its cautions; one can be looked at, none changed. */
import { A } from '@solidjs/router'
import { createMemo, For, Show } from 'solid-js'
import { checkPlan } from '../../../shared/plan/check'
import type { Plan } from '../../../shared/plan/types'
import { SOMEBODY_WHO_LEADS } from '../../../shared/shop/entitlement'
import { upperFirst } from '../../../shared/words'
import { format } from '../../format'
import { countWords, createWhole, editions, planHref } from '../../shop/plan-library'
import type { ShopScope } from '../../shop/scope'
import { EmptyState } from '../../ui/EmptyState'
import { Invented } from '../../ui/Invented'
import { Sentence } from '../../ui/Sentence'
import { Drafts } from './draft/Drafts'
import { PartHead } from './PartHead'
import { PlanLook } from './PlanLook'
import { cautionWords } from './plan-look'

export function Plans(props: { scope: ShopScope }) {
  const { scope } = props
  const plans = createMemo(() => editions(scope.shop().plans))
  return (
    <section aria-labelledby="plans-title">
      <PartHead id="plans-title" title="Plan library" beside={plans().length}>
        <Show when={scope.mayEdit()}>
          <A class="button" href="/shop/plans/from-sheet">
            From a torque sheet
          </A>
          <A class="button" href="/shop/plans/read-one">
            Load a plan file
          </A>
        </Show>
      </PartHead>
      <Show when={scope.mayEdit()}>
        <Drafts />
      </Show>
      <Show
        when={plans().length > 0}
        fallback={
          <EmptyState title="The library is empty.">
            <p>
              A plan is the shop’s own copy of the maker’s information at a named edition: steps, joints with
              their bolt maps, what hides what. It comes in as a plan file; a job then adopts it.
            </p>
            <p>
              {scope.mayEdit()
                ? 'To look around first, the guided list offers an invented example.'
                : `${upperFirst(SOMEBODY_WHO_LEADS)} adds the first one.`}
            </p>
            <Show when={scope.mayEdit()}>
              <A class="button" href="/first-run">
                To the guided list
              </A>
            </Show>
          </EmptyState>
        }
      >
        <p>
          An edition in the library never changes. A supervisor adopts one for an engine, on the board or on
          the engine’s page.
        </p>
        <ul class="cards">
          <For each={plans()}>{(plan) => <PlanCard scope={scope} plan={plan} />}</For>
        </ul>
      </Show>
    </section>
  )
}

function PlanCard(props: { scope: ShopScope; plan: Plan }) {
  const { whole } = createWhole(() => props.plan)
  const cautions = () => {
    const plan = whole()
    return plan && checkPlan(plan, format, props.scope.shop()).cautions.length
  }
  return (
    <li class="shop-card stack">
      <h3>
        {props.plan.title} <span class="pencil">edition {props.plan.edition}</span>
      </h3>
      <p class="pencil">
        {props.plan.id}, for {props.plan.family} engines <Invented plan={props.plan} />
      </p>
      <Show when={whole()} fallback={<p class="pencil">Reading its steps…</p>}>
        {(plan) => <p>{countWords(plan())}</p>}
      </Show>
      <Show when={cautions() !== undefined}>
        <p classList={{ against: (cautions() ?? 0) > 0, pencil: cautions() === 0 }}>
          {cautionWords(cautions() ?? 0)}
        </p>
      </Show>
      <p class="small pencil">{props.plan.source}</p>
      <div class="card-acts cluster">
        <A
          class="button"
          href={planHref(props.plan)}
          aria-label={`Look at it: ${props.plan.title}, edition ${props.plan.edition}`}
        >
          Look at it
        </A>
      </div>
    </li>
  )
}

export function OnePlan(props: { scope: ShopScope; id: string; edition: number }) {
  const { whole, problem } = createWhole(() => props)
  return (
    <section aria-labelledby="plan-title">
      <PartHead
        id="plan-title"
        title={whole()?.title ?? props.id}
        beside={`edition ${props.edition}`}
        invented={whole()?.invented}
        inLibrary
      />
      <Show when={problem()}>
        <Sentence against>{problem()}</Sentence>
      </Show>
      <Show when={whole()} fallback={<Show when={!problem()}>Reading the plan…</Show>}>
        {(plan) => <PlanLook plan={plan()} />}
      </Show>
    </section>
  )
}
