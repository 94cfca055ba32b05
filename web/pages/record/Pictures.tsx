/** The photos of an edition as pictures, on paper too; one whose bytes are not here keeps its place and says so. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import type { Job, PlannedJob } from '../../../shared/job/types'
import type { AdoptedStep } from '../../../shared/plan/types'
import { useJobView } from '../../job/scope'
import { type PictureRow, pictureRows } from './edition-rows'

export function Pictures(props: { job: PlannedJob; steps: readonly AdoptedStep[]; now: Job }) {
  const rows = createMemo(() => pictureRows(props.job, props.steps, props.now))
  return (
    <section class="paper-part">
      <h2>Photos</h2>
      <Show when={rows().length > 0} fallback={<p class="pencil">None were taken.</p>}>
        <ul class="paper-pictures">
          <For each={rows()}>{(row) => <Picture row={row} />}</For>
        </ul>
      </Show>
    </section>
  )
}

function Picture(props: { row: PictureRow }) {
  const { words } = useJobView()
  const [lost, setLost] = createSignal(false)
  const { photo } = props.row
  const ratio = { 'aspect-ratio': `${photo.widthPx} / ${photo.heightPx}` }
  return (
    <li>
      <Show
        when={props.row.here && !lost()}
        fallback={
          <p class="paper-no-picture" style={ratio}>
            The picture is not here{props.row.here ? ': this shop’s server has lost it' : ' yet'}.
          </p>
        }
      >
        {/* Never loaded late: a print would leave it out. */}
        <img
          src={`/api/photos/${photo.sha256}`}
          alt={props.row.title}
          width={photo.widthPx}
          height={photo.heightPx}
          onError={() => setLost(true)}
        />
      </Show>
      <p>
        <b>{props.row.title}</b>
      </p>
      <p class="small">
        {words.person(photo.by)}, {words.moment(photo.doneAt)}, hash{' '}
        <span class="paper-hash">{photo.sha256.slice(0, 12)}</span>
      </p>
    </li>
  )
}
