/** Parts of a long page that come in turn, and the words by which the browser's search finds a line that waits. */
import { type ParentProps, Show } from 'solid-js'
import { useNear } from './near'

/** Drawn when its turn comes; `room`: what it takes about, as a CSS length, until then. */
export function Turn(props: ParentProps<{ room?: string }>) {
  const come = useNear().part()
  return (
    <Show when={come()} fallback={<div style={{ 'min-height': props.room }} />}>
      {props.children}
    </Show>
  )
}

/**
 * Neither seen nor read aloud: the line's name stands beside it. It comes when nothing else waits. A browser that does not
 * know `until-found` finds the name alone.
 */
export function Findable(props: { words: string }) {
  const come = useNear().part('last')
  return (
    <Show when={come()}>
      <p ref={(words) => words.setAttribute('hidden', 'until-found')}>{props.words}</p>
    </Show>
  )
}
