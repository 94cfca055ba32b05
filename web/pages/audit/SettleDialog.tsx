/** Settling a torque nobody published: what it rests on, the value and its limits, why. It stands in the record for ever. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import { sentenceFor } from '../../../shared/job/refusals'
import type { ValueBasis } from '../../../shared/job/types'
import { indexPlan } from '../../../shared/plan/read'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { Field } from '../../ui/Field'
import { Sentence } from '../../ui/Sentence'
import { planned, useDesk } from '../engine/desk'
import { fastenerWords } from '../engine/step-words'
import { EMPTY_FORM, type SettleForm, settle, type Wrong } from './settle-form'

const KINDS: readonly (readonly [ValueBasis['kind'], string, string])[] = [
  ['source', 'A source', 'a book, sheet or letter that can be found again'],
  ['computed', 'Reckoned', 'a method and what went into it, typed by hand'],
  ['word', 'A competent person’s word', 'nothing is printed, and they answer for it'],
]

export function SettleDialog(props: { joint: string; pass: number; onClose(): void }) {
  const desk = useDesk()
  const [form, setForm] = createSignal<SettleForm>(EMPTY_FORM)
  const [tried, setTried] = createSignal(false)
  const joint = () => indexPlan(planned(desk).plan).jointById.get(props.joint)
  const made = createMemo(() => settle(props.joint, props.pass, form()))
  const wrong = (): Wrong => {
    const one = made()
    return tried() && 'wrong' in one ? one.wrong : {}
  }
  const set = (field: keyof SettleForm) => (value: string) => setForm({ ...form(), [field]: value })
  /** Who may, asked with any value: the rest is the form's. */
  const refusal = createMemo(() =>
    desk.may({
      type: 'SettleValue',
      jointId: props.joint,
      pass: props.pass,
      torqueNm: 1,
      minNm: 1,
      maxNm: 1,
      basis: { kind: 'word', competence: '–' },
      reason: '–',
    }),
  )
  const save = (event: SubmitEvent) => {
    event.preventDefault()
    setTried(true)
    const one = made()
    if ('wrong' in one) {
      const sheet = event.currentTarget as HTMLFormElement
      // Drawn first; then the first field that is wrong has the focus.
      requestAnimationFrame(() =>
        sheet.querySelector<HTMLElement>('[aria-invalid="true"], .settle-kinds.is-wrong input')?.focus(),
      )
      return
    }
    desk.send(one.command)
    props.onClose()
  }
  const field = (name: keyof SettleForm, label: string, more: { hint?: string; long?: boolean } = {}) => (
    <Field
      label={label}
      {...more}
      value={form()[name]}
      wrong={wrong()[name]}
      maxLength={more.long ? 1000 : 200}
      onValue={set(name)}
    />
  )
  return (
    <Dialog open broad title="Settle a value" onClose={props.onClose}>
      <form class="settle" noValidate onSubmit={save}>
        <Show when={joint()}>
          {(one) => (
            <p>
              <b>{one().title}</b>, pass {props.pass}: {fastenerWords(one())}, {one().lubrication}, class{' '}
              {one().class}. The maker prints no torque for it.
            </p>
          )}
        </Show>
        <Show
          when={refusal()}
          fallback={
            <>
              <fieldset class="settle-kinds" classList={{ 'is-wrong': wrong().kind !== undefined }}>
                <legend>What does the value rest on?</legend>
                <For each={KINDS}>
                  {([kind, title, hint]) => (
                    <label>
                      <input
                        type="radio"
                        name="basis"
                        value={kind}
                        checked={form().kind === kind}
                        onChange={() => set('kind')(kind)}
                      />
                      <span>
                        <b>{title}</b>
                        <span class="pencil small">{hint}</span>
                      </span>
                    </label>
                  )}
                </For>
                <Show when={wrong().kind}>{(sentence) => <p class="against small">{sentence()}</p>}</Show>
              </fieldset>
              <Show when={form().kind === 'source'}>
                <div class="sheet-form">
                  {field('title', 'Title')}
                  {field('edition', 'Edition')}
                  {field('page', 'Page')}
                </div>
              </Show>
              <Show when={form().kind === 'computed'}>
                {field('method', 'Method')}
                {field('inputs', 'What went in', {
                  hint: 'Thread, grade, friction taken, share of yield: so that another can reckon it again.',
                  long: true,
                })}
              </Show>
              <Show when={form().kind === 'word'}>
                {field('competence', 'Whose word, and what makes them competent')}
              </Show>
              <div class="settle-values">
                {field('value', 'Torque, N·m')}
                {field('min', 'Lowest, N·m')}
                {field('max', 'Highest, N·m')}
              </div>
              {field('reason', 'Why this value for this joint', { long: true })}
              <Button type="submit" look="main" wide>
                Settle it: I answer for it
              </Button>
              <p class="pencil small">
                A settled value, what it rests on and your name stay in the record for ever. The maker’s
                current information goes before it.
              </p>
            </>
          }
        >
          {(no) => (
            <Sentence against>{sentenceFor(no() as Parameters<typeof sentenceFor>[0], desk.words)}</Sentence>
          )}
        </Show>
      </form>
    </Dialog>
  )
}
