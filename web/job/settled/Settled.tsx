/**
 * A torque that nobody published, once it is decided.
 *
 * Compact (bench, a step of the engine page, the list of a record): in a line. Full (settle page, audit, a joint of the record): its
 * limits, its whole basis, the reason, who answers for it, and every value that stood here before.
 */
import { For, type ParentProps, Show } from 'solid-js'
import { basisWords } from '../../../shared/job/trail/sentences'
import type { SettledValue } from '../../../shared/job/types'
import { bandWords } from '../../../shared/plan/words'
import { ended, upperFirst } from '../../../shared/words'
import { format } from '../../format'
import { Stripe } from '../../people/Stripe'
import { Moment } from '../Moment'
import { useJobView } from '../scope'
import { type Settling, settledWords, settlings } from './settled-words'
import './settled.css'

interface SettledProps {
  value: SettledValue
  /** What the value is of, where that does not stand beside it. */
  of?: string
}

/** The number itself is told only together with what it is of. */
export function SettledBriefly(props: SettledProps) {
  const view = useJobView()
  return (
    <p class="settled">
      <Show when={props.of}>
        <Torque {...props} />.{' '}
      </Show>
      {settledWords(props.value, view.words)}
    </p>
  )
}

/** Its children, a drawing of the limits perhaps, stand below the value in force. */
export function SettledInFull(props: ParentProps<SettledProps>) {
  const before = () => settlings(props.value).slice(1)
  return (
    <div class="settled-full stack">
      <Stated {...props} />
      <Show when={before().length > 0}>
        <p class="pencil">Decided here before:</p>
        <ol class="settled-before stack">
          <For each={before()}>
            {(value) => (
              <li class="stack close">
                <Stated value={value} />
              </li>
            )}
          </For>
        </ol>
      </Show>
    </div>
  )
}

interface StatedProps {
  value: Settling
  of?: string | undefined
}

function Stated(props: ParentProps<StatedProps>) {
  return (
    <>
      <p>
        <Torque {...props} />
      </p>
      {props.children}
      <p>{ended(upperFirst(basisWords(props.value.basis, format)))}</p>
      <p>“{props.value.reason}”</p>
      <p class="by-line cluster">
        <Stripe person={props.value.by} name="after" /> <Moment at={props.value.doneAt} />
      </p>
    </>
  )
}

function Torque(props: StatedProps) {
  return (
    <>
      <Show when={props.of}>{(of) => <>{of()}: </>}</Show>
      <b class="settled-torque">
        {format.torque(props.value.torqueNm, 'N·m')} <span>N·m</span>
      </b>{' '}
      within {bandWords(props.value.band, format)}
    </>
  )
}
