/** A place to drop a file on, or to press and choose one. */
import { createSignal } from 'solid-js'

interface DropFileProps {
  accept: string
  title: string
  /** What is taken, and what happens with it. */
  hint: string
  onFile(file: File): void
}

export function DropFile(props: DropFileProps) {
  const [over, setOver] = createSignal(false)
  const take = (file: File | undefined) => {
    if (file) props.onFile(file)
  }
  return (
    <label
      class="drop"
      classList={{ 'drop-over': over() }}
      onDragOver={(event) => {
        event.preventDefault()
        setOver(true)
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault()
        setOver(false)
        take(event.dataTransfer?.files[0])
      }}
    >
      <input
        type="file"
        accept={props.accept}
        onChange={(event) => {
          take(event.currentTarget.files?.[0])
          // The same file, put right, can be chosen again.
          event.currentTarget.value = ''
        }}
      />
      <span>
        <b>{props.title}</b>
        <span class="pencil"> {props.hint}</span>
      </span>
    </label>
  )
}
