/** One line of the sheet: its text as given, what was read of it, what is doubted, and its author's word on all of that. */
import { createMemo, createSignal, createUniqueId, For, Match, Show, Switch } from 'solid-js'
import { CLASSES, JOINT_CLASSES, type JointClass } from '../../../../shared/plan/kinds'
import { type ItemLine, threadRead } from '../../../../shared/sheet'
import { Button } from '../../../ui/Button'
import { Field } from '../../../ui/Field'
import { Select } from '../../../ui/Select'
import { lineName, specWords } from './sheet-words'
import { type Correction, type CorrectLine, isJoint, isToLookAt, type WorkLine } from './sheet-work'

interface SheetRowProps {
  work: WorkLine
  withSection: boolean
  onHere(): void
  toNext(): void
  onCorrect: CorrectLine
}

const AS = [
  { value: 'joint', title: 'a fastener' },
  { value: 'heading', title: 'a heading' },
  { value: 'out', title: 'not for the plan' },
] as const

export function SheetRow(props: SheetRowProps) {
  const [open, setOpen] = createSignal(isToLookAt(props.work))
  const item = createMemo(() => (props.work.line.kind === 'item' ? props.work.line : undefined))
  const correct = (patch: Parameters<CorrectLine>[1]) => props.onCorrect(props.work.original, patch)
  let row!: HTMLLIElement
  const onKey = (event: KeyboardEvent) => {
    if (event.key === 'Escape' && event.target !== row) row.focus()
    else if (event.key === 'Enter' && event.target === row) {
      setOpen(true)
      row.querySelector<HTMLElement>('.line-fields input')?.focus()
      event.preventDefault()
    } else if (event.key === 'Enter' && (event.target as HTMLElement).matches('.line-fields input'))
      props.toNext()
  }
  return (
    <li
      ref={row}
      class={`sheet-line line-${props.work.state}`}
      data-line={props.work.original.line}
      tabIndex={-1}
      aria-label={lineName(props.work)}
      onKeyDown={onKey}
    >
      <p class="line-given">
        <span class="line-no">{props.work.original.line}</span>
        <span class="line-text">{props.work.original.text}</span>
      </p>
      <Show when={props.withSection && props.work.section}>
        <p class="small pencil">under {props.work.section}</p>
      </Show>
      <Switch>
        <Match when={props.work.state === 'out'}>
          <p class="line-says pencil cluster level">Not for the plan. It is named in the plan’s notices.</p>
        </Match>
        <Match when={props.work.line.kind === 'header'}>
          <p class="small pencil">Column headings.</p>
        </Match>
        <Match when={props.work.line.kind === 'section' && props.work.line}>
          {(section) => (
            <p class="line-says cluster level">
              {section().title} <span class="small pencil">a heading: a step of the plan</span>
            </p>
          )}
        </Match>
        <Match when={item()}>
          {(line) => (
            <p class="line-says cluster level">
              <span>{line().item || 'no name'}</span>{' '}
              <b>{props.work.state === 'open' ? 'no torque yet' : readWords(line())}</b>
              <ThreadWords thread={line().thread} />
              <Show when={line().grade}>
                <span class="small">{line().grade}</span>
              </Show>
              <span class="small pencil">
                {line().count === undefined ? 'how many is not said' : `${line().count} of them`}
                {line().use === 'one_use' ? ', new each time' : ''}
              </span>
            </p>
          )}
        </Match>
      </Switch>
      <Show when={props.work.state !== 'out' && props.work.doubt.length > 0}>
        <ul class="line-doubts stack" classList={{ settled: props.work.correction?.seen === true }}>
          <For each={props.work.doubt}>{(doubt) => <li>{doubt}</li>}</For>
        </ul>
      </Show>
      <Show when={props.work.state !== 'out' && item()?.told}>
        {(told) => (
          <ul class="line-told stack close small pencil">
            <For each={told()}>{(sentence) => <li>{sentence}</li>}</For>
          </ul>
        )}
      </Show>
      <div class="line-acts cluster">
        <Show when={isJoint(props.work)}>
          <ClassChoice work={props.work} onChoose={(jointClass) => correct({ class: jointClass })} />
        </Show>
        <For each={props.work.state === 'out' ? [] : props.work.offers}>
          {(text) => (
            <Button
              variant={props.work.offers.length === 1 ? 'main' : undefined}
              onClick={() => correct({ printed: text, open: undefined, seen: undefined })}
            >
              It says {text}
            </Button>
          )}
        </For>
        <Show when={props.work.state === 'stopped' || props.work.state === 'unread'}>
          <Button onClick={() => correct({ open: true })}>Leave without a torque</Button>
        </Show>
        <Show when={props.work.state === 'stopped'}>
          <Button onClick={() => correct({ as: 'out' })}>Leave this line out</Button>
        </Show>
        <Show when={props.work.state === 'look'}>
          <Button onClick={() => correct({ seen: true })}>Looked at: keep it</Button>
        </Show>
        <Show when={!open() && props.work.line.kind !== 'header'}>
          <Button
            variant="quiet"
            aria-label={`Correct ${lineName(props.work)}`}
            onClick={() => setOpen(true)}
          >
            Correct
          </Button>
        </Show>
      </div>
      <Show when={open() && props.work.line.kind !== 'header'}>
        <LineFields work={props.work} onCorrect={correct} />
      </Show>
    </li>
  )
}

