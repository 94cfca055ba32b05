/** What is damaged on the server's disk, above everything else: an engine may stand there falsely. */
import { For, Show } from 'solid-js'
import type { DamageNotice } from '../../../shared/protocol'
import { counted } from '../../../shared/words'

/** The rest is said by verify. */
const SHOWN_MOST = 4

export function DamageNotices(props: { notices: readonly DamageNotice[] }) {
  const more = () => props.notices.length - SHOWN_MOST
  return (
    <Show when={props.notices.length > 0}>
      <section class="damage stack" role="alert" aria-labelledby="damage-title">
        <h2 id="damage-title">The record is damaged on the server’s disk</h2>
        <ul class="stack">
          <For each={props.notices.slice(0, SHOWN_MOST)}>{({ sentence }) => <li>{sentence}</li>}</For>
          <Show when={more() > 0}>
            <li>And {counted(more(), 'more fault')}.</li>
          </Show>
        </ul>
        <p>Tell whoever keeps the shop’s computer: “npm run verify” there says all of it and what to do.</p>
      </section>
    </Show>
  )
}
