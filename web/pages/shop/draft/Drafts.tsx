/** Plans in draft on this device, above the library they are meant for. */
import { A } from '@solidjs/router'
import { createSignal, For, onMount, Show } from 'solid-js'
import { counted } from '../../../../shared/words'
import { useLive } from '../../../live/live'
import { type Draft, draftShelf } from './shelf'

export function Drafts() {
  const live = useLive()
  const [drafts, setDrafts] = createSignal<Draft[]>([])
  onMount(async () => {
    const key = live.session.me()?.shop.key
    if (key) setDrafts(await (await draftShelf(key)).all())
  })
  return (
    <Show when={drafts().length > 0}>
      <section class="drafts-part stack roomy" aria-labelledby="drafts-title">
        <h3 id="drafts-title">
          In draft on this device <span class="pencil">{drafts().length}</span>
        </h3>
        <ul class="cards">
          <For each={drafts()}>
            {({ id, plan }) => (
              <li class="shop-card draft-card stack">
                <h4>{plan.title || plan.id}</h4>
                <p class="pencil">
                  {counted(plan.steps.length, 'step')}, edition {plan.edition}
                </p>
                <div class="card-acts cluster">
                  <A
                    class="button"
                    href={`/shop/plans/draft/${id}`}
                    aria-label={`Continue this draft: ${plan.title}`}
                  >
                    Continue this draft
                  </A>
                </div>
              </li>
            )}
          </For>
        </ul>
      </section>
    </Show>
  )
}
