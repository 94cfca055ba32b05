/** The value in force, who answers for it and on what; and what was settled here before, the last first. */
import { For, Show } from 'solid-js'
import { basisWords } from '../../../shared/job/trail/sentences'
import type { SettledValue } from '../../../shared/job/types'
import { bandWords } from '../../../shared/plan/words'
import { BandBar } from '../../drawings/BandBar'
import { format } from '../../format'
import { useJob } from '../../job/scope'
import { settlings, valueWords } from '../../job/settled/settled-words'
import { Stripe } from '../../people/Stripe'
import { ProposalShown, sentence } from './ProposalShown'

const WAYS: Record<SettledValue['basis']['kind'], string> = {
  source: 'a source',
  computed: 'computed',
  word: 'a competent person’s word',
}

export function History(props: { value: SettledValue }) {
  const scope = useJob()
  const before = () => settlings(props.value).slice(1)
  const proposal = () => (props.value.basis.kind === 'computed' ? props.value.basis.proposal : undefined)
  return (
    <section class="settle-force" aria-labelledby="settle-force-head">
      <div class="settle-plate stack">
        <h2 id="settle-force-head">In force</h2>
        <p class="settle-figure">
          {format.torque(props.value.torqueNm, 'N·m')} <span>N·m</span>
        </p>
        <p>
          {bandWords(props.value.band, format)}; <b>{WAYS[props.value.basis.kind]}</b>
        </p>
        <BandBar
          min={props.value.band.minNm}
          max={props.value.band.maxNm}
          target={props.value.torqueNm}
          ticks={[]}
          show={(nm) => format.torque(nm, 'N·m')}
          label={`Limits ${bandWords(props.value.band, format)}`}
        />
        <Show when={!proposal()}>
          <p>{sentence(basisWords(props.value.basis))}</p>
        </Show>
        <p class="strong">“{props.value.reason}”</p>
        <p class="by-line cluster">
          <Stripe person={props.value.by} name="after" /> {scope.words.moment(props.value.doneAt)}
        </p>
      </div>
      <Show when={proposal()}>{(reckoned) => <ProposalShown proposal={reckoned()} folded />}</Show>
      <Show when={before().length > 0}>
        <div class="settle-before">
          <h3>Decided here before</h3>
          <ol class="lines">
            <For each={before()}>
              {(one) => (
                <li>
                  {valueWords(one)}. “{one.reason}” <Stripe person={one.by} name="after" />{' '}
                  {scope.words.moment(one.doneAt)}
                </li>
              )}
            </For>
          </ol>
        </div>
      </Show>
    </section>
  )
}
