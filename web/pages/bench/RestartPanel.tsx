/** After a stop in the middle of a pass: what the joint's own rule asks, and the press that records it. */
import { Index, Show } from 'solid-js'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { useBench } from './bench'
import { LeftNote } from './HandoverWords'
import type { BrokenOff } from './interruption'
import { routeWords } from './order'

export function RestartPanel(props: { broken: BrokenOff }) {
  const bench = useBench()
  const scope = useJob()
  const { jointId, position } = props.broken.mark
  const slackens = () => props.broken.mark.asks === 'slackened'
  return (
    <section class="stop stack" role="alert" tabIndex={-1}>
      <h2>{props.broken.title}</h2>
      <LeftNote />
      <p>{props.broken.where}</p>
      <p>
        <strong>{props.broken.asks}</strong>
      </p>
      <Show when={slackens() && routeWords(bench.route())}>{(words) => <p>{words()}</p>}</Show>
      <Index each={props.broken.ways}>
        {(way, index) => (
          <Button
            variant={index === 0 ? 'main' : undefined}
            wide
            class={index === 0 ? 'tall' : undefined}
            onClick={() => {
              void scope.send({ type: 'RestartRound', jointId, position, how: way().how })
              bench.openNextPass()
            }}
          >
            {way().done}
          </Button>
        )}
      </Index>
      <p class="small">{props.broken.without}</p>
      <Button variant="quiet" onClick={() => bench.skipRestart(jointId)}>
        Continue without restarting
      </Button>
    </section>
  )
}
