/** Where rework starts under a cover without fasteners of its own: somebody says that it is off again. */
import { createSignal, Show } from 'solid-js'
import { inTheWay, isBareCover } from '../../../shared/job/verdicts'
import type { AdoptedStep } from '../../../shared/plan/types'
import { useJob } from '../../job/scope'
import { stepView } from '../../job/step/step-view'
import { hidesWords } from '../../job/step/step-words'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { mayTakeOff } from './cover-off'

export function CoverOff(props: { step: AdoptedStep }) {
  const scope = useJob()
  const [asking, setAsking] = createSignal(false)
  const on = () => isBareCover(props.step) && inTheWay(scope.planned(), props.step)
  const offered = () => on() && mayTakeOff(scope.planned(), scope.shop(), scope.me())
  const say = () => {
    void scope.send({ type: 'TakeOff', stepId: props.step.id })
    setAsking(false)
  }
  return (
    <Show when={offered()}>
      <div class="office-do cluster">
        <Button onClick={() => setAsking(true)}>Take cover off</Button>
      </div>
      <Dialog open={asking()} title="Take cover off" onClose={() => setAsking(false)}>
        <p>
          {props.step.id} {props.step.title} is off: sign it again when it goes back on, with its counts and
          looks. Until then {hidesWords(stepView(scope.planned(), props.step).hides)} can be reached.
        </p>
        <Button variant="main" wide onClick={say}>
          Take cover off
        </Button>
      </Dialog>
    </Show>
  )
}
