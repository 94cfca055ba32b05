/** What stands above and below the record on paper, so that it can be read alone, years later. */
import { createMemo, type JSX, Show } from 'solid-js'
import { markOf } from '../../drawings/heads'
import { format } from '../../format'
import { countLines, countWords, isEmpty, occurring, type Query } from '../../job/record/rows'
import { auditLines } from '../../job/record/verdict'
import { useJob } from '../../job/scope'

export function PrintHead(props: { query: Query; shown: string; at: number }) {
  const scope = useJob()
  const job = () => scope.job()
  const people = createMemo(() => occurring(auditLines(scope.job())).people)
  return (
    <header class="print-head">
      <div class="print-title">
        <p class="stencil print-shop">{scope.shop().name}</p>
        <p>
          Fastener record <span class="stencil">{job().number}</span>
        </p>
      </div>
      <dl>
        <Line term="Engine">{job().engine.model}</Line>
        <Line term="Serial">{job().engine.serial}</Line>
        <Show when={job().engine.drives}>{(drives) => <Line term="Drives">{drives()}</Line>}</Show>
        <Line term="Owner">{job().owner}</Line>
        <Show when={job().plan}>
          {(plan) => (
            <Line term="Plan">
              {plan().title}, edition {plan().edition}
            </Line>
          )}
        </Show>
        <Line term="Printed">{format.dateAndTime(props.at)}</Line>
        <Show when={people().length > 0}>
          <Line term="Initials">
            {people()
              .map((id) => `${markOf(scope.shop(), id).initials} ${scope.words.person(id)}`)
              .join(', ')}
          </Line>
        </Show>
        <Line term="Whole record">{countWords(countLines(auditLines(job())))}</Line>
        <Show when={!isEmpty(props.query)}>
          <Line term="Shown here">{props.shown} (a part of the record)</Line>
        </Show>
      </dl>
      <p class="print-caution">
        Paintmark records what people state; it does not verify tightness. The maker’s current information
        governs.
      </p>
      <Show when={job().plan?.invented}>
        <p class="print-invented">The values of this plan are invented. Do not use them on a real engine.</p>
      </Show>
    </header>
  )
}

function Line(props: { term: string; children: JSX.Element }) {
  return (
    <div>
      <dt>{props.term}</dt>
      <dd>{props.children}</dd>
    </div>
  )
}
