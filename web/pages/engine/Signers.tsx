/** Who signed: a stripe of paint with initials, the second signer's after the first's, and when. */
import { For, Show } from 'solid-js'
import { useJob } from '../../job/scope'
import type { SignerPair } from '../../job/step/step-view'
import { Stripe } from '../../people/Stripe'

export function Signers(props: { pairs: readonly SignerPair[]; secondAsked: boolean }) {
  const scope = useJob()
  return (
    <ul class="signers stack close">
      <For each={props.pairs}>
        {(pair) => (
          <li>
            <Show when={props.pairs.length > 1 && pair.sets.length > 0}>
              <span class="small pencil signed-sets">{pair.sets.join(', ')}</span>
            </Show>
            <span class="signed">
              <Stripe person={pair.first.by} />
              <span class="small pencil">{scope.words.moment(pair.first.doneAt)}</span>
            </span>
            <Show when={pair.second}>
              {(second) => (
                <span class="signed signed-second">
                  <Stripe person={second().by} />
                  <span class="small pencil">
                    {scope.words.moment(second().doneAt)}
                    {second().late ? ', late' : ''}
                  </span>
                </span>
              )}
            </Show>
            <Show when={props.secondAsked && !pair.second}>
              <span class="small owed">second owed</span>
            </Show>
          </li>
        )}
      </For>
    </ul>
  )
}
