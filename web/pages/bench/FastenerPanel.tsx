/** Which fasteners stand here: declared in one press a round, and what stands only for now said in words. */
import { createMemo, For, Show } from 'solid-js'
import { FASTENER_CONDITIONS, type FastenerCondition } from '../../../shared/job/kinds'
import { fastenerNow, touchedSinceSaid } from '../../../shared/job/verdicts'
import { upperFirst } from '../../../shared/words'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { useBench } from './bench'
import { fastenerHere, oddFasteners, toDeclare } from './fasteners'
import './beside.css'
import './joint.css'

/** Before signing: new, or used before. One press for all of the round that nobody has declared. */
export function DeclareFasteners() {
  const bench = useBench()
  const scope = useJob()
  const asked = createMemo(() => {
    const round = bench.round()
    return round && toDeclare(scope.planned(), round)
  })
  const place = (condition: FastenerCondition, cycle?: number) => {
    const round = bench.round()
    const open = asked()
    if (!round || !open) return
    void scope.send({
      type: 'PlaceFasteners',
      jointId: round.joint.id,
      positions: open.positions,
      condition,
      ...(cycle === undefined ? {} : { cycle }),
    })
  }
  return (
    <Show when={asked()}>
      {(declaring) => (
        <section class="declare-row mark cluster" aria-label="Which fasteners">
          <p>{declaring().asks}</p>
          <div class="panel-buttons cluster">
            <Button onClick={() => place('new')}>{declaring().fresh}</Button>
            <For each={declaring().reused}>
              {(one) => <Button onClick={() => place('reused', one.cycle)}>{one.words}</Button>}
            </For>
          </div>
        </section>
      )}
    </Show>
  )
}

export function OddFasteners() {
  const bench = useBench()
  const scope = useJob()
  const odd = createMemo(() => {
    const round = bench.round()
    return round ? oddFasteners(scope.planned(), round) : []
  })
  return (
    <Show when={odd().length > 0}>
      <p class="mark rust">
        <strong>Before signing:</strong> {odd().join(' ')}
      </p>
    </Show>
  )
}

const KINDS: readonly FastenerCondition[] = ['new', 'hand_tight', 'temporary', 'removed']

/** For one head: what stands there now, and the presses that say otherwise. */
export function FastenerPress(props: { position: number; onDone: () => void }) {
  const bench = useBench()
  const scope = useJob()
  const joint = () => bench.round()?.joint
  /** What was said last and still goes: once it is tightened or slackened, another of the kind may be there. */
  const now = () => {
    const one = joint()
    return one && !touchedSinceSaid(scope.planned(), one, props.position)
      ? fastenerNow(scope.planned(), one, props.position)?.condition
      : undefined
  }
  const place = (condition: FastenerCondition, cycle?: number) => {
    const one = joint()
    if (!one) return
    void scope.send({
      type: 'PlaceFasteners',
      jointId: one.id,
      positions: [props.position],
      condition,
      ...(cycle === undefined ? {} : { cycle }),
    })
    props.onDone()
  }
  const again = () => {
    const one = joint()
    if (one?.use.kind !== 'cycles') return undefined
    const had = fastenerNow(scope.planned(), one, props.position)?.cycle ?? 1
    return had < one.use.limit ? { cycle: had + 1, limit: one.use.limit } : undefined
  }
  return (
    <Show when={joint()}>
      {(one) => (
        <section class="declare" aria-label="The fastener in this place">
          <p>
            The {one().fastener} here: <strong>{fastenerHere(scope.planned(), one(), props.position)}</strong>
          </p>
          <div class="panel-buttons cluster">
            <For each={KINDS.filter((kind) => kind !== now())}>
              {(kind) => <Button onClick={() => place(kind)}>{upperFirst(FASTENER_CONDITIONS[kind])}</Button>}
            </For>
            <Show when={again()}>
              {(next) => (
                <Button onClick={() => place('reused', next().cycle)}>
                  Reused, tightening {next().cycle} of {next().limit}
                </Button>
              )}
            </Show>
          </div>
        </section>
      )}
    </Show>
  )
}
