/** An insert as it was fitted, said with presses and one pad: kind, length, set-down, depth, who, cure. */
import { createSignal, For, onMount, Show } from 'solid-js'
import { INSERT_WORDS } from '../../../shared/job/hole-words'
import type { AdoptedJoint } from '../../../shared/plan/types'
import { upperFirst } from '../../../shared/words'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { Field } from '../../ui/Field'
import { NumberPad } from '../../ui/NumberPad'
import { padText } from '../../ui/pad-text'
import { type InsertEntry, insertCommand, NO_INSERT, outerThreads, usualLengths } from './holes'
import './entry.css'
import './plates.css'
import './hole.css'

type Figure = 'lengthMm' | 'setDownMm' | 'threadMm' | 'cureHours'
const FIGURES: readonly { id: Figure; words: string; unit: string; none: string }[] = [
  { id: 'lengthMm', words: 'Length', unit: 'mm', none: 'to enter' },
  { id: 'setDownMm', words: 'Below the face', unit: 'mm', none: 'usual' },
  { id: 'threadMm', words: 'Full thread now', unit: 'mm', none: 'as before' },
  { id: 'cureHours', words: 'Cures', unit: 'h', none: 'no cure' },
]
const KINDS = ['wire', 'solid'] as const
const SHOP = 'a machine shop'

interface InsertFormProps {
  joint: AdoptedJoint
  position: number
  onDone: () => void
}

export function InsertForm(props: InsertFormProps) {
  const scope = useJob()
  const [entry, setEntry] = createSignal<InsertEntry>(NO_INSERT)
  const [figure, setFigure] = createSignal<Figure>('lengthMm')
  const [named, setNamed] = createSignal(false)
  let form: HTMLElement | undefined
  onMount(() => form?.scrollIntoView({ block: 'start' }))
  const change = (part: Partial<InsertEntry>) => setEntry((before) => ({ ...before, ...part }))
  const command = () => insertCommand(props.joint.id, props.position, entry())
  const record = () => {
    const ready = command()
    if (!ready) return
    void scope.send(ready)
    props.onDone()
  }
  const plate = (words: string, on: () => boolean, press: () => void) => (
    <button type="button" class="plate" classList={{ shown: on() }} aria-pressed={on()} onClick={press}>
      {words}
    </button>
  )
  return (
    <section class="declare insert-form stack" aria-label="Insert fitted" ref={form}>
      <div class="panel-buttons cluster">
        <For each={KINDS}>
          {(kind) =>
            plate(
              upperFirst(INSERT_WORDS[kind]),
              () => entry().kind === kind,
              () => change({ kind }),
            )
          }
        </For>
        <For each={usualLengths(props.joint)}>
          {({ mm, words }) =>
            plate(
              words,
              () => entry().lengthMm === String(mm),
              () => change({ lengthMm: String(mm) }),
            )
          }
        </For>
      </div>
      <div class="insert-pad">
        <fieldset class="figures">
          <legend class="unseen">Which number</legend>
          <For each={FIGURES}>
            {({ id, words, unit, none }) => (
              <button
                type="button"
                class="figure-plate"
                aria-pressed={figure() === id}
                onClick={() => setFigure(id)}
              >
                <span>{words}</span>
                <strong>{entry()[id] === '' ? none : `${padText(entry()[id])} ${unit}`}</strong>
              </button>
            )}
          </For>
        </fieldset>
        <NumberPad
          value={entry()[figure()]}
          onChange={(value) => change({ [figure()]: value })}
          decimal
          maxLength={5}
          label={FIGURES.find(({ id }) => id === figure())?.words ?? 'Number'}
        />
      </div>
      <Show when={entry().kind === 'solid' && outerThreads(props.joint).length > 0}>
        <p>The thread it holds by in the part, where it is known:</p>
        <div class="panel-buttons cluster">
          <For each={outerThreads(props.joint)}>
            {(outerThread) =>
              plate(
                outerThread,
                () => entry().outerThread === outerThread,
                () => change({ outerThread: entry().outerThread === outerThread ? '' : outerThread }),
              )
            }
          </For>
        </div>
      </Show>
      <p>Who did it?</p>
      <div class="panel-buttons cluster">
        {plate(
          'I did',
          () => !entry().doneBy && !named(),
          () => {
            setNamed(false)
            change({ doneBy: '' })
          },
        )}
        {plate(
          'A machine shop',
          () => entry().doneBy === SHOP,
          () => {
            setNamed(false)
            change({ doneBy: SHOP })
          },
        )}
        {plate('Somebody else', named, () => {
          setNamed(true)
          change({ doneBy: '' })
        })}
      </div>
      <Show when={named()}>
        <Field
          label="Their name"
          value={entry().doneBy ?? ''}
          maxLength={120}
          onValue={(doneBy) => change({ doneBy })}
        />
      </Show>
      <div class="panel-buttons cluster">
        <Button variant="main" disabled={command() === undefined} onClick={record}>
          {command() === undefined
            ? entry().kind
              ? 'Enter its length'
              : 'Wire or solid?'
            : `Record the ${INSERT_WORDS[entry().kind ?? 'wire']}, ${padText(entry().lengthMm)} mm`}
        </Button>
        <Button variant="quiet" onClick={props.onDone}>
          Not now
        </Button>
      </div>
    </section>
  )
}
