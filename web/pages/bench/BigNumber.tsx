/** The one huge number, in the unit of the wrench in hand; under it what is asked, what it applies, and the band. */
import { A } from '@solidjs/router'
import { createMemo, Match, Show, Switch } from 'solid-js'
import { standingReading } from '../../../shared/job/verdicts'
import type { Band } from '../../../shared/plan/types'
import { bandWords } from '../../../shared/plan/words'
import { fromNm, type TorqueUnit } from '../../../shared/units'
import { BandBar, type BandTick } from '../../drawings/BandBar'
import { Lever } from '../../drawings/Lever'
import { format } from '../../format'
import { settleHref } from '../../hrefs'
import { useJob } from '../../job/scope'
import { settledWords, whoSettles } from '../../job/settled/settled-words'
import { adapterWords } from './adapter'
import { useBench } from './bench'
import { targetOf } from './phase'
import { appliesWords, bandSource, shownOn } from './wrench'
import './number.css'

export function BigNumber() {
  const bench = useBench()
  const scope = useJob()
  const target = () => targetOf(bench.sheet())
  const setting = createMemo(() => {
    const picked = bench.wrenchChoice()
    return picked?.setting && { ...picked.setting, shown: shownOn(picked.setting, picked.wrench) }
  })
  /** What is asked is what stands on the scale: nothing more to say of it. */
  const plain = () => {
    const set = setting()
    return set?.unit === 'N·m' && !bench.adapter() && set.value === target()
  }
  const angle = () => {
    const sheet = bench.sheet()
    return sheet?.kind === 'angle' ? sheet.angleDeg : undefined
  }
  const slack = () => {
    const sheet = bench.sheet()
    return sheet?.kind === 'slacken' ? sheet : undefined
  }
  const wait = () => {
    const sheet = bench.sheet()
    return sheet?.kind === 'wait' ? sheet : undefined
  }
  const scale = () => bench.scale()
  /** Set as asked through an adapter: the line above has just said what that applies. */
  const saidAbove = () => bench.adapter() !== undefined && scale()?.value === setting()?.value
  const settled = () => scope.planned().settled[bench.round()?.joint.id ?? '']?.[bench.pass()]

  return (
    <div class="big-number cluster">
      <Switch>
        <Match when={setting()}>
          {(set) => (
            <>
              <Figure
                figure={set().shown}
                unit={set().unit}
                on={`on ${bench.wrench()?.id}${bench.adapter() ? ', adapter on' : bench.adapterState().kind === 'ask' ? ', no adapter' : ''}`}
              />
              <Under>
                <p>
                  <strong>{format.torque(target() ?? 0, 'N·m')} N·m asked</strong>
                  <Show when={!plain()}>
                    {' '}
                    · {set().shown} {set().unit} applies {appliesWords(set())},{' '}
                    <span classList={{ 'against-words': !set().inBand }}>
                      {set().inBand ? 'in band' : 'out of band'}
                    </span>
                  </Show>
                  <Show when={set().betweenMarks}> · between two marks of this scale</Show>
                </p>
                <Show when={bench.adapter()}>
                  {(adapter) => (
                    <Lever
                      adapter={adapter()}
                      label={`Adapter on: ${adapterWords(adapter())}`}
                      width={260}
                      height={84}
                    />
                  )}
                </Show>
                <Show when={settled()}>
                  {(value) => (
                    <>
                      <p class="settled">{settledWords(value(), scope.words)}</p>
                      <A
                        class="button quiet settled-why"
                        href={settleHref(scope.planned().id, bench.round()?.joint.id ?? '', bench.pass())}
                      >
                        What it rests on
                      </A>
                    </>
                  )}
                </Show>
                <Show when={!saidAbove() && scale()}>
                  {(entry) => (
                    <p class="pencil">
                      scale entered {format.number(entry().value)} {entry().unit}, applies{' '}
                      {format.torque(entry().appliesNm, 'N·m')} N·m
                    </p>
                  )}
                </Show>
                <Bar />
              </Under>
            </>
          )}
        </Match>
        <Match when={angle()}>
          {(degrees) => (
            <>
              <Figure figure={`+${format.number(degrees())}°`} unit="turn" on={bench.wrench()?.id ?? ''} />
              <Under>
                <p>
                  <strong>Turn {format.number(degrees())}° further</strong>, one smooth pull.
                </p>
                <Bar />
              </Under>
            </>
          )}
        </Match>
        <Match when={slack()}>
          {(sheet) => (
            <Figure
              figure={
                sheet().angleDeg === undefined ? 'Slacken' : `−${format.number(sheet().angleDeg ?? 0)}°`
              }
              unit={sheet().angleDeg === undefined ? 'fully' : 'slacken'}
              on=""
            />
          )}
        </Match>
        <Match when={wait()}>
          {(sheet) => <Figure figure={format.number(sheet().minutes)} unit="min" on="wait" />}
        </Match>
        <Match when={bench.sheet()?.kind === 'torque'}>
          <p class="no-value">No published value</p>
          <Under>
            <p>
              <strong>{whoSettles(scope.shop())}</strong> The maker’s information gives no torque here; what
              is recorded before is flagged and stops the signature.
            </p>
            <A
              class="button"
              href={settleHref(scope.planned().id, bench.round()?.joint.id ?? '', bench.pass())}
            >
              {scope.leads() ? 'Decide torque' : 'What is known'}
            </A>
          </Under>
        </Match>
      </Switch>
    </div>
  )
}

