/** The sheet of the desk: a row for what is asked and its answers, an answer, and facts within one. */
import { type Accessor, createUniqueId, For, type JSX, type ParentProps, Show } from 'solid-js'
import type { BasisId } from '../../../shared/fastener'
import { Basis } from '../../ui/Basis'
import { Button } from '../../ui/Button'
import { useCalculator } from './fields'
import type { InputField } from './inputs'
import { answerOf, type Part, type Unread } from './part'

/** Left what is asked, right the answers. */
export function Row(props: ParentProps<{ title: string; asks: JSX.Element }>) {
  const id = createUniqueId()
  return (
    <section class="desk-row" aria-labelledby={id}>
      <div class="desk-asked stack roomy">
        <h2 id={id}>{props.title}</h2>
        {props.asks}
      </div>
      <div class="desk-answers stack apart">{props.children}</div>
    </section>
  )
}

interface AnswerProps<T> {
  title: string
  part: Part<T>
  children(value: Accessor<T>): JSX.Element
}

/** What follows from what was asked; in its place why it does not. */
export function Answer<T>(props: AnswerProps<T>) {
  const id = createUniqueId()
  return (
    <section
      class="desk-answer stack"
      classList={{ 'desk-greyed': props.part.state !== 'there' }}
      aria-labelledby={id}
    >
      <h3 id={id}>{props.title}</h3>
      <Show when={answerOf(props.part)} fallback={<Why part={props.part} />}>
        {(value) => props.children(value as Accessor<T>)}
      </Show>
    </section>
  )
}

function Why(props: { part: Part<unknown> }) {
  const why = () => (props.part.state === 'refused' ? `Nothing is computed. ${props.part.why}` : undefined)
  const asks = () => (props.part.state === 'open' ? props.part.asks : undefined)
  return (
    <Show when={why()} fallback={<p>{asks()}</p>}>
      <p class="sentence against">{why()}</p>
    </Show>
  )
}

/** What could not be read, and each reading it may have: one press enters it. */
export function Readings(props: { of: Unread; field: InputField }) {
  const { set } = useCalculator()
  const take = (text: string) => {
    // Once it is entered, it is not unread any more.
    const { note } = props.of
    set(props.field, text)
    if (props.field === 'printed') set('beside', note)
  }
  return (
    <>
      <p class="sentence against">{props.of.why}</p>
      <div class="cluster roomy">
        <For each={props.of.readings}>
          {({ text }) => <Button onClick={() => take(text)}>It says {text}</Button>}
        </For>
      </div>
    </>
  )
}

/** The formulas an answer rests on; on paper their numbers in the list at the foot. */
export function Sources(props: { ids: readonly BasisId[]; of: string }) {
  const { refs } = useCalculator()
  return <Basis {...props} refs={refs} />
}

/** Names and their figures. */
export function Facts(props: { of: readonly (readonly string[])[] }) {
  return (
    <dl class="desk-facts">
      <For each={props.of}>
        {([name, value]) => (
          <div>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        )}
      </For>
    </dl>
  )
}
