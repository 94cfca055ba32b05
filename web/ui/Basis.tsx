/**
 * What an answer rests on: formula, published source and how it was come by, one touch away.
 *
 * On paper nothing can be touched: there `refs` gives the numbers of a list that the page prints at its foot (`BasisList`).
 */
import { createSignal, createUniqueId, For, Show } from 'solid-js'
import { BASIS, type BasisId, type BasisStatus } from '../../shared/fastener/basis'
import './basis.css'

export const STATUS_WORDS: Record<BasisStatus, string> = {
  found: 'seen in a public document',
  memory: 'from memory, not seen',
  common_practice: 'common practice, no source',
  computed: 'follows from what was entered',
}

interface BasisProps {
  ids: readonly BasisId[]
  /** What it is the basis of, for a reader who cannot see where the button stands. */
  of: string
  refs?: (id: BasisId) => number
}

export function Basis(props: BasisProps) {
  const id = createUniqueId()
  const [open, setOpen] = createSignal(false)
  return (
    <div class="basis">
      <button
        type="button"
        class="basis-key"
        aria-expanded={open()}
        aria-controls={id}
        onClick={() => setOpen(!open())}
      >
        Formula and source<span class="unseen"> of {props.of}</span>
      </button>
      <div id={id} class="basis-sheet" hidden={!open()}>
        <BasisList ids={props.ids} />
      </div>
      <Show when={props.refs}>
        {(refs) => (
          <p class="basis-refs" aria-hidden="true">
            Formulas and sources:{' '}
            {props.ids
              .map((id) => refs()(id))
              .sort((a, b) => a - b)
              .join(', ')}
          </p>
        )}
      </Show>
    </div>
  )
}

/** The entries themselves, numbered where they are to be referred to. */
export function BasisList(props: { ids: readonly BasisId[]; numbered?: boolean }) {
  return (
    <ol class="basis-list stack roomy" classList={{ 'basis-numbered': props.numbered === true }}>
      <For each={props.ids}>
        {(id) => (
          <li>
            <h4>{BASIS[id].title}</h4>
            <p class="basis-formula">{BASIS[id].formula}</p>
            <p class="small pencil">
              {BASIS[id].source} ({STATUS_WORDS[BASIS[id].status]})
            </p>
          </li>
        )}
      </For>
    </ol>
  )
}