function LineFields(props: { work: WorkLine; onCorrect(patch: Parameters<CorrectLine>[1]): void }) {
  const correction = () => props.work.correction
  const item = () => (props.work.line.kind === 'item' ? props.work.line : undefined)
  const as = (): (typeof AS)[number]['value'] =>
    props.work.state === 'out' ? 'out' : props.work.line.kind === 'section' ? 'heading' : 'joint'
  const counted = (text: string) => {
    const count = /^\s*\d{1,3}\s*$/.test(text) ? Number(text) : 0
    props.onCorrect({ count: count > 0 ? count : undefined })
  }
  return (
    <div class="line-fields">
      <Show when={as() === 'joint'}>
        <Field
          label={`Torque of ${lineName(props.work)}`}
          value={correction()?.printed ?? item()?.printed ?? ''}
          autocomplete="off"
          spellcheck={false}
          onValue={(printed) => props.onCorrect({ printed, seen: undefined, open: undefined })}
        />
        <Field
          label="Thread"
          value={correction()?.thread ?? item()?.thread ?? ''}
          autocomplete="off"
          spellcheck={false}
          onValue={(thread) => props.onCorrect({ thread, seen: undefined })}
        />
        <Field
          label="Grade"
          value={correction()?.grade ?? item()?.grade ?? ''}
          autocomplete="off"
          spellcheck={false}
          onValue={(grade) => props.onCorrect({ grade, seen: undefined })}
        />
        <Field
          label="How many"
          inputMode="numeric"
          value={`${correction()?.count ?? item()?.count ?? ''}`}
          autocomplete="off"
          onValue={counted}
        />
      </Show>
      <Select
        label="This line is"
        value={as()}
        options={AS}
        onValue={(value) => props.onCorrect({ as: value as NonNullable<Correction['as']> })}
      />
      <Show when={correction()}>
        <Button
          variant="quiet"
          onClick={() =>
            props.onCorrect({
              printed: undefined,
              thread: undefined,
              grade: undefined,
              count: undefined,
              open: undefined,
              as: undefined,
              seen: undefined,
            })
          }
        >
          As it was read
        </Button>
      </Show>
    </div>
  )
}

const readWords = ({ spec }: ItemLine): string => (spec ? specWords(spec) : 'not read')

function ThreadWords(props: { thread: string | undefined }) {
  const read = () => (props.thread === undefined ? undefined : threadRead(props.thread))
  return (
    <Show when={read()} fallback={<span class="small pencil">no thread</span>}>
      {(thread) => {
        const known = () => {
          const size = thread()
          return 'designation' in size ? size : undefined
        }
        return (
          <Show
            when={known()}
            fallback={
              <span class="small">
                {props.thread}: <span class="pencil">kept as it is, not computed with</span>
              </span>
            }
          >
            {(size) => <span class="strong">{size().designation}</span>}
          </Show>
        )
      }}
    </Show>
  )
}

/** Three presses side by side; none of them is pressed until its author says. */
function ClassChoice(props: { work: WorkLine; onChoose(jointClass: JointClass): void }) {
  const name = createUniqueId()
  return (
    <fieldset class="class-choice">
      <legend class="unseen">Class of {lineName(props.work)}</legend>
      <span class="class-word" aria-hidden="true">
        {props.work.correction?.class ? 'Class' : 'Class?'}
      </span>
      <For each={JOINT_CLASSES}>
        {(jointClass) => (
          <label title={CLASSES[jointClass]}>
            <input
              type="radio"
              name={name}
              checked={props.work.correction?.class === jointClass}
              onChange={() => props.onChoose(jointClass)}
              aria-label={`Class ${jointClass}: ${CLASSES[jointClass]}`}
            />
            <span aria-hidden="true">{jointClass}</span>
          </label>
        )}
      </For>
    </fieldset>
  )
}
