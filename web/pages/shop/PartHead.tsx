/** The heading of a part of the shop, and beside it what can be done there. */
import { A } from '@solidjs/router'
import { type JSX, type ParentProps, Show } from 'solid-js'
import { Invented } from '../../ui/Invented'

interface PartHeadProps {
  id?: string
  title: string
  /** In pencil after the title: how many, or which edition. */
  beside?: JSX.Element
  invented?: boolean | undefined
  /** The part stands below the plan library. */
  inLibrary?: boolean
}

export function PartHead(props: ParentProps<PartHeadProps>) {
  return (
    <div class="part-head cluster">
      <h2 id={props.id}>
        {props.title} <span class="pencil">{props.beside}</span> <Invented plan={props} />
      </h2>
      {props.children}
      <Show when={props.inLibrary}>
        <A class="button quiet" href="/shop/plans">
          Back to the library
        </A>
      </Show>
    </div>
  )
}
