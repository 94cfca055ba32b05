/** The torque band, the recommended torque with why, and the same fastener in every other lubrication. */
import { For, Show } from 'solid-js'
import { CAUTIONS, type CautionCode, type Tightening } from '../../../shared/fastener'
import { FrictionBand } from '../../drawings/FrictionBand'
import { format } from '../../format'
import { useCalculator } from './fields'
import { answerOf, whyNot } from './part'
import { Sources } from './sheet'
import { airframeLine, besideBand, lubricationTable } from './tension'
import { alsoIn, computedNm, frictionWords, kN, percent } from './words'

/** Said already in the answer itself. */
const SHOWN_ELSEWHERE: readonly CautionCode[] = [
  'maker_governs',
  'low_friction_governs',
  'friction_dominates',
]

export function TorqueAnswer() {
  const { calculation } = useCalculator()
  const tight = () => answerOf(calculation().tension)
  return (
    <section
      class="desk-answer stack"
      classList={{ 'desk-greyed': tight() === undefined }}
      aria-labelledby="desk-torque"
    >
      <h3 id="desk-torque">Torque, computed</h3>
      <p class="strong">{CAUTIONS.maker_governs}</p>
      <Show
        when={tight()}
        fallback={
          <>
            <p class="sentence" classList={{ against: calculation().tension.state === 'refused' }}>
              {calculation().tension.state === 'refused' ? 'No torque is computed. ' : ''}
              {whyNot(calculation().tension)}
            </p>
            <Show when={calculation().inputs.grade.trim()}>
              <Lubrications />
            </Show>
          </>
        }
      >
        {(tight) => (
          <>
            <Recommendation tight={tight()} />
            <Lubrications />
            <Airframe />
            <ul class="desk-cautions stack close">
              <For each={tight().cautions.filter((code) => !SHOWN_ELSEWHERE.includes(code))}>
                {(code) => <li>{CAUTIONS[code]}</li>}
              </For>
            </ul>
            <Sources ids={tight().basis} of="the torque" />
          </>
        )}
      </Show>
    </section>
  )
}

function Recommendation(props: { tight: Tightening }) {
  const { calculation } = useCalculator()
  const recommended = () => answerOf(calculation().recommended)
  const marked = () => calculation().printedBeside ?? besideBand(props.tight, recommended()?.torqueNm ?? 0)
  const band = () => `${computedNm(props.tight.low.torqueNm)} to ${computedNm(props.tight.high.torqueNm)} N·m`
  const friction = () => {
    const [low, high] = [props.tight.low.muThread, props.tight.high.muThread]
    return low === high ? `μ ${format.number(low)}` : `μ ${frictionWords({ low, high }, ' to ')}`
  }
  const single = () => props.tight.low.torqueNm === props.tight.high.torqueNm
  return (
    <>
      <div class="desk-figures">
        <Show
          when={recommended()}
          fallback={<p class="sentence against">{whyNot(calculation().recommended)}</p>}
        >
          {(recommended) => (
            <p class="desk-big">
              <span class="pencil">recommended</span>
              <strong>{computedNm(recommended().torqueNm)} N·m</strong>
              <span class="pencil">{alsoIn(recommended().torqueNm)}</span>
            </p>
          )}
        </Show>
        <p class="desk-big desk-band">
          <span class="pencil">
            {single() ? 'full use' : 'full use over the band'}, {friction()}
          </span>
          <strong>{single() ? `${computedNm(props.tight.low.torqueNm)} N·m` : band()}</strong>
          <span class="pencil">
            {format.torque(props.tight.low.torqueNm, 'lbf·ft')}
            <Show when={!single()}> to {format.torque(props.tight.high.torqueNm, 'lbf·ft')}</Show> lbf·ft
          </span>
        </p>
      </div>
      <Show when={calculation().printedBeside || recommended()}>
        <FrictionBand
          band={{
            lowNm: props.tight.low.torqueNm,
            highNm: props.tight.high.torqueNm,
            torqueNm: marked().torqueNm,
            preloadLowN: marked().preloadLowN,
            preloadHighN: marked().preloadHighN,
            fullN: props.tight.low.preloadN,
            yieldN: props.tight.low.preloadN / props.tight.utilisation,
          }}
          against={calculation().printedDoubtful}
          showNm={(nm) => `${computedNm(nm)} N·m`}
          showN={(n) => `${kN(n)} kN`}
          label={`Band ${band()}. ${computedNm(marked().torqueNm)} N·m pulls ${kN(marked().preloadLowN)} to ${kN(marked().preloadHighN)} kN.`}
        />
      </Show>
      <Show when={recommended()}>
        {(recommended) => (
          <p>
            Why this one: it uses {percent(props.tight.utilisation)} of the yield stress of{' '}
            {props.tight.grade.grade} at the slipperiest of the band, so that no bolt of it is stretched
            further; at the roughest {kN(recommended().preloadLowN)} kN are left of{' '}
            {kN(recommended().preloadHighN)} kN.{' '}
            <Show when={recommended().held}>{(words) => `It is ${words()}. `}</Show>
            <Show when={!recommended().holeKnown}>
              Whether the hole bears it is not known until the hole is entered.{' '}
            </Show>
            {CAUTIONS.friction_dominates}
          </p>
        )}
      </Show>
    </>
  )
}

