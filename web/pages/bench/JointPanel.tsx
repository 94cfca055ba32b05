/** One round of a joint: its bolt map to tap, and the number to set. A tap never does two things. */
import { createMemo, Show } from 'solid-js'
import { standingReading } from '../../../shared/job/verdicts'
import { BoltMap } from '../../drawings/BoltMap'
import { type Head, headName, headsOf } from '../../drawings/heads'
import { useJob } from '../../job/scope'
import { BigNumber } from './BigNumber'
import { useBench } from './bench'
import { figureWords, routeWords } from './order'
import { PassRow } from './PassRow'
import type { Phase } from './phase'
import type { Round } from './work'
import './joint.css'

/** Where a tap records nothing. */
const LOOKED_AT: ReadonlySet<Phase['kind']> = new Set(['look', 'through', 'wait'])

export function JointPanel(props: { round: Round }) {
  const bench = useBench()
  const scope = useJob()
  const next = () => bench.recording()?.head
  const heads = createMemo(() =>
    headsOf(scope.planned(), scope.shop(), bench.step(), props.round.joint, {
      pass: bench.pass(),
      round: props.round.positions,
      ...(next() === undefined ? {} : { next: next() }),
      waiting: bench.waiting(),
    }),
  )
  const press = (n: number) => {
    const phase = bench.phase()
    const read = standingReading(scope.planned(), props.round.joint, n, bench.pass())
    const elsewhere = !props.round.positions.includes(n)
    if (bench.pointing() || read || elsewhere || LOOKED_AT.has(phase.kind)) bench.showHead(n)
    // Nothing can be recorded before the number on the scale is entered.
    else if (phase.kind !== 'record') bench.askNumber()
    else if (
      (phase.how === 'clicked' || phase.how === 'slackened') &&
      phase.early === undefined &&
      bench.curing(n) === undefined &&
      !(bench.inTurn() && n !== phase.head)
    )
      bench.record(n, phase.how)
    else bench.open({ dialog: 'answer', position: n })
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
      <Show when={routeWords(bench.route()) ?? figureWords(props.round.joint)}>
        {(words) => <p class="route-words mark">{words()}</p>}
      </Show>
      <BigNumber />
    </>
  )
}
