/** Which fasteners stand here: declared in one press a round, and what stands only for now said in words. */
import { For, Show } from 'solid-js'
import { FASTENER_CONDITIONS, type FastenerCondition } from '../../../shared/job/kinds'
import { fastenerNow, touchedSinceSaid } from '../../../shared/job/verdicts'
import type { AdoptedJoint } from '../../../shared/plan/types'
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
  const open = bench.ofRound(toDeclare)
  const place = (condition: FastenerCondition, cycle?: number) => {
    const joint = bench.joint()
    const positions = open()?.positions
    if (joint && positions) bench.place(joint, positions, condition, cycle === undefined ? {} : { cycle })
  }
  return (
    <Show when={open()}>
      {(declaring) => (
        <section class="declare-row mark cluster" aria-label="Which fasteners">
          <p>{declaring().asks}</p>
          <div class="panel-buttons cluster">
            <Button onClick={() => place('new')}>{declaring().fresh}</Button>
            <For each={declaring().reused}>
              {({ cycle, words }) => <Button onClick={() => place('reused', cycle)}>{words}</Button>}
            </For>
          </div>
        </section>
      )}
    </Show>
  )
}

export function OddFasteners() {
  const odd = useBench().ofRound(oddFasteners)
  return (
    <Show when={odd()?.length}>
      <p class="mark rust">
        <strong>Before signing:</strong> {odd()?.join(' ')}
      </p>
    </Show>
  )
}

const KINDS: readonly FastenerCondition[] = ['new', 'hand_tight', 'temporary', 'removed']

/** For one head: what stands there now, and the presses that say otherwise. */
export function FastenerPress(props: { joint: AdoptedJoint; position: number; onDone(): void }) {
  const bench = useBench()
  const scope = useJob()
  const now = () => fastenerNow(scope.planned(), props.joint, props.position)
  /** What was said last and still goes: once it is tightened or slackened, another of the kind may be there. */
  const condition = () =>
    touchedSinceSaid(scope.planned(), props.joint, props.position) ? undefined : now()?.condition
  const place = (condition: FastenerCondition, more?: { cycle: number }) => {
    bench.place(props.joint, [props.position], condition, more)
    props.onDone()
  }
  const again = () => {
    const { use } = props.joint
    const cycle = (now()?.cycle ?? 1) + 1
    return use.kind === 'cycles' && cycle <= use.limit ? { cycle, limit: use.limit } : undefined
  }
  return (
    <section class="declare" aria-label="The fastener in this place">
      <p>
        The {props.joint.fastener} here:{' '}
        <strong>{fastenerHere(scope.planned(), props.joint, props.position)}</strong>
      </p>
      <div class="panel-buttons cluster">
        <For each={KINDS.filter((kind) => kind !== condition())}>
          {(kind) => <Button onClick={() => place(kind)}>{upperFirst(FASTENER_CONDITIONS[kind])}</Button>}
        </For>
        <Show when={again()}>
          {(next) => (
            <Button onClick={() => place('reused', { cycle: next().cycle })}>
              Reused, tightening {next().cycle} of {next().limit}
            </Button>
          )}
        </Show>
      </div>
    </section>
  )
}
