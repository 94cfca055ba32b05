/** Class B and C: a whole pass in one press, with the count in its words. Class A: every head, always. */
import { Show } from 'solid-js'
import { standingReading } from '../../../shared/job/verdicts'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { useBench } from './bench'
import { roundToCount } from './fasteners'

export function RoundDone() {
  const bench = useBench()
  const scope = useJob()
  const count = bench.ofRound((job, { joint, positions, leftOutIn }) =>
    leftOutIn === undefined && bench.recording()?.how === 'clicked'
      ? roundToCount(
          joint,
          positions,
          positions.filter((n) => !standingReading(job, joint, n, bench.pass())),
        )
      : undefined,
  )
  const press = () => {
    const round = bench.round()
    const wrench = bench.wrench()
    const n = count()
    if (!round || n === undefined) return
    void scope.send({
      type: 'CountRound',
      jointId: round.joint.id,
      pass: bench.pass(),
      count: n,
      position: round.positions[0],
      ...(wrench ? { wrenchId: wrench.id } : {}),
    })
  }
  return (
    <Show when={count()}>
      {(n) => (
        <>
          <Button wide class="tall" onClick={press}>
            Round done: {n()} counted
          </Button>
          <Show when={!bench.narrow()}>
            <p class="small pencil">
              Only if you have counted {n()} clicks. It is recorded as counted, not head by head.
            </p>
          </Show>
        </>
      )}
    </Show>
  )
}
