/** The platform's own dialog: keeps the focus inside, closes with Escape, gives the focus back. */
import { createEffect, createUniqueId, onCleanup, type ParentProps, Show } from 'solid-js'
import './dialog.css'

interface DialogProps {
  open: boolean
  title: string
  onClose(): void
  broad?: boolean
}

export function Dialog(props: ParentProps<DialogProps>) {
  const id = createUniqueId()
  let element: HTMLDialogElement | undefined
  createEffect(() => {
    if (props.open && !element?.open) element?.showModal()
    if (!props.open && element?.open) element.close()
  })
  // Taken off the page while open: closed first, so that the focus goes back; nobody is told of it then.
  let gone = false
  onCleanup(() => {
    gone = true
    element?.close()
  })
  return (
    <dialog
      ref={element}
      class="sheet"
      classList={{ broad: props.broad }}
      aria-labelledby={id}
      onClose={() => gone || props.onClose()}
    >
      <Show when={props.open}>
        <div class="sheet-head">
          <h2 id={id}>{props.title}</h2>
          <button type="button" class="button quiet" onClick={() => props.onClose()}>
            Close
          </button>
        </div>
        <div class="sheet-body">{props.children}</div>
      </Show>
    </dialog>
  )
}
