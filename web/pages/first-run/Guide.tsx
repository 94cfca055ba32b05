/** The guided list of a new shop: each thing done or not, in words, and the way to it. It stands in nobody's way. */
import { A } from '@solidjs/router'
import { createMemo, createSignal, For, lazy, Match, Show, Suspense, Switch } from 'solid-js'
import { usePageTitle } from '../../frame/title'
import { isFailure } from '../../live/http'
import { useBoard } from '../../live/live'
import { examplePlan, planHref } from '../../shop/plan-library'
import { type ShopScope, useShopScope, useShopSend } from '../../shop/scope'
import { doneCount, guideOf } from '../../shop/setup-guide'
import { Button } from '../../ui/Button'
import { Sentence } from '../../ui/Sentence'
import { createSubmission } from '../../ui/submission'
import './first-run.css'

const NewJob = lazy(() => import('../../job/NewJob'))

/** Made up for the demonstration, and marked so in its every place. */
const EXAMPLE = { id: 'orrath-q31', title: 'Orrath Q31' }

export function Guide() {
  const scope = useShopScope()
  const board = useBoard()
  usePageTitle(() => 'Guided list')
  const [opening, setOpening] = createSignal(false)
  const items = createMemo(() => guideOf(scope.shop(), board.ids().length))
  const known = () => scope.known() && board.known()
  return (
    <div class="page guide">
      <h1>{scope.shop().name} is open</h1>
      <p>
        Four things, in any order, and each can wait. Leave when you like: the Shop page leads back here until
        all is done.
      </p>
      <Show when={known()} fallback={<p class="pencil">Reading the shop…</p>}>
        <p class="pencil" role="status">
          {doneCount(items())}
        </p>
        <ol class="guide-list">
          <For each={items().map(({ id }) => id)}>
            {(id, index) => {
              const item = () => items()[index()]
              return (
                <li classList={{ 'guide-done': item()?.done === true }}>
                  <span class="guide-cell" aria-hidden="true" />
                  <div class="guide-words stack">
                    <h2>{item()?.title}</h2>
                    <p>{item()?.words}</p>
                  </div>
                  <div class="guide-acts stack">
                    <Switch>
                      <Match when={id === 'people'}>
                        <A class="button" href="/shop">
                          {item()?.done ? 'To the people' : 'Enter the people'}
                        </A>
                      </Match>
                      <Match when={id === 'wrenches'}>
                        <A class="button" href="/shop/wrenches">
                          {item()?.done ? 'To the crib' : 'Add the wrenches'}
                        </A>
                      </Match>
                      <Match when={id === 'plan'}>
                        <PlanActs scope={scope} done={item()?.done === true} />
                      </Match>
                      <Match when={id === 'job'}>
                        <Button onClick={() => setOpening(true)}>Open job</Button>
                      </Match>
                    </Switch>
                  </div>
                </li>
              )
            }}
          </For>
        </ol>
      </Show>
      <A class="button main" href="/">
        To the board
      </A>
      <Suspense>
        <Show when={opening()}>
          <NewJob onClose={() => setOpening(false)} />
        </Show>
      </Suspense>
    </div>
  )
}

function PlanActs(props: { scope: ShopScope; done: boolean }) {
  const send = useShopSend()
  const example = () => Object.values(props.scope.shop().plans[EXAMPLE.id] ?? {})[0]

  const adding = createSubmission(async () => {
    const plan = await examplePlan(EXAMPLE.id)
    return isFailure(plan) ? plan.sentence : send({ type: 'AddPlan', plan })
  })

  return (
    <>
      <A class="button" href={props.done ? '/shop/plans' : '/shop/plans/read-one'}>
        {props.done ? 'To the library' : 'Load a plan file'}
      </A>
      <Show
        when={example()}
        fallback={
          <>
            <Button disabled={adding.busy()} onClick={adding.submit}>
              {adding.busy() ? 'Adding…' : `Add the example: ${EXAMPLE.title}`}
            </Button>
            <p class="small pencil">
              The example is invented, every value of it, and says so wherever it is shown: for looking
              around, never for a real engine.
            </p>
          </>
        }
      >
        {(plan) => (
          <A class="button quiet" href={planHref(plan())}>
            Look at the example
          </A>
        )}
      </Show>
      <Show when={adding.error()}>{(sentence) => <Sentence against>{sentence()}</Sentence>}</Show>
    </>
  )
}
