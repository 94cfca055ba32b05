/** A labelled input with its hint and what is wrong with it. */
import { createUniqueId, type JSX, Show, splitProps } from 'solid-js'
import './fields.css'

interface FieldProps extends JSX.InputHTMLAttributes<HTMLInputElement> {
  label: string
  hint?: string
  error?: string
  /** Several lines. */
  long?: boolean
  /** What stands in it while nobody is typing: of a date, which a browser would write in its own order. */
  shown?: string
  onValue(value: string): void
}

export function Field(props: FieldProps) {
  const id = createUniqueId()
  const [own, rest] = splitProps(props, ['label', 'hint', 'error', 'long', 'shown', 'onValue'])
  const shared = () => ({
    id,
    'aria-describedby': own.hint || own.error ? `${id}-more` : undefined,
    'aria-invalid': own.error ? (true as const) : undefined,
  })
  return (
    <div class="field">
      <label for={id}>{own.label}</label>
      <Show
        when={own.long}
        fallback={
          <div class="field-line">
            <input
              {...shared()}
              {...rest}
              classList={{ 'shown-ours': own.shown !== undefined }}
              onInput={(event) => own.onValue(event.currentTarget.value)}
            />
            <Show when={own.shown !== undefined}>
              <span class="field-shown" aria-hidden="true">
                {own.shown}
              </span>
            </Show>
          </div>
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
      <Show when={own.error ?? own.hint}>
        {(more) => (
          <p id={`${id}-more`} class="small pencil">
            {more()}
          </p>
        )}
      </Show>
    </div>
  )
}
