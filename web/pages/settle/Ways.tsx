/** The three ways to a value, side by side, and the word that settles it. */
import { createMemo, createSignal, type JSX, type ParentProps, Show } from 'solid-js'
import { doubtsInWords, type ProposalJoint } from '../../../shared/fastener'
import { judgeDecided, proposeFor } from '../../../shared/job/proposal'
import type { ValueBasis } from '../../../shared/job/types'
import type { AdoptedJoint } from '../../../shared/plan/types'
import { limitsWords } from '../../../shared/plan/words'
import { BandBar } from '../../drawings/BandBar'
import { format } from '../../format'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { Field } from '../../ui/Field'
import { Form } from '../../ui/Form'
import { Sentence } from '../../ui/Sentence'
import { ComputedWay, refusedFor } from './ComputedWay'
import {
  addedIn,
  EMPTY_FORM,
  type FieldErrors,
  numberIn,
  proposalOf,
  type SettleForm,
  settle,
  valuesShown,
} from './form'
import './ways.css'
import './sign.css'
import { FIELD_WORDS } from '../../../shared/format/field-words'

type Kind = ValueBasis['kind']

export function Ways(props: { joint: AdoptedJoint; pass: number; known: ProposalJoint; onSettled(): void }) {
  const scope = useJob()
  const [form, setForm] = createSignal<SettleForm>(EMPTY_FORM)
  const [tried, setTried] = createSignal(false)
  const [refusedAsImpossible, setRefusedAsImpossible] = createSignal(false)
  const set = (field: keyof SettleForm, value: string) => {
    setRefusedAsImpossible(false)
    setForm({ ...form(), [field]: value })
  }
  const proposed = createMemo(() =>
    proposeFor(scope.job(), props.joint, props.pass, scope.shop().tolerances, addedIn(form()).added),
  )
  const settled = createMemo(() =>
    settle(props.joint.id, props.pass, form(), proposed(), props.known.tolerancePct),
  )
  const errors = (): FieldErrors => {
    const result = settled()
    return {
      ...(form().kind === 'computed' ? addedIn(form()).errors : {}),
      ...(tried() && 'errors' in result ? result.errors : {}),
    }
  }
  const shown = createMemo(() =>
    valuesShown(form(), proposalOf(form(), proposed()), props.known.tolerancePct),
  )
  /** What the value would do to the joint, where that speaks against it; a proposal was held below it from the start. */
  const judged = createMemo(() => {
    const [torqueNm, minNm, maxNm] = [shown().value, shown().min, shown().max].map(numberIn)
    if (!torqueNm || minNm === undefined || maxNm === undefined || form().kind === 'computed')
      return undefined
    const found = judgeDecided(scope.job(), props.joint, props.pass, scope.shop().tolerances, {
      torqueNm,
      minNm,
      maxNm,
    })
    return found.verdict === 'implausible' || found.verdict === 'impossible' ? found : undefined
  })
  const save = () => {
    setTried(true)
    const result = settled()
    if ('errors' in result) return false
    const refused = scope.may(result.command)
    setRefusedAsImpossible(refused?.code === 'torque_impossible')
    if (refused) return refused.sentence
    void scope.send(result.command)
  }
  const field = (name: keyof SettleForm, label: string, more: { hint?: string; long?: boolean } = {}) => (
    <Field
      label={label}
      {...more}
      value={form()[name]}
      error={errors()[name]}
      maxLength={more.long ? 500 : name === 'title' || name === 'competence' ? 200 : 80}
      onValue={(value) => set(name, value)}
    />
  )
  const number = (name: 'value' | 'min' | 'max', label: string) => (
    <Field
      label={label}
      inputmode="decimal"
      value={shown()[name]}
      error={errors()[name]}
      maxLength={12}
      onValue={(value) => set(name, value)}
    />
  )
  const choose = (kind: Kind) => form().kind !== kind && set('kind', kind)
  return (
    <Form class="settle-form stack apart" onSubmit={save} onDone={props.onSettled}>
      <fieldset class="ways" aria-invalid={errors().kind ? true : undefined}>
        <legend>What does the value rest on?</legend>
        <Way
          kind="source"
          title="A source"
          hint="a book, sheet or letter that can be found again"
          chosen={form().kind}
          onChoose={choose}
        >
          {field('title', FIELD_WORDS.title)}
          <div class="sheet-form">
            {field('edition', FIELD_WORDS.edition)}
            {field('page', FIELD_WORDS.page)}
          </div>
        </Way>
        <Way
          kind="computed"
          title="Computed"
          hint="from friction, thread and hole, capped by the weakest link"
          chosen={form().kind}
          refused={refusedFor(proposed()).length > 0}
          onChoose={choose}
        >
          <ComputedWay
            joint={props.joint}
            known={props.known}
            proposed={proposed()}
            form={form()}
            errors={errors()}
            onField={set}
          />
        </Way>
        <Way
          kind="word"
          title="A competent person’s word"
          hint="nothing is printed, and they answer for it"
          chosen={form().kind}
          onChoose={choose}
        >
          {field('competence', 'Whose word, and what makes them competent')}
        </Way>
        <Show when={errors().kind}>{(sentence) => <p class="ways-wrong against">{sentence()}</p>}</Show>
      </fieldset>
      <section class="settle-sign" aria-labelledby="settle-sign-head">
        <h2 id="settle-sign-head">The value, signed</h2>
        <div>
          <div class="settle-values">
            {number('value', FIELD_WORDS.torqueNm)}
            {number('min', FIELD_WORDS.minNm)}
            {number('max', FIELD_WORDS.maxNm)}
          </div>
          <Preview shown={shown()} />
          <p class="small pencil">
            Limits are proposed from this shop’s {format.number(props.known.tolerancePct, 1)} % for class{' '}
            {props.joint.class}; type your own where the joint asks for others.
          </p>
        </div>
        <div>
          {/* The refusal says the same, and what to do. */}
          <Show when={!refusedAsImpossible() && judged()}>
            {(found) => (
              <Sentence against>
                {found().verdict === 'impossible' ? 'This cannot be right' : 'Look at this again'}.{' '}
                {doubtsInWords(found(), format).join(' ')}
              </Sentence>
            )}
          </Show>
          {field('reason', 'Why this value for this joint', { long: true })}
          <Button type="submit" variant="main" wide>
            Decide torque: I answer for it
          </Button>
          <p class="small pencil">
            The value, what it rests on and your name stay in the record for ever. The maker’s current
            information goes before it.
          </p>
        </div>
      </section>
    </Form>
  )
}

