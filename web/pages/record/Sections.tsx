/** The parts of an edition beside its fasteners, each a table that says when it is empty. */
import { createMemo, For, type JSX, Show } from 'solid-js'
import { unpublished } from '../../../shared/audit/awaiting'
import type { PlannedJob } from '../../../shared/job/types'
import type { AdoptedStep } from '../../../shared/plan/types'
import { limitsWords } from '../../../shared/plan/words'
import { format } from '../../format'
import { deferralViews, dueTitle, endedWords } from '../../job/deferrals/deferrals'
import { entryWords, holeRows } from '../../job/record/hole-rows'
import { waiverLines } from '../../job/record/waivers'
import { useJobView } from '../../job/scope'
import { SettledBriefly } from '../../job/settled/Settled'
import {
  byWords,
  doubtLines,
  gateRows,
  gateWords,
  measuredWords,
  measurementRows,
  sealantRows,
  secondWords,
  signatureRows,
} from './edition-rows'

interface Part {
  job: PlannedJob
  steps: readonly AdoptedStep[]
}

export function Signatures(props: Part) {
  const { words } = useJobView()
  return (
    <Table
      title="Signatures"
      heads={['Step', 'What', 'Done and signed', 'Second signature']}
      rows={signatureRows(props.job, props.steps)}
      cells={(row) => [
        row.stepId,
        row.title,
        row.first ? byWords(row.first, words) : 'not signed',
        secondWords(row, words),
      ]}
    />
  )
}

export function Accepted(props: { job: PlannedJob }) {
  const { words } = useJobView()
  return (
    <Table
      title="Accepted with a reason"
      heads={['Step', 'What', 'Reason', 'By']}
      none="Nothing was accepted with a reason."
      rows={waiverLines(props.job).toReversed()}
      cells={({ waiver, name, stepId }) => [
        stepId,
        name,
        waiver.reason,
        `${byWords(waiver, words)}${waiver.ownWork ? ', who had worked on it' : ''}`,
      ]}
    />
  )
}

/** Each in a line; the whole of it stands at its joint. */
export function SettledValues(props: { job: PlannedJob }) {
  return (
    <section class="paper-part">
      <h2>Torques decided where none is published</h2>
      <ul class="paper-notes">
        <For
          each={unpublished(props.job)}
          fallback={<li class="pencil">None: every torque is published.</li>}
        >
          {({ jointTitle, pass, settled }) => (
            <li>
              <Show when={settled} fallback={`${jointTitle}, pass ${pass}: not decided.`}>
                {(value) => <SettledBriefly value={value()} of={`${jointTitle}, pass ${pass}`} />}
              </Show>
            </li>
          )}
        </For>
      </ul>
    </section>
  )
}

export function LeftOut(props: { job: PlannedJob }) {
  const { words } = useJobView()
  return (
    <Table
      title="Left out on purpose, and how it was closed"
      heads={['What', 'Due at', 'Reason', 'By', 'Closed']}
      none="Nothing was left out."
      rows={deferralViews(props.job)}
      cells={(view) => [
        view.what,
        dueTitle(view),
        view.deferral.reason,
        byWords(view.deferral.made, words),
        endedWords(view, words) ?? 'Open.',
      ]}
    />
  )
}

export function Doubts(props: Part) {
  const { words } = useJobView()
  const doubts = createMemo(() => doubtLines(props.job, props.steps, words))
  const notes = () => props.job.notes
  return (
    <section class="paper-part">
      <h2>Doubts and notes</h2>
      <Show when={doubts().length + notes().length > 0} fallback={<p class="pencil">None were recorded.</p>}>
        <ul class="paper-notes">
          <For each={doubts()}>{(line) => <li>{line}</li>}</For>
          <For each={notes()}>
            {(note) => (
              <li>
                {note.stepId ? `${note.stepId}: ` : ''}“{note.text}” {byWords(note, words)}
              </li>
            )}
          </For>
        </ul>
      </Show>
    </section>
  )
}

