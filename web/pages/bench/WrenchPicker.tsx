/** The crib for this pass: the plan's wrench first, those that fit, then those that do not and why. */
import { Index, Show } from 'solid-js'
import { Dialog } from '../../ui/Dialog'
import { useBench } from './bench'
import { rangeWords } from './wrench'
import './wrenches.css'

const DAY_MS = 24 * 3_600_000

export function WrenchPicker(props: { open: boolean; onClose: () => void; onTaken: () => void }) {
  const bench = useBench()
  const due = (at: number | undefined) => {
    if (at === undefined) return 'no check date'
    const days = Math.floor((at - bench.now()) / DAY_MS)
    return days < 0 ? `check was due ${bench.words.moment(at)}` : `in date, ${days} days left`
  }
  return (
    <Dialog open={props.open} title="Which wrench is in your hand?" onClose={props.onClose} broad>
      <ul class="crib">
        <Index each={bench.choices()}>
          {(choice) => (
            <li>
              <button
                type="button"
                class="crib-wrench"
                classList={{ unfit: !choice().fits, shown: choice().wrench.id === bench.wrench()?.id }}
                aria-current={choice().wrench.id === bench.wrench()?.id ? 'true' : undefined}
                onClick={() => {
                  bench.take(choice().wrench.id)
                  props.onTaken()
                }}
              >
                <span class="crib-id">{choice().wrench.id}</span>
                <span class="crib-words">
                  <strong>{rangeWords(choice().wrench)}</strong>
                  <span>{choice().wrench.title}</span>
                  <Show
                    when={choice().why.length > 0}
                    fallback={
                      <span class="pencil">
                        {choice().wrench.unit === 'deg' ? 'in use' : due(choice().wrench.dueAt)}
                      </span>
                    }
                  >
                    <span class="against-words">Does not fit: {choice().why.join('; ')}</span>
                  </Show>
                </span>
                <Show when={choice().planned}>
                  <span class="crib-plan">the plan’s</span>
                </Show>
              </button>
            </li>
          )}
        </Index>
      </ul>
      <Show when={bench.choices().length === 0}>
        <p>The crib holds no wrench of the kind this pass asks for. The supervisor enters wrenches.</p>
      </Show>
      <p class="small pencil">
        A wrench that does not fit may still be entered: what is recorded with it is flagged, and stops the
        signature.
      </p>
    </Dialog>
  )
}
