/** Who the engine is: number, model, serial, what it drives, owner, the work agreed, the plan and its edition. */

import { A } from '@solidjs/router'
import { For, Show } from 'solid-js'
import type { Here } from '../../../shared/protocol'
import { recordHref } from '../../hrefs'
import { AsOf, EngineFacts } from '../../job/JobHead'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { Fact } from '../../ui/Fact'
import { Invented } from '../../ui/Invented'
import { createSame } from '../../ui/same'
import { releaseStates } from './office-view'
import { PromiseLine } from './Promise'

export function EngineHead(props: { here: readonly Here[]; released: boolean }) {
  const scope = useJob()
  const job = () => scope.job()
  const states = createSame(() => releaseStates(job(), scope.words))
  return (
    <header class="engine-head">
      <h1>
        <span class="stencil engine-number">{job().number}</span>
        <span class="engine-model">{job().engine.model}</span>
      </h1>
      <AsOf />
      <dl class="engine-facts cluster">
        <EngineFacts job={job()} />
        <Fact term="Agreed work">{job().agreed}</Fact>
        <Show when={job().plan}>
          {(plan) => (
            <Fact term="Plan">
              {plan().title}, edition {plan().edition} <Invented plan={plan()} />
            </Fact>
          )}
        </Show>
        <Fact term="Promised">
          <PromiseLine released={props.released} />
        </Fact>
        <Show when={props.here.length > 0}>
          <Fact term="Here now" class="here-now">
            <ul class="here-list cluster">
              <For each={props.here}>
                {(visitor) => (
                  <li>
                    <Stripe person={visitor.person} />{' '}
                    <span class="pencil small">{PLACES[visitor.place]}</span>
                  </li>
                )}
              </For>
            </ul>
          </Fact>
        </Show>
      </dl>
      <Show when={states().length > 0}>
        <div class="engine-releases">
          <For each={states()}>
            {(state) => (
              <p classList={{ against: state.against }}>
                {state.text}
                <Show when={state.record}>
                  {(number) => (
                    <A class="button record-way" href={recordHref(job().id, number())}>
                      The record {number()}
                    </A>
                  )}
                </Show>
              </p>
            )}
          </For>
        </div>
      </Show>
    </header>
  )
}

const PLACES = { engine: 'on this page', bench: 'at the bench', audit: 'in the audit' }
