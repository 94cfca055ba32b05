/** Where a sheet comes in: dropped, chosen or pasted. Once it is in, its text stands folded away and can still be changed. */
import { createEffect, createSignal, on, Show } from 'solid-js'
import { Button } from '../../../ui/Button'
import { DropFile } from '../DropFile'

interface SheetTextProps {
  text: string
  onText(text: string): void
  /** Another sheet: what was said of the old one's lines is let go. */
  onNew(text: string): void
}

export function SheetText(props: SheetTextProps) {
  const [fileName, setFileName] = createSignal<string>()
  const [sure, setSure] = createSignal(false)
  const take = async (file: File) => {
    setFileName(file.name)
    props.onNew(await file.text())
  }
  const filled = () => props.text.trim() !== ''
  const [open, setOpen] = createSignal(true)
  // A whole sheet at once folds away; one that is typed stays open under the hand.
  createEffect(
    on(
      () => props.text,
      (text, before) => {
        if ((before ?? '') === '') setOpen(!text.includes('\n'))
      },
    ),
  )
  return (
    <>
      <Show when={!filled()}>
        <DropFile
          accept=".csv,.tsv,.txt,text/*"
          title="Drop a table here, or press to choose a file."
          hint="CSV, TSV or plain text, one fastener to a line: its torque, and its thread and how many where the sheet has them. It stays on this device."
          onFile={(file) => void take(file)}
        />
      </Show>
      <details class="sheet-text" open={open()} onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>
          {filled() ? `The text of the sheet${fileName() ? ` (${fileName()})` : ''}` : 'Or paste it'}
        </summary>
        <div class="field">
          <label for="sheet-text">The sheet as text</label>
          <textarea
            id="sheet-text"
            class="plan-text"
            spellcheck={false}
            autocomplete="off"
            placeholder={'Head nut\tM10\t10\t79 Nm (58 ft. lbs.)\nRocker cover\tM6\t8\t8 to 10 N·m'}
            value={props.text}
            onInput={(event) => props.onText(event.currentTarget.value)}
          />
        </div>
        <Show when={filled()}>
          <Button
            variant="rust"
            onClick={() => {
              if (sure()) {
                setFileName(undefined)
                props.onNew('')
              }
              setSure(!sure())
            }}
          >
            {sure() ? 'Yes, begin with another: what was corrected is lost' : 'Begin with another sheet'}
          </Button>
        </Show>
      </details>
    </>
  )
}
