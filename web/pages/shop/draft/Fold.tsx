/** A step or a joint of a draft, folded to a line; opened, what can be changed of it. */
import { type ParentProps, Show } from 'solid-js'

interface FoldProps {
  id: string
  title: string
  /** In pencil beside the title. */
  beside?: string
  brief: string
  /** How many faults lie within. */
  faults: number
  open: boolean
  onToggle(): void
}

export function Fold(props: ParentProps<FoldProps>) {
  return (
    <>
      <button type="button" class="draft-fold" aria-expanded={props.open} onClick={() => props.onToggle()}>
        <span class="strong">{props.id}</span>
        <span>
          <b>{props.title}</b> <span class="pencil">{props.beside}</span>
          <span class="step-brief pencil">{props.brief}</span>
        </span>
        <Show when={props.faults > 0}>
          <span class="fold-faults">{props.faults} to put right</span>
        </Show>
      </button>
      <Show when={props.open}>{props.children}</Show>
    </>
  )
}
