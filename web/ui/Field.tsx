/** A labelled input with its hint and what is wrong with it. */
import { createUniqueId, type JSX, Show, splitProps } from 'solid-js'

interface FieldProps extends JSX.InputHTMLAttributes<HTMLInputElement> {
  label: string
  hint?: string
  wrong?: string
  /** Several lines. */
  long?: boolean
  onValue(value: string): void
}

export function Field(props: FieldProps) {
  const id = createUniqueId()
  const [own, rest] = splitProps(props, ['label', 'hint', 'wrong', 'long', 'onValue'])
  const shared = () => ({
    id,
    'aria-describedby': own.hint || own.wrong ? `${id}-more` : undefined,
    'aria-invalid': own.wrong ? (true as const) : undefined,
  })
  return (
    <div class="field">
      <label for={id}>{own.label}</label>
      <Show
        when={own.long}
        fallback={
          <input {...shared()} {...rest} onInput={(event) => own.onValue(event.currentTarget.value)} />
        }
      >
        <textarea
          {...shared()}
          value={String(rest.value ?? '')}
          required={rest.required}
          maxLength={rest.maxLength}
          onInput={(event) => own.onValue(event.currentTarget.value)}
        />
      </Show>
      <Show when={own.wrong ?? own.hint}>
        {(more) => (
          <p id={`${id}-more`} class="small pencil">
            {more()}
          </p>
        )}
      </Show>
    </div>
  )
}