export function Measurements(props: Part) {
  const { words } = useJobView()
  return (
    <Table
      title="Measurements"
      heads={['Step', 'What', 'Place', 'Measured', 'Asked', 'Instrument', 'By', 'Stands']}
      none="The plan asks for none."
      rows={measurementRows(props.job, props.steps, words)}
      isGone={({ entry }) => entry.struck !== undefined || entry.superseded !== undefined}
      cells={(row) => [
        row.stepId,
        row.asked.title,
        row.entry.place,
        <b>{measuredWords(row)}</b>,
        limitsWords(row.asked, format),
        row.entry.instrument,
        byWords(row.entry, words),
        row.remark,
      ]}
    />
  )
}

/** Every entry, oldest first: what was found, what was done about it, and the bolt that stands there. */
export function Holes(props: Part) {
  const { words } = useJobView()
  return (
    <Table
      title="Threads and holes"
      heads={['Joint', 'Hole', 'Found or done', 'What goes in']}
      none="None was recorded: every thread is taken to be as the maker left it."
      rows={holeRows(props.job, props.steps)}
      cells={(row) => [
        row.title,
        row.position,
        <For each={row.entries} fallback="as the maker left it">
          {(entry) => (
            <p>
              {entryWords(entry, words)} {entry.note ? `“${entry.note}” ` : ''}
              {byWords(entry, words)}
            </p>
          )}
        </For>,
        row.goesIn,
      ]}
    />
  )
}

export function Seals(props: Part) {
  const { words } = useJobView()
  return (
    <Table
      title="Sealant"
      heads={['Step', 'Product', 'First bead', 'Last fastener', 'Open for', 'Cured at']}
      none="The plan asks for none."
      rows={sealantRows(props.job, props.steps)}
      cells={(row) => [
        row.stepId,
        row.product,
        `${words.moment(row.started.doneAt)}, ${words.person(row.started.by)}`,
        row.closed ? words.moment(row.closed.doneAt) : 'not recorded',
        [
          row.minutes === undefined
            ? ''
            : `${format.duration(row.minutes)} of ${format.duration(row.within)}`,
          row.remark,
        ]
          .filter(Boolean)
          .join(', '),
        row.curedAt === undefined ? '' : words.moment(row.curedAt),
      ]}
    />
  )
}

export function Gates(props: Part) {
  const { words } = useJobView()
  return (
    <Table
      title="Gates"
      heads={['Step', 'Check before signing', 'Answer']}
      none="The plan has none."
      rows={gateRows(props.job, props.steps)}
      cells={(row) => [row.stepId, row.text, gateWords(row, words)]}
    />
  )
}

interface TableProps<R> {
  title: string
  heads: readonly string[]
  rows: readonly R[]
  /** What a row says, the first of it at its head. */
  cells(row: R): JSX.Element[]
  /** It no longer counts. */
  isGone?(row: R): boolean
  /** Said where there is no row. */
  none?: string
}

function Table<R>(props: TableProps<R>) {
  const rows = createMemo(() => props.rows)
  return (
    <section class="paper-part">
      <h2>{props.title}</h2>
      <Show when={rows().length > 0} fallback={<p class="pencil">{props.none}</p>}>
        <section class="paper-scroll" tabindex="0" aria-label={props.title}>
          <table class="paper-table">
            <thead>
              <tr>
                <For each={props.heads}>{(head) => <th scope="col">{head}</th>}</For>
              </tr>
            </thead>
            <tbody>
              <For each={rows()}>
                {(row) => {
                  const [head, ...cells] = props.cells(row)
                  return (
                    <tr classList={{ gone: props.isGone?.(row) }}>
                      <th scope="row">{head}</th>
                      {cells.map((cell) => (
                        <td>{cell}</td>
                      ))}
                    </tr>
                  )
                }}
              </For>
            </tbody>
          </table>
        </section>
      </Show>
    </section>
  )
}
