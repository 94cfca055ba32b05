/**
 * The computed way: what is added to the plan, and the proposal it gives; or every reason against, greyed out.
 *
 * The table a hand would reach for stands there empty, with why: a value for steel bolts is worse than none where it does not hold.
 */
import { For, type JSX, Show } from 'solid-js'
import {
  HOLE_MATERIALS,
  LUBRICATIONS,
  mends,
  type ProposalJoint,
  type Proposed,
  proposalSentence,
} from '../../../shared/fastener'
import type { AdoptedJoint } from '../../../shared/plan/types'
import { format } from '../../format'
import { Button } from '../../ui/Button'
import { Field } from '../../ui/Field'
import { Select } from '../../ui/Select'
import { type FieldErrors, OWN_MATERIAL, type SettleForm } from './form'
import { ProposalShown } from './ProposalShown'
import '../../ui/unfold.css'

interface ComputedWayProps {
  joint: AdoptedJoint
  known: ProposalJoint
  proposed: Proposed
  form: SettleForm
  errors: FieldErrors
  onField(field: keyof SettleForm, value: string): void
}

export const refusedFor = (proposed: Proposed) =>
  'refusals' in proposed ? proposed.refusals.filter((one) => mends(one) === 'never') : []

export function ComputedWay(props: ComputedWayProps) {
  const never = () => refusedFor(props.proposed)
  const refusals = () => ('refusals' in props.proposed ? props.proposed.refusals : [])
  const has = (...codes: string[]) => refusals().some(({ refused }) => codes.includes(refused))
  /** What the plan's word could mean, as long as nobody has said it. */
  const could = (): readonly string[] =>
    refusals().flatMap((one) =>
      one.refused === 'lubrication_unclear'
        ? one.data.could
        : one.refused === 'lubrication_unknown'
          ? one.data.known
          : [],
    )
  const field = (name: keyof SettleForm, label: string, hint?: string): JSX.Element => (
    <Field
      label={label}
      hint={hint}
      inputmode={name === 'materialWords' || name === 'grade' ? 'text' : 'decimal'}
      value={props.form[name]}
      error={props.errors[name]}
      maxLength={name === 'materialWords' ? 100 : 20}
      onValue={(value) => props.onField(name, value)}
    />
  )
  return (
    <Show when={never().length === 0} fallback={<Refused joint={props.joint} proposed={props.proposed} />}>
      <div class="sheet-form">
        <Material form={props.form} known={props.known} onField={props.onField} />
        <Show when={props.form.material === OWN_MATERIAL}>
          {field('materialWords', 'What it is, and whose figure')}
          {field('shear', 'Shear strength, MPa')}
        </Show>
        {field(
          'engagement',
          'Engaged thread, mm',
          props.known.engagementMm === undefined
            ? undefined
            : `${format.number(props.known.engagementMm, 1)} by plan and register`,
        )}
        {field('utilisation', 'Share of yield', '0.9 unless entered')}
        <Show when={has('grade_unknown', 'grade_unclear', 'input_missing') || props.form.grade !== ''}>
          {field('grade', 'Property class on the head', `the plan says “${props.joint.grade}”`)}
        </Show>
      </div>
      <Show when={could().length > 0 || props.form.lubrication !== ''}>
        <fieldset class="stack">
          <legend>The plan says “{props.joint.lubrication}”. What is on thread and head?</legend>
          <div class="cluster roomy">
            <For each={LUBRICATIONS.filter((id) => could().includes(id) || id === props.form.lubrication)}>
              {(id) => (
                <Button
                  aria-pressed={props.form.lubrication === id}
                  onClick={() => props.onField('lubrication', props.form.lubrication === id ? '' : id)}
                >
                  {id.replace(/_/g, ' ')}
                </Button>
              )}
            </For>
          </div>
        </fieldset>
      </Show>
      <details
        class="proposal-more unfold"
        open={
          has(
            'lubrication_unknown',
            'lubrication_unclear',
            'stainless_needs_lubricant',
            'friction_missing',
          ) || undefined
        }
      >
        <summary>Measured friction, head and hole</summary>
        <div class="sheet-form">
          {field('frictionLow', 'Friction, lowest', `${props.joint.lubrication} by the plan`)}
          {field('frictionHigh', 'Friction, highest')}
          {field('head', 'Head bears on, mm', 'a plain hexagon head unless entered')}
          {field('clearance', 'Clearance hole, mm', 'medium unless entered')}
        </div>
      </details>
      <Show
        when={'proposal' in props.proposed && props.proposed.proposal}
        fallback={
          <div class="way-asked sentence stack" role="status">
            <p>
              <b>Nothing is proposed yet.</b>
            </p>
            <ul class="bulleted stack">
              <For each={refusals()}>{(one) => <li>{proposalSentence(one, format)}</li>}</For>
            </ul>
          </div>
        }
      >
        {(proposal) => <ProposalShown proposal={proposal()} />}
      </Show>
    </Show>
  )
}

function Material(props: Pick<ComputedWayProps, 'form' | 'known' | 'onField'>) {
  return (
    <Select
      label="The thread goes into"
      value={props.form.material}
      empty={props.known.holeMaterial ? `${props.known.holeMaterial}, by the plan` : 'not known yet'}
      options={[
        ...HOLE_MATERIALS.map(({ id, words }) => ({ value: id, title: words })),
        { value: OWN_MATERIAL, title: 'another: shear strength known' },
      ]}
      onValue={(material) => props.onField('material', material)}
    />
  )
}

/** Where a hand would still reach for the table of steel bolts. */
const NOT_STEEL: readonly string[] = ['not_a_clamp', 'thread_other_form', 'grade_without_formula']
const STEEL_CLASSES = ['8.8', '10.9', '12.9']

function Refused(props: { joint: AdoptedJoint; proposed: Proposed }) {
  return (
    <div class="way-refused stack roomy">
      <p class="way-refused-head">
        <b>The formulas do not hold here.</b>
      </p>
      <ul class="bulleted stack">
        <For each={refusedFor(props.proposed)}>{(one) => <li>{proposalSentence(one, format)}</li>}</For>
      </ul>
      <Show
        when={NOT_STEEL.some((code) => refusedFor(props.proposed).some(({ refused }) => refused === code))}
      >
        <figure class="steel-table stack">
          <table>
            <caption>A general table for steel bolts, {props.joint.thread}</caption>
            <tbody>
              <tr>
                <For each={STEEL_CLASSES}>{(grade) => <th scope="col">{grade}</th>}</For>
              </tr>
              <tr>
                <For each={STEEL_CLASSES}>
                  {() => (
                    <td>
                      <span aria-hidden="true">–</span>
                      <span class="unseen">no value</span>
                    </td>
                  )}
                </For>
              </tr>
            </tbody>
          </table>
          <figcaption>
            Left empty on purpose: this is {article(props.joint.grade)} {props.joint.grade}{' '}
            {props.joint.fastener}, {props.joint.thread}, and a figure for steel bolts does not apply to it.
          </figcaption>
        </figure>
      </Show>
    </div>
  )
}

const article = (word: string): string => (/^(?:[aeiou]|8|11|18)/i.test(word) ? 'an' : 'a')