/** The limits as the bench will show them, once they can be drawn. */
function Preview(props: { shown: Pick<SettleForm, 'value' | 'min' | 'max'> }) {
  const band = createMemo(() => {
    const [value, min, max] = [
      numberIn(props.shown.value),
      numberIn(props.shown.min),
      numberIn(props.shown.max),
    ]
    return value && min !== undefined && max !== undefined && min <= value && value <= max
      ? { value, min, max }
      : undefined
  })
  return (
    <Show when={band()}>
      {(at) => (
        <BandBar
          min={at().min}
          max={at().max}
          target={at().value}
          ticks={[]}
          show={(nm) => format.torque(nm, 'N·m')}
          label={`Limits ${limitsWords({ min: at().min, max: at().max, unit: 'N·m' }, format)} around ${format.torque(at().value, 'N·m')} N·m`}
        />
      )}
    </Show>
  )
}

interface WayProps {
  kind: Kind
  title: string
  hint: string
  chosen: SettleForm['kind']
  refused?: boolean
  onChoose(kind: Kind): void
}

/** One way: chosen by its head, or by the first thing typed into it. */
function Way(props: ParentProps<WayProps>): JSX.Element {
  return (
    <div
      class={`way way-${props.kind}`}
      classList={{ 'is-chosen': props.chosen === props.kind, 'is-refused': props.refused === true }}
      onInput={() => !props.refused && props.onChoose(props.kind)}
    >
      <label class="way-head">
        <input
          type="radio"
          name="basis"
          value={props.kind}
          checked={props.chosen === props.kind}
          disabled={props.refused}
          onChange={() => props.onChoose(props.kind)}
        />
        <span>
          <b>{props.title}</b>
          <span class="pencil small">{props.refused ? 'refused for this joint' : props.hint}</span>
        </span>
      </label>
      <div class="way-form stack airy">{props.children}</div>
    </div>
  )
}
