/** The crib for this pass, best first: what to set on each, whether it can do the joint, and what speaks against it. */

import { Index, Show } from 'solid-js'
import { counted } from '../../../shared/words'
import { againstWrench } from '../../../shared/wrench'
import { useJob } from '../../job/scope'
import { Dialog } from '../../ui/Dialog'
import { useBench } from './bench'
import { rangeWords, roomWords, settingWords } from './wrench'
import './wrenches.css'
import { format } from '../../format'

const DAY_MS = 24 * 3_600_000

export function WrenchPicker(props: { onClose(): void }) {
  const bench = useBench()
  const scope = useJob()
  const due = (at: number | undefined) => {
    if (at === undefined) return 'no check date'
    const days = Math.floor((at - bench.now()) / DAY_MS)
    return days < 0 ? `check was due ${scope.words.moment(at)}` : `in date, ${counted(days, 'day')} left`
  }
  return (
    <Dialog open title="Which wrench is in your hand?" onClose={props.onClose} broad>
      <ul class="stack">
        <Index each={bench.wrenchChoices()}>
          {(choice, index) => (
            <li>
              <button
                type="button"
                class="crib-wrench"
                classList={{ unfit: !choice().fits, shown: choice().wrench.id === bench.wrench()?.id }}
                aria-current={choice().wrench.id === bench.wrench()?.id ? 'true' : undefined}
                onClick={() => {
                  bench.takeWrench(choice().wrench.id)
                  props.onClose()
                }}
              >
                <span class="crib-id">{choice().wrench.id}</span>
                <span class="crib-words">
                  <strong>{rangeWords(choice().wrench)}</strong>
                  <span>{choice().wrench.title}</span>
                  <Show
                    when={choice().fits}
                    fallback={
                      <span class="against-words">
                        Does not fit: {againstWrench(choice(), format).join('; ')}
                      </span>
                    }
                  >
                    <Show when={settingWords(choice(), bench.adapter())}>
                      {(words) => <span>{words()}</span>}
                    </Show>
                    <Show
                      when={
                        choice().room?.can &&
                        !(bench.adapter() && choice().wrench.kind !== 'click') &&
                        roomWords(choice())
                      }
                    >
                      {(words) => <span class="pencil">{words()}</span>}
                    </Show>
                    <Show when={choice().against.length > 0}>
                      <span class="mark">
                        <strong>Mind:</strong> {againstWrench(choice(), format).join('; ')}
                      </span>
                    </Show>
                    <span class="pencil">
                      {choice().wrench.unit === 'deg' ? 'in use' : due(choice().wrench.dueAt)}
                    </span>
                  </Show>
                </span>
                <span class="crib-plan">
                  {[index === 0 && choice().fits ? 'best' : '', choice().planned ? 'the plan’s' : '']
                    .filter(Boolean)
                    .join(', ')}
                </span>
              </button>
            </li>
          )}
        </Index>
      </ul>
      <Show when={bench.wrenchChoices().length === 0}>
        <p>There is no wrench in the crib for this pass. The supervisor enters wrenches.</p>
      </Show>
      <p class="small pencil">
        Best first: in service, in date, in range, accurate enough, within reach, in the unit of the plan.
        <Show when={bench.adapter()}> Computed with the adapter that is on.</Show> You can still choose a
        wrench that does not fit: readings with it are flagged and stop the signature.
      </p>
    </Dialog>
  )
}