function Lubrications() {
  const { calculation, set } = useCalculator()
  const rows = () => {
    const size = answerOf(calculation().thread)
    return size ? lubricationTable(calculation().inputs, size) : []
  }
  /** One reason for all lines is said above the table, not in each of them. */
  const common = () => new Set(rows().map(({ why }) => why)).size === 1
  return (
    <div class="desk-scroll">
      <table class="desk-table">
        <caption class="unseen">The same fastener in every lubrication</caption>
        <thead>
          <tr>
            <th scope="col">Thread and head</th>
            <th scope="col">Friction</th>
            <th scope="col">Full use, N·m</th>
          </tr>
        </thead>
        <tbody>
          <For each={rows()}>
            {(row) => (
              <tr classList={{ 'desk-here': row.chosen, 'desk-grey': row.why !== undefined }}>
                <th scope="row">
                  <button type="button" class="desk-pick" onClick={() => set('lubrication', row.lubrication)}>
                    {row.words}
                  </button>
                </th>
                <Show
                  when={row.why === undefined}
                  fallback={
                    <td colspan="2">
                      <Show when={!common()} fallback="not computed">
                        {row.why}
                      </Show>
                    </td>
                  }
                >
                  <td class="desk-number">
                    <Show when={row.friction}>{(band) => frictionWords(band(), '–')}</Show>
                  </td>
                  <td class="desk-number">
                    {computedNm(row.lowNm ?? 0)}–{computedNm(row.highNm ?? 0)}
                  </td>
                </Show>
              </tr>
            )}
          </For>
        </tbody>
      </table>
    </div>
  )
}

/** A published table beside the computation, for inch threads: not the same bolts, and so only to compare. */
function Airframe() {
  const { calculation } = useCalculator()
  const line = () => {
    const size = answerOf(calculation().thread)
    return size && airframeLine(size)
  }
  return (
    <Show when={line()}>
      {(airframe) => (
        <div class="desk-compare">
          <p>
            To compare: airframe bolts of this size, oil-free plated threads, nut in tension, are tightened to{' '}
            {airframe()
              .printedLbfIn.slice(0, 2)
              .map((lbfIn) => format.number(lbfIn))
              .join('–')}{' '}
            lbf·in ({computedNm(airframe().tension.minNm)}–{computedNm(airframe().tension.maxNm)} N·m). That
            table holds for airframe bolts only.
          </p>
          <Sources ids={airframe().basis} of="the airframe table" />
        </div>
      )}
    </Show>
  )
}
