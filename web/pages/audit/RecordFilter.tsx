/** Narrows the record: by words, verdict, person, wrench, stage and joint; says what is shown of how much. */
import { Show } from 'solid-js'
import { counted } from '../../../shared/words'
import { countWords, isEmpty, type occurring, type Query } from '../../job/record/rows'
import { type AuditLine, VERDICTS, type Verdict } from '../../job/record/verdict'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { Select } from '../../ui/Select'
import { createSame } from '../../ui/same'

interface RecordFilterProps {
  query: Query
  onChange(query: Query): void
  lines: readonly AuditLine[]
  /** People and wrenches that occur in them. */
  who: ReturnType<typeof occurring>
  shown: readonly AuditLine[]
  onNext(): void
}

const VERDICT_WORDS: Record<Verdict, string> = {
  open: 'open: not tightened through',
  flagged: 'flagged',
  final: 'final, not signed by all',
  accepted: 'accepted with a reason',
  proven: 'signed off',
}

export function RecordFilterBar(props: RecordFilterProps) {
  const scope = useJob()
  const people = createSame(() =>
    props.who.people.map((id) => ({ value: id, title: scope.words.person(id) })),
  )
  const wrenches = createSame(() => props.who.wrenches.map((id) => ({ value: id, title: id })))
  const plan = () => scope.planned().plan
  const stages = createSame(() =>
    plan().stages.map((stage) => ({ value: stage.id, title: `${stage.id} ${stage.title}` })),
  )
  const joints = createSame(() =>
    plan()
      .steps.filter((step) => !props.query.stage || step.stage === props.query.stage)
      .flatMap((step) => step.joints.map((joint) => ({ value: joint.id, title: joint.title }))),
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
      <Select
        label="Verdict"
        empty="all"
        value={props.query.verdict ?? ''}
        options={VERDICTS.map((verdict) => ({ value: verdict, title: VERDICT_WORDS[verdict] }))}
        onValue={(value) => set({ verdict: chosen(value) as Verdict | undefined })}
      />
      <Select
        label="Stage"
        empty="every stage"
        value={props.query.stage ?? ''}
        options={stages()}
        onValue={(stage) => set({ stage: chosen(stage), joint: undefined })}
      />
      <Select
        label="Joint"
        empty="every joint"
        value={props.query.joint ?? ''}
        options={joints()}
        onValue={(joint) => set({ joint: chosen(joint) })}
      />
      <Select
        label="Person"
        empty="everybody"
        value={props.query.person ?? ''}
        options={people()}
        onValue={(person) => set({ person: chosen(person) })}
      />
      <Select
        label="Wrench"
        empty="every wrench"
        value={props.query.wrench ?? ''}
        options={wrenches()}
        onValue={(wrench) => set({ wrench: chosen(wrench) })}
      />
      <p class="filter-count" role="status">
        {countWords(props.shown)}
        <Show when={!isEmpty(props.query)}>
          <span class="pencil">
            ; the whole record has{' '}
            {counted(props.lines.filter(({ recheckOf }) => !recheckOf).length, 'fastener')}.
          </span>{' '}
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