function Figure(props: { figure: string; unit: string; on: string }) {
  return (
    <p class="figure">
      <span class="figure-value" classList={{ 'figure-word': props.figure.length > 5 }}>
        {props.figure}
      </span>
      <span class="figure-unit">
        {props.unit} <span class="figure-on">{props.on}</span>
      </span>
    </p>
  )
}

function Under(props: { children: import('solid-js').JSX.Element }) {
  return <div class="under-number stack close">{props.children}</div>
}

/** The pass's band with each reading of the round a tick, in the unit of the wrench in hand. */
function Bar() {
  const bench = useBench()
  const scope = useJob()
  const unit = (): TorqueUnit => {
    const wrench = bench.wrench()
    return wrench && wrench.unit !== 'deg' ? wrench.unit : 'N·m'
  }
  const ticks = createMemo((): BandTick[] => {
    const round = bench.round()
    if (!round) return []
    return round.positions.flatMap((n) => {
      const reading = standingReading(scope.planned(), round.joint, n, bench.pass())
      const value = bench.band()?.kind === 'angle' ? reading?.angleDeg : reading?.torqueNm
      return value === undefined ? [] : [{ value, out: reading?.flags.includes('out_of_band') === true }]
    })
  })
  const show = (band: Band) => (value: number) =>
    band.kind === 'angle'
      ? `${format.number(value)}°`
      : unit() === 'N·m'
        ? format.torque(value, 'N·m')
        : format.number(fromNm(value, unit()), 1)
  return (
    <Show when={bench.band()}>
      {(band) => (
        <>
          <BandBar
            min={low(band())}
            max={high(band())}
            target={target(bench.sheet())}
            ticks={ticks()}
            show={show(band())}
            label={`Band ${bandWords(band(), format)}, ${ticks().length} readings in this pass`}
          />
          <p class="small pencil">
            Band {bandWords(band(), format)}, {bandSource(band())}
            <Show when={band().kind === 'torque' && unit() !== 'N·m'}>; the bar is in {unit()}</Show>
          </p>
        </>
      )}
    </Show>
  )
}

const low = (band: Band): number => (band.kind === 'torque' ? band.minNm : band.minDeg)
const high = (band: Band): number => (band.kind === 'torque' ? band.maxNm : band.maxDeg)
const target = (sheet: ReturnType<ReturnType<typeof useBench>['sheet']>): number | undefined =>
  sheet?.kind === 'angle' ? sheet.angleDeg : (targetOf(sheet) ?? undefined)
