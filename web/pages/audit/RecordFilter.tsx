/** Narrows the record: by words, verdict, person, wrench, stage and joint; says what is shown of how much. */
import { createMemo, For, Show } from 'solid-js'
import { countLines, countWords, isEmpty, occurring, type Query } from '../../job/record/rows'
import { type AuditLine, VERDICTS, type Verdict } from '../../job/record/verdict'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'

interface RecordFilterProps {
  query: Query
  onChange(query: Query): void
  lines: readonly AuditLine[]
  shown: readonly AuditLine[]
  onNext(): void
}

const VERDICT_WORDS: Record<Verdict, string> = {
  open: 'open: passes to go',
  flagged: 'a flag stands',
  final: 'final, not signed by all',
  accepted: 'accepted, not proven',
  proven: 'proven',
}

export function RecordFilterBar(props: RecordFilterProps) {
  const scope = useJob()
  const who = createMemo(() => occurring(props.lines))
  const plan = () => scope.planned().plan
  const joints = createMemo(() =>
    plan()
      .steps.filter((step) => !props.query.stage || step.stage === props.query.stage)
      .flatMap((step) => step.joints),
  )
  const set = (part: Partial<Query>) => props.onChange({ ...props.query, ...part })
  const chosen = (value: string) => (value === '' ? undefined : value)
  return (
    <search class="record-filter" aria-label="The record">
      <label class="filter-text">
        <span>Find</span>
        <input
          type="search"
          value={props.query.text ?? ''}
          placeholder="bolt, person, wrench, flag"
          onInput={(event) => set({ text: chosen(event.currentTarget.value) })}
        />
      </label>
      <Choose
        label="Verdict"
        value={props.query.verdict}
        all="all"
        options={VERDICTS.map((verdict) => [verdict, VERDICT_WORDS[verdict]])}
        onChoose={(value) => set({ verdict: value as Verdict | undefined })}
      />
      <Choose
        label="Stage"
        value={props.query.stage}
        all="every stage"
        options={plan().stages.map((stage) => [stage.id, `${stage.id} ${stage.title}`])}
        onChoose={(stage) => set({ stage, joint: undefined })}
      />
      <Choose
        label="Joint"
        value={props.query.joint}
        all="every joint"
        options={joints().map((joint) => [joint.id, joint.title])}
        onChoose={(joint) => set({ joint })}
      />
      <Choose
        label="Person"
        value={props.query.person}
        all="everybody"
        options={who().people.map((id) => [id, scope.words.person(id)])}
        onChoose={(person) => set({ person })}
      />
      <Choose
        label="Wrench"
        value={props.query.wrench}
        all="every wrench"
        options={who().wrenches.map((id) => [id, id])}
        onChoose={(wrench) => set({ wrench })}
      />
      <p class="filter-count" role="status">
        {countWords(countLines(props.shown))}
        <Show when={!isEmpty(props.query)}>
          <span class="pencil">, of {props.lines.length}</span>{' '}
          <button type="button" class="text-button" onClick={() => props.onChange({})}>
            Show all
          </button>
        </Show>
      </p>
      <div class="filter-do">
        <Button onClick={props.onNext}>
          Next open <kbd>n</kbd>
        </Button>
        <Button onClick={() => window.print()}>Print the record</Button>
      </div>
    </search>
  )
}

interface ChooseProps {
  label: string
  value: string | undefined
  all: string
  options: readonly (readonly [value: string, text: string])[]
  onChoose(value: string | undefined): void
}

function Choose(props: ChooseProps) {
  return (
    <label>
      <span>{props.label}</span>
      <select
        value={props.value ?? ''}
        onChange={(event) =>
          props.onChoose(event.currentTarget.value === '' ? undefined : event.currentTarget.value)
        }
      >
        <option value="">{props.all}</option>
        <For each={props.options}>
          {([value, text]) => (
            <option value={value} selected={value === props.value}>
              {text}
            </option>
          )}
        </For>
      </select>
    </label>
  )
}
