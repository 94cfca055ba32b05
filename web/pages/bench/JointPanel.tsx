/** One round of a joint: its bolt map to tap, and the number to set. A tap never does two things. */
import { createMemo, Show } from 'solid-js'
import { standingReading } from '../../../shared/job/verdicts'
import { BoltMap } from '../../drawings/BoltMap'
import { type Head, headName, headsOf } from '../../drawings/heads'
import { useJob } from '../../job/scope'
import { BigNumber } from './BigNumber'
import { useBench } from './bench'
import { routeWords } from './order'
import { PassRow } from './PassRow'
import type { Round } from './work'
import './joint.css'

interface JointPanelProps {
  round: Round
  /** A head that cannot be recorded by one tap: it needs a number, or it is not its turn. */
  onAsk: (n: number) => void
  /** Nothing can be recorded before the number on the scale is entered. */
  onScale: () => void
}

export function JointPanel(props: JointPanelProps) {
  const bench = useBench()
  const scope = useJob()
  const next = () => {
    const phase = bench.phase()
    return phase.kind === 'record' ? phase.head : undefined
  }
  const heads = createMemo(() =>
    headsOf(scope.planned(), scope.shop(), bench.step(), props.round.joint, {
      pass: bench.pass(),
      round: props.round.positions,
      ...(next() === undefined ? {} : { next: next() }),
      waiting: bench.waiting(),
    }),
  )
  const press = (n: number) => {
    if (bench.pointing()) {
      bench.showHead(n)
      return
    }
    const reached = standingReading(scope.planned(), props.round.joint, n, bench.pass())
    const phase = bench.phase()
    if (reached || phase.kind === 'look' || phase.kind === 'through' || phase.kind === 'wait')
      bench.showHead(n)
    else if (!props.round.positions.includes(n)) bench.showHead(n)
    else if (phase.kind !== 'record') props.onScale()
    else if (
      phase.early !== undefined ||
      bench.curing(n) !== undefined ||
      (bench.inTurn() && n !== phase.head)
    )
      props.onAsk(n)
    else if (phase.how === 'clicked' || phase.how === 'slackened') bench.record(n, phase.how)
    else props.onAsk(n)
  }
  /** Arrow keys go the way the hand goes, then on to what is not of this round. */
  const walk = () => {
    const all = props.round.joint.order ?? props.round.joint.positions.map(({ n }) => n)
    const along = bench.route()?.positions ?? []
    return [...along, ...all.filter((n) => !along.includes(n))]
  }
  /** The plan’s order stands on the heads as figures; arrows say what those do not. */
  const drawn = () => {
    const route = bench.route()
    return route && (route.proposed || route.loosening) ? route : undefined
  }
  const name = (head: Head) => headName(scope.planned(), props.round.joint, head, bench.pass())
  return (
    <>
      <PassRow />
      <div class="map-room" classList={{ pointing: bench.pointing() }}>
        <BoltMap
          positions={props.round.joint.positions}
          outline={props.round.joint.outline}
          heads={heads()}
          order={walk()}
          route={drawn()}
          label={`Bolt map: ${props.round.joint.title}, pass ${bench.pass()} of ${props.round.joint.passes.length}`}
          name={name}
          press={press}
        />
      </div>
      <Show when={routeWords(bench.route())}>{(words) => <p class="route-words mark">{words()}</p>}</Show>
      <BigNumber />
    </>
  )
}
