/** What to set on which wrench of the crib, through the adapter; best first, and what speaks against each. */
import { For, Index, Show } from 'solid-js'
import type { Wrench } from '../../../shared/shop/types'
import { specPassWords } from '../../../shared/spec'
import { againstWrench, type Picked } from '../../../shared/wrench'
import { Lever } from '../../drawings/Lever'
import { format } from '../../format'
import { SelectInput, TextInput, useCalculator } from './fields'
import { Answer, Row } from './sheet'
import { computedNm } from './words'
import type { Target } from './wrench'

/** The rest of a crib that does not fit is one touch further: it is not what is looked for. */
const SHOWN_FIRST = 3

export function WrenchRow() {
  const { calculation } = useCalculator()
  const torques = () => {
    const { printed } = calculation()
    return printed.state === 'read'
      ? printed.spec.passes.flatMap((pass, i) =>
          pass.kind === 'torque'
            ? [{ value: String(i + 1), title: `${i + 1}: ${specPassWords(pass, format)}` }]
            : [],
        )
      : []
  }
  return (
    <Row
      title="The wrench"
      asks={
        <>
          <Show when={torques().length > 1}>
            <SelectInput field="pass" options={[{ value: '', title: 'the last torque' }, ...torques()]} />
          </Show>
          <div class="desk-pair">
            <TextInput
              field="adapterLength"
              hint="Crowfoot: drive to fastener. A straight socket extension changes nothing."
              inputMode="decimal"
            />
            <TextInput
              field="adapterAngle"
              hint="0 straight out, 90 no change, 180 back along the handle."
              inputMode="decimal"
            />
            <TextInput
              field="wrenchLength"
              hint="Drive to grip, where the card has none."
              inputMode="decimal"
            />
            <TextInput
              field="tolerance"
              hint="The shop’s for critical joints unless entered."
              inputMode="decimal"
            />
          </div>
        </>
      }
    >
      <Answer title="What to set" part={calculation().wrench}>
        {(answer) => (
          <>
            <Show when={calculation().target}>{(target) => <p>{targetWords(target())}</p>}</Show>
            <Show when={answer().typed}>
              {(typed) => (
                <p>
                  Any wrench of {format.number(typed().adapter.wrenchMm, 1)} mm with this adapter is set to{' '}
                  <strong>
                    {computedNm(typed().settingNm)} N·m ({format.torque(typed().settingNm, 'lbf·ft')} lbf·ft)
                  </strong>
                  : {computedNm(calculation().target?.torqueNm ?? 0)} ×{' '}
                  {format.number(typed().adapter.wrenchMm, 1)} / ({format.number(typed().adapter.wrenchMm, 1)}{' '}
                  + {format.number(typed().adapter.adapterMm, 1)} · cos{' '}
                  {format.number(typed().adapter.angleDeg, 1)}°).
                </p>
              )}
            </Show>
            <Show when={answer().drawn}>
              {(drawn) => (
                <Lever
                  adapter={drawn().lever}
                  label={`${format.number(drawn().lever.wrenchMm, 1)} mm of ${drawn().whose}, the adapter ${format.number(drawn().lever.adapterMm, 1)} mm at ${format.number(drawn().lever.angleDeg, 1)}°`}
                  width={340}
                  height={150}
                />
              )}
            </Show>
            <Show
              when={answer().ranked.length > 0}
              fallback={
                <Show when={answer().toMeasure.length === 0}>
                  <p>The crib holds no torque wrench. The supervisor enters wrenches on the shop page.</p>
                </Show>
              }
            >
              <Ranking ranked={answer().ranked} />
            </Show>
            <Show when={answer().toMeasure.length > 0}>
              <p class="desk-against">
                With an adapter the wrench’s own length counts, and it is not known of{' '}
                {answer()
                  .toMeasure.map(({ id }: Wrench) => id)
                  .join(', ')}
                . Measure from the middle of the drive to the middle of the grip and enter it.
              </p>
            </Show>
          </>
        )}
      </Answer>
    </Row>
  )
}

function Ranking(props: { ranked: readonly Picked[] }) {
  const fit = () => props.ranked.filter(({ fits }) => fits)
  const unfit = () => props.ranked.filter(({ fits }) => !fits)
  return (
    <>
      <Show when={fit().length === 0}>
        <p class="sentence against">No wrench of the crib can do this torque.</p>
      </Show>
      <Show when={fit()[0]?.away}>
        {(away) => (
          <p class="desk-against">
            {fit()[0]?.wrench.id} suits it best, and is {away()}: ask before it is taken.
          </p>
        )}
      </Show>
      <ol class="desk-wrenches">
        <Index each={fit().slice(0, SHOWN_FIRST)}>
          {(picked, i) => <WrenchLine picked={picked()} best={i === 0 && picked().away === undefined} />}
        </Index>
      </ol>
      <Show when={fit().length + unfit().length > Math.min(SHOWN_FIRST, fit().length)}>
        <details class="desk-more">
          <summary>The others, and why not</summary>
          <ol class="desk-wrenches">
            <For each={[...fit().slice(SHOWN_FIRST), ...unfit()]}>
              {(picked) => <WrenchLine picked={picked} best={false} />}
            </For>
          </ol>
        </details>
      </Show>
    </>
  )
}

function WrenchLine(props: { picked: Picked; best: boolean }) {
  const against = () => againstWrench(props.picked, format)
  return (
    <li classList={{ 'desk-best': props.best, 'desk-unfit': !props.picked.fits }}>
      <span class="desk-wrench-id strong">{props.picked.wrench.id}</span>
      <span class="desk-wrench-set strong large">
        <Show when={props.picked.fits && props.picked.setting} fallback="does not fit">
          {(setting) => (
            <>
              {format.number(setting().value, 2)} {setting().unit}
            </>
          )}
        </Show>
      </span>
      <span class="desk-wrench-words">
        {props.picked.wrench.title}
        <Show when={props.picked.fits && props.picked.setting}>
          {(setting) => (
            <span class="pencil">
              {' '}
              puts {format.number(setting().appliesNm, 2)} N·m on the fastener
              {setting().inBand ? ', in the band' : ', outside the band'}
              <Show when={props.picked.room?.can && props.picked.room}>
                {(room) => (
                  <>
                    ; from {format.number(room().low, 1)} to {format.number(room().high, 1)} it surely stays
                    there
                  </>
                )}
              </Show>
            </span>
          )}
        </Show>
        <Show when={against().length > 0}>
          <span class="desk-wrench-against">{against().join('; ')}</span>
        </Show>
      </span>
    </li>
  )
}

function targetWords({ torqueNm, minNm, maxNm, from, limits, tolerancePct }: Target): string {
  const torque = `${from === 'printed' ? format.number(torqueNm, 2) : computedNm(torqueNm)} N·m`
  const band = `${computedNm(minNm)} to ${computedNm(maxNm)} N·m`
  const why = limits === 'printed' ? 'as printed' : `±${format.number(tolerancePct, 1)}\u00A0%`
  return `For ${torque} ${from === 'printed' ? 'as the manual prints it' : 'as recommended above, not printed by the maker'}; band ${band} (${why}).`
}
