/** The parts of an edition beside its fasteners, each a table that says when it is empty. */
import { createMemo, For, type JSX, Show } from 'solid-js'
import { basisWords } from '../../../shared/job/trail/sentences'
import type { PlannedJob } from '../../../shared/job/types'
import type { AdoptedStep } from '../../../shared/plan/types'
import { bandWords } from '../../../shared/plan/words'
import { format } from '../../format'
import { deferralViews, dueTitle, endedWords } from '../../job/deferrals/deferrals'
import { entryWords, holeRows } from '../../job/record/hole-rows'
import { showNm } from '../../job/record/rows'
import { waiverLines } from '../../job/record/waivers'
import { useJobView } from '../../job/scope'
import {
  askedWords,
  doubtLines,
  gateRows,
  gateWords,
  measuredWords,
  measurementRows,
  noteRows,
  sealantRows,
  secondWords,
  settledRows,
  signatureRows,
} from './edition-rows'

interface Part {
  job: PlannedJob
  steps: readonly AdoptedStep[]
}

export function Signatures(props: Part) {
  const { words } = useJobView()
  const rows = createMemo(() => signatureRows(props.job, props.steps))
  return (
    <Table
      title="Signatures"
      heads={['Step', 'What', 'Done and signed', 'Second signature']}
      count={rows().length}
    >
      <For each={rows()}>
        {(row) => (
          <tr>
            <th scope="row">{row.stepId}</th>
            <td>{row.title}</td>
            <td>
              {row.first ? `${words.person(row.first.by)}, ${words.moment(row.first.doneAt)}` : 'not signed'}
            </td>
            <td>{secondWords(row, words)}</td>
          </tr>
        )}
      </For>
    </Table>
  )
}

export function Accepted(props: { job: PlannedJob }) {
  const { words } = useJobView()
  const rows = createMemo(() => waiverLines(props.job).toReversed())
  return (
    <Table
      title="Accepted with a reason"
      heads={['Step', 'What', 'Reason', 'By']}
      count={rows().length}
      none="Nothing was accepted with a reason."
    >
      <For each={rows()}>
        {({ waiver, name, stepId }) => (
          <tr>
            <th scope="row">{stepId}</th>
            <td>{name}</td>
            <td>{waiver.reason}</td>
            <td>
              {words.person(waiver.by)}, {words.moment(waiver.doneAt)}
              {waiver.ownWork ? ', who had worked on it' : ''}
            </td>
          </tr>
        )}
      </For>
    </Table>
  )
}

export function SettledValues(props: { job: PlannedJob }) {
  const { words } = useJobView()
  const rows = createMemo(() => settledRows(props.job))
  return (
    <Table
      title="Values settled where none is published"
      heads={['Joint', 'Value', 'Rests on', 'Reason', 'By']}
      count={rows().length}
      none="None: every torque has a published value."
    >
      <For each={rows()}>
        {({ joint, title, pass, value, inForce }) => (
          <tr classList={{ gone: !inForce }}>
            <th scope="row">
              {title} {joint}, pass {pass}
            </th>
            <td>
              {showNm(value.torqueNm)} N·m, {bandWords(value.band, format)}
              {inForce ? '' : ', settled anew since'}
            </td>
            <td>{basisWords(value.basis)}</td>
            <td>{value.reason}</td>
            <td>
              {words.person(value.by)}, {words.moment(value.doneAt)}
            </td>
          </tr>
        )}
      </For>
    </Table>
  )
}

export function LeftOut(props: { job: PlannedJob }) {
  const { words } = useJobView()
  const rows = createMemo(() => deferralViews(props.job))
  return (
    <Table
      title="Left out on purpose, and how it was closed"
      heads={['What', 'Due at', 'Reason', 'By', 'Closed']}
      count={rows().length}
      none="Nothing was left out."
    >
      <For each={rows()}>
        {(view) => (
          <tr>
            <th scope="row">{view.what}</th>
            <td>{dueTitle(view)}</td>
            <td>{view.deferral.reason}</td>
            <td>
              {words.person(view.deferral.made.by)}, {words.moment(view.deferral.made.doneAt)}
            </td>
            <td>{endedWords(view, words) ?? 'Open.'}</td>
          </tr>
        )}
      </For>
    </Table>
  )
}

