/** The one huge number, in the unit of the wrench in hand; under it what is asked, what it applies, and the band. */
import { A } from '@solidjs/router'
import { createMemo, Match, type ParentProps, Show, Switch } from 'solid-js'
import { standingReading } from '../../../shared/job/verdicts'
import type { Pass } from '../../../shared/plan/types'
import { bandWords } from '../../../shared/plan/words'
import type { TorqueUnit } from '../../../shared/units'
import { Lever } from '../../drawings/Lever'
import { format } from '../../format'
import { settleHref } from '../../hrefs'
import { PassBar } from '../../job/record/PassBar'
import { useJob } from '../../job/scope'
import { SettledBriefly } from '../../job/settled/Settled'
import { whoSettles } from '../../job/settled/settled-words'
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
  /** The pass, where it is of this kind. */
  const as = <K extends Pass['kind']>(kind: K) => {
    const sheet = bench.sheet()
    return sheet?.kind === kind ? (sheet as Extract<Pass, { kind: K }>) : undefined
  }
  const settleLink = () => settleHref(scope.planned().id, bench.joint()?.id ?? '', bench.pass())
  const scale = () => bench.scale()
  /** Set as asked through an adapter: the line above has just said what that applies. */
  const saidAbove = () => bench.adapter() !== undefined && scale()?.value === setting()?.value
  const settled = () => scope.planned().settled[bench.joint()?.id ?? '']?.[bench.pass()]

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
                  <strong>
                    {format.torque(target() ?? 0, 'N·m')} N·m {settled() ? 'decided here' : 'by the plan'}
                  </strong>
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
                      <SettledBriefly value={value()} />
                      <A class="button quiet settled-why" href={settleLink()}>
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
        <Match when={as('angle')}>
          {(sheet) => (
            <>
              <Figure
                figure={`+${format.number(sheet().angleDeg)}°`}
                unit="turn"
                on={bench.wrench()?.id ?? ''}
              />
              <Under>
                <p>
                  <strong>Turn {format.number(sheet().angleDeg)}° further</strong>, one smooth pull.
                </p>
                <Bar />
              </Under>
            </>
          )}
        </Match>
        <Match when={as('slacken')}>
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
        <Match when={as('wait')}>
          {(sheet) => <Figure figure={format.number(sheet().minutes)} unit="min" on="wait" />}
        </Match>
        <Match when={as('torque')}>
          <p class="no-value">No published torque</p>
          <Under>
            <p>
              <strong>{whoSettles(scope.shop())}</strong> The maker’s information gives no torque here; what
              is recorded before is flagged and stops the signature.
            </p>
            <A class="button" href={settleLink()}>
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

function Under(props: ParentProps) {
  return <div class="under-number stack close">{props.children}</div>
}

/** The pass's band with each reading of the round a tick, in the unit of the wrench in hand. */
function Bar() {
  const bench = useBench()
  const unit = (): TorqueUnit => {
    const wrench = bench.wrench()
    return wrench && wrench.unit !== 'deg' ? wrench.unit : 'N·m'
  }
  const readings = bench.ofRound((job, { joint, positions }) =>
    positions.flatMap((n) => standingReading(job, joint, n, bench.pass()) ?? []),
  )
  return (
    <Show when={bench.band()}>
      {(band) => (
        <>
          <Show when={bench.sheet()}>
            {(sheet) => <PassBar asked={sheet()} band={band()} readings={readings() ?? []} unit={unit()} />}
          </Show>
          <p class="small pencil">
            Band {bandWords(band(), format)}, {bandSource(band())}
            <Show when={band().kind === 'torque' && unit() !== 'N·m'}>; the bar is in {unit()}</Show>
          </p>
        </>
      )}
    </Show>
  )
}
