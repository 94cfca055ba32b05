/** The last part of a sheet: what the plan is called and where its values come from; then it is a draft to be finished. */
import { createMemo, createSignal, Show } from 'solid-js'
import type { Instant } from '../../../../shared/log'
import type { ShopScope } from '../../../shop/scope'
import { Field } from '../../../ui/Field'
import { Form } from '../../../ui/Form'
import type { Draft } from '../draft/shelf'
import { draftFrom, freeEdition, idFrom } from './make-draft'
import type { SheetCounts, WorkLine } from './sheet-work'

interface MakePlanProps {
  scope: ShopScope
  lines: readonly WorkLine[]
  counts: SheetCounts
  onMade(draft: Draft): Promise<void>
  now(): Instant
}

/** The first impossible line with its reason, and how many more. */
function stoppedWords([first, ...more]: readonly WorkLine[]): string {
  const { line, text } = first?.original ?? { line: 0, text: '' }
  const name = first?.line.kind === 'item' && first.line.item ? first.line.item : text.trim()
  return [
    `Line ${line} (${name}) stops the plan: ${first?.doubt[0] ?? ''}`,
    more.length > 0
      ? `${more.length === 1 ? 'One more line does' : `${more.length} more lines do`} too.`
      : '',
    'Correct it, leave it out, or leave it without a torque.',
  ]
    .filter(Boolean)
    .join(' ')
}

const ID = /^[\p{L}\p{N}][\p{L}\p{N}._-]{0,39}$/u

export function MakePlan(props: MakePlanProps) {
  const [title, setTitle] = createSignal('')
  const [ownId, setOwnId] = createSignal<string>()
  const [family, setFamily] = createSignal('')
  const [source, setSource] = createSignal('')
  const [tried, setTried] = createSignal(false)
  const id = () => ownId() ?? idFrom(title())
  const edition = () => freeEdition(props.scope.shop().plans[id()])
  const families = createMemo(() => [
    ...new Set(
      Object.values(props.scope.shop().plans).flatMap((all) => Object.values(all).map((plan) => plan.family)),
    ),
  ])
  const errors = {
    title: () => (tried() && !title().trim() ? 'Give the plan a title.' : undefined),
    id: () =>
      tried() && !ID.test(id())
        ? 'Letters, digits, full stop, hyphen and underscore, a letter or digit first; 40 at most.'
        : undefined,
    family: () => (tried() && !family().trim() ? 'Name the family, as in diesel.' : undefined),
    source: () => (tried() && !source().trim() ? 'Say where the values come from.' : undefined),
  }
  const stopped = createMemo(() => props.lines.filter(({ state }) => state === 'stopped'))
  const missing = () =>
    stopped().length > 0
      ? stoppedWords(stopped())
      : props.counts.withoutClass > 0
        ? `${props.counts.withoutClass} of the lines have no class yet. Say it line by line, or take all of them as B.`
        : props.counts.read + props.counts.look + props.counts.unread + props.counts.open === 0
          ? 'No line is a fastener yet. Look at the columns, or say it of a line.'
          : undefined
  const open = () => props.counts.look + props.counts.unread + stopped().length

  async function make(): Promise<false | undefined> {
    setTried(true)
    if (missing() || Object.values(errors).some((error) => error())) return false
    const plan = draftFrom(props.lines, {
      id: id(),
      title: title().trim(),
      family: family().trim(),
      source: source().trim(),
      edition: edition(),
    })
    const at = props.now()
    await props.onMade({ id: `d-${at.toString(36)}`, plan, changedAt: at })
  }

  return (
    <Form
      class="make-plan sheet-form"
      aria-labelledby="make-title"
      submitLabel="Make the draft and open it"
      error={tried() ? missing() : undefined}
      onSubmit={make}
    >
      <h3 id="make-title" class="whole">
        Make a plan of it
      </h3>
      <p class="whole">
        A step for each heading or group, a joint for each line.{' '}
        <Show when={open() > 0}>
          {open() === 1 ? 'One line is' : `${open()} lines are`} still to look at. What is not read, or
          contradicts itself, comes into the plan without a torque, its text beside it.
        </Show>
      </p>
      <Field
        label="Title of the plan"
        value={title()}
        maxLength={160}
        onValue={setTitle}
        error={errors.title()}
      />
      <Field
        label="Its id in the library"
        value={id()}
        hint={edition() > 1 ? `The library has it: this will be edition ${edition()}.` : 'Edition 1.'}
        onValue={setOwnId}
        error={errors.id()}
      />
      <Field
        label="Family of engines"
        value={family()}
        list="sheet-families"
        hint="What people are entitled by, as in diesel."
        maxLength={40}
        onValue={setFamily}
        error={errors.family()}
      />
      <datalist id="sheet-families">
        {families().map((family) => (
          <option value={family} />
        ))}
      </datalist>
      <Field
        label="Source of the values"
        value={source()}
        hint="Title, edition and page of the maker’s manual."
        maxLength={400}
        onValue={setSource}
        error={errors.source()}
      />
    </Form>
  )
}
