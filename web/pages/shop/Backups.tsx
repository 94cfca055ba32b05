/** Where the shop's backups lie, when the last one was made, and what is wrong with them. For whoever leads. */
import { For } from 'solid-js'
import { Sentence } from '../../ui/Sentence'
import type { Told } from './backups'
import { PartHead } from './PartHead'

export function Backups(props: { sentences: readonly Told[] }) {
  return (
    <section class="stack" aria-labelledby="backups-title">
      <PartHead id="backups-title" title="Backups" />
      <For each={props.sentences}>
        {({ text, against }) => (against ? <Sentence against>{text}</Sentence> : <p>{text}</p>)}
      </For>
      <p class="pencil">
        “npm run backup -- FOLDER” on the server’s machine makes one at once, while people work; “npm run
        restore” brings one back.
      </p>
    </section>
  )
}
