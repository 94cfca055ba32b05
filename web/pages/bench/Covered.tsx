/** What a signature covers, to be looked at before it is given: the painted map, the numbers, the checks. */
import { createMemo, For, Index, Show } from 'solid-js'
import { type SetView, standingMeasurement, stepState } from '../../../shared/job/verdicts'
import { indexPlan } from '../../../shared/plan/read'
import { limitsWords } from '../../../shared/plan/words'
import { positionsInWords } from '../../../shared/words'
import { BoltMap } from '../../drawings/BoltMap'
import { headName, headsOf } from '../../drawings/heads'
import { format } from '../../format'
import { useJob } from '../../job/scope'
import { useBench } from './bench'
import { gateDone } from './stations'
import { roundsIn } from './work'
import './sign.css'

export function Covered(props: { view: SetView }) {
  const bench = useBench()
  const scope = useJob()
  // As the job has it: without what was left out here, and with what was left out earlier and is due here.
  const joints = createMemo(() => {
    const { jointById, stepOfJoint } = indexPlan(scope.planned().plan)
    return props.view.covers.flatMap(({ joint: id, positions }) => {
      const joint = jointById.get(id)
      const home = stepOfJoint.get(id)?.id
      const away = home === bench.step().id ? '' : `, left out in ${home}`
      return joint ? [{ joint, positions, away }] : []
    })
  })
  const look = (jointId: string, n: number) => {
    const round = roundsIn(scope.planned(), bench.step()).find(
      ({ joint, positions }) => joint.id === jointId && positions.includes(n),
    )
    if (!round) return
    bench.openStation(round.key)
    bench.showHead(n)
  }
  const state = () => stepState(scope.planned(), bench.step().id)
  return (
    <div class="covered stack roomy">
      <Index each={joints()}>
        {(part) => (
          <figure>
            <figcaption class="small pencil">
              {part().joint.title}
              {part().away ? ` ${positionsInWords(part().positions)}` : ''}, class {part().joint.class}
              {part().away}
            </figcaption>
            <BoltMap
              positions={part().joint.positions}
              outline={part().joint.outline}
              heads={headsOf(scope.planned(), scope.shop(), bench.step(), part().joint, {
                round: part().positions,
              })}
              label={`${part().joint.title}, as they stand`}
              name={(head) => headName(scope.planned(), part().joint, head)}
              press={(n) => look(part().joint.id, n)}
              height={part().joint.positions.length > 2 ? 300 : 170}
            />
          </figure>
        )}
      </Index>
      <Show when={props.view.set.remainder && bench.step().measurements.length > 0}>
        <ul class="stack">
          <For each={bench.step().measurements}>
            {(measurement) => (
              <li>
                <strong>{measurement.title}</strong>{' '}
                <span class="pencil">({limitsWords(measurement, format)})</span>
                <span class="covered-values cluster">
                  <For each={measurement.places}>
                    {(place) => {
                      const entry = () => standingMeasurement(state(), measurement.id, place)
                      return (
                        <span classList={{ 'against-words': entry()?.inBand === false }}>
                          <span class="pencil">{place}</span>{' '}
                          {entry() ? format.number(entry()?.value ?? 0, 4) : '–'}
                        </span>
                      )
                    }}
                  </For>
                </span>
              </li>
            )}
          </For>
        </ul>
      </Show>
      <Show when={props.view.set.remainder && bench.step().gates.length > 0}>
        <ul class="stack">
          <For each={bench.step().gates}>
            {(gate) => (
              <li>
                <strong>
                  {gateDone(scope.planned(), bench.step(), gate, bench.now()) ? 'Checked' : 'Open'}
                </strong>
                : {gate.text}
              </li>
            )}
          </For>
        </ul>
      </Show>
    </div>
  )
}
