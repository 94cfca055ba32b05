/** On to a station of the step; what cannot be signed yet is not offered as the thing to do. */
import { createMemo } from 'solid-js'
import { setViews } from '../../../shared/job/verdicts'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { useBench } from './bench'
import { nextLabel, type Station } from './stations'

export function NextStation(props: { station: Station; main: boolean }) {
  const bench = useBench()
  const scope = useJob()
  const stopped = createMemo(() => {
    if (props.station.kind !== 'sign') return false
    const unsigned = setViews(scope.planned(), bench.step()).filter(({ state }) => !state.first)
    return (
      unsigned.length > 0 &&
      unsigned.every(
        ({ set }) => scope.may({ type: 'SignStep', stepId: bench.step().id, setId: set.id }) !== undefined,
      )
    )
  })
  const main = () => props.main && !stopped()
  return (
    <Button
      wide
      variant={main() ? 'main' : undefined}
      class={main() ? 'tall' : undefined}
      onClick={() => bench.openStation(props.station.key)}
    >
      {stopped() ? 'Cannot be signed yet: show why' : nextLabel(props.station)}
    </Button>
  )
}