export function Doubts(props: Part) {
  const { words } = useJobView()
  const doubts = createMemo(() => doubtLines(props.job, props.steps, words))
  const notes = createMemo(() => noteRows(props.job))
  return (
    <section class="paper-part">
      <h2>Doubts and notes</h2>
      <Show when={doubts().length + notes().length > 0} fallback={<p class="pencil">None were recorded.</p>}>
        <ul class="paper-notes">
          <For each={doubts()}>{(line) => <li>{line}</li>}</For>
          <For each={notes()}>
            {(note) => (
              <li>
                {note.stepId ? `${note.stepId}: ` : ''}“{note.text}” {words.person(note.by)},{' '}
                {words.moment(note.doneAt)}
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
  const rows = createMemo(() => measurementRows(props.job, props.steps, words))
  return (
    <Table
      title="Measurements"
      heads={['Step', 'What', 'Place', 'Measured', 'Asked', 'Instrument', 'By', 'Stands']}
      count={rows().length}
      none="The plan asks for none."
    >
      <For each={rows()}>
        {(row) => (
          <tr classList={{ gone: row.entry.struck !== undefined || row.entry.superseded !== undefined }}>
            <th scope="row">{row.stepId}</th>
            <td>{row.asked.title}</td>
            <td>{row.entry.place}</td>
            <td>
              <b>{measuredWords(row)}</b>
            </td>
            <td>{askedWords(row)}</td>
            <td>{row.entry.instrument}</td>
            <td>
              {words.person(row.entry.by)}, {words.moment(row.entry.doneAt)}
            </td>
            <td>{row.remark}</td>
          </tr>
        )}
      </For>
    </Table>
  )
}

/** Every entry, oldest first: what was found, what was done about it, and the bolt that stands there. */
export function Holes(props: Part) {
  const { words } = useJobView()
  const rows = createMemo(() => holeRows(props.job, props.steps))
  return (
    <Table
      title="Threads and holes"
      heads={['Joint', 'Hole', 'Found or done', 'What goes in']}
      count={rows().length}
      none="None was recorded: every thread is taken to be as the maker left it."
    >
      <For each={rows()}>
        {(row) => (
          <tr>
            <th scope="row">
              {row.title} {row.joint.id}
            </th>
            <td>{row.position}</td>
            <td>
              <For each={row.entries} fallback="as the maker left it">
                {(entry) => (
                  <p>
                    {entryWords(entry, words)} {entry.note ? `“${entry.note}” ` : ''}
                    {words.person(entry.by)}, {words.moment(entry.doneAt)}
                  </p>
                )}
              </For>
            </td>
            <td>{row.goesIn}</td>
          </tr>
        )}
      </For>
    </Table>
  )
}

export function Seals(props: Part) {
  const { words } = useJobView()
  const rows = createMemo(() => sealantRows(props.job, props.steps))
  return (
    <Table
      title="Sealant"
      heads={['Step', 'Product', 'First bead', 'Last fastener', 'Open for', 'Cured at']}
      count={rows().length}
      none="The plan asks for none."
    >
      <For each={rows()}>
        {(row) => (
          <tr>
            <th scope="row">{row.stepId}</th>
            <td>{row.product}</td>
            <td>
              {words.moment(row.started.doneAt)}, {words.person(row.started.by)}
            </td>
            <td>{row.closed ? words.moment(row.closed.doneAt) : 'not recorded'}</td>
            <td>
              {row.minutes === undefined ? '' : `${row.minutes} of ${row.within} min`}
              {row.remark ? `, ${row.remark}` : ''}
            </td>
            <td>{row.curedAt === undefined ? '' : words.moment(row.curedAt)}</td>
          </tr>
        )}
      </For>
    </Table>
  )
}

export function Gates(props: Part) {
  const { words } = useJobView()
  const rows = createMemo(() => gateRows(props.job, props.steps))
  return (
    <Table
      title="Gates"
      heads={['Step', 'What must be so', 'Answer']}
      count={rows().length}
      none="The plan has none."
    >
      <For each={rows()}>
        {(row) => (
          <tr>
            <th scope="row">{row.stepId}</th>
            <td>{row.text}</td>
            <td>{gateWords(row, words)}</td>
          </tr>
        )}
      </For>
    </Table>
  )
}

interface TableProps {
  title: string
  heads: readonly string[]
  count: number
  none?: string
  children: JSX.Element
}

function Table(props: TableProps) {
  return (
    <section class="paper-part">
      <h2>{props.title}</h2>
      <Show when={props.count > 0} fallback={<p class="pencil">{props.none}</p>}>
        <section class="paper-scroll" tabindex="0" aria-label={props.title}>
          <table class="paper-table">
            <thead>
              <tr>
                <For each={props.heads}>{(head) => <th scope="col">{head}</th>}</For>
              </tr>
            </thead>
            <tbody>{props.children}</tbody>
          </table>
        </section>
      </Show>
    </section>
  )
}
