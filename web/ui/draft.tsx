/** What is being entered in a form, as one value; and a field bound to one entry of it by name. */
import { createSignal, type JSX, splitProps } from 'solid-js'
import { Field } from './Field'

type TextsOf<T> = { [Name in keyof T]: T[Name] extends string ? Name : never }[keyof T] & string

interface EntryProps<T> extends Omit<JSX.InputHTMLAttributes<HTMLInputElement>, 'value'> {
  /** Which entry of the draft. */
  of: TextsOf<T>
  label: string
  hint?: string
  error?: string
  long?: boolean
}

/** `onChange` is told before each change: an old complaint no longer fits. */
export function createDraft<T extends object>(start: T, onChange: () => void = () => {}) {
  const [draft, setDraft] = createSignal<T>(start)
  const change = (part: Partial<T>) => {
    onChange()
    setDraft(() => ({ ...draft(), ...part }))
  }
  function Entry(props: EntryProps<T>) {
    const [own, rest] = splitProps(props, ['of'])
    return (
      <Field
        {...rest}
        value={String(draft()[own.of])}
        onValue={(value) => change({ [own.of]: value } as Partial<T>)}
      />
    )
  }
  /** As entered, without what stands before and after the words. */
  const trimmed = (): T =>
    Object.fromEntries(
      Object.entries(draft()).map(([name, value]) => [
        name,
        typeof value === 'string' ? value.trim() : value,
      ]),
    ) as T
  return { draft, trimmed, change, Entry }
}
