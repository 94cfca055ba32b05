/**
 * Which dialog of a page is open: one at a time, said as a value that carries what the dialog is about.
 *
 * A page lists its dialogs in a table from that value's `dialog` to a component; one that is forgotten does not compile.
 * Each gets what the value carries and an `onClose`. `open` may be handed down by a context; `Outlet` stands in the page once.
 */
import { type Component, createSignal, type JSX, Show, Suspense } from 'solid-js'
import { Dynamic } from 'solid-js/web'

interface Dialog {
  dialog: string
}

export type DialogProps<D extends Dialog, K extends D['dialog']> = Omit<
  Extract<D, { dialog: K }>,
  'dialog'
> & { onClose(): void }

export type DialogTable<D extends Dialog> = { [K in D['dialog']]: Component<DialogProps<D, K>> }

export interface Dialogs<D extends Dialog> {
  open(dialog: D): void
  close(): void
  Outlet(): JSX.Element
}

export function createDialogs<D extends Dialog>(table: DialogTable<D>): Dialogs<D> {
  const [current, open] = createSignal<D>()
  const close = () => open()
  const Outlet = () => (
    <Show when={current()} keyed>
      {(dialog) => {
        const { dialog: kind, ...about } = dialog
        return (
          <Suspense>
            <Dynamic component={table[kind as D['dialog']] as Component<object>} {...about} onClose={close} />
          </Suspense>
        )
      }}
    </Show>
  )
  return { open: (dialog) => open(() => dialog), close, Outlet }
}
