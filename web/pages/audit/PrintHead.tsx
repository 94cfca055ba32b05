/** What stands above and below the record on paper, so that it can be read alone, years later. */

import { Show } from 'solid-js'
import { markOf } from '../../drawings/heads'
import { format } from '../../format'
import { EngineFacts } from '../../job/JobHead'
import { countWords, isEmpty, type Query } from '../../job/record/rows'
import type { AuditLine } from '../../job/record/verdict'
import { useJob } from '../../job/scope'
import { Fact } from '../../ui/Fact'

interface PrintHeadProps {
  query: Query
  /** All lines of the record. */
  lines: readonly AuditLine[]
  /** Who occurs in them. */
  people: readonly string[]
  shown: string
  at: number
}

export function PrintHead(props: PrintHeadProps) {
  const scope = useJob()
  const job = () => scope.job()
  return (
    <header class="print-head">
      <div class="print-title">
        <p class="stencil print-shop">{scope.shop().name}</p>
        <p>
          Fastener record <span class="stencil">{job().number}</span>
        </p>
      </div>
      <dl>
        <EngineFacts job={job()} withModel />
        <Show when={job().plan}>
          {(plan) => (
            <Fact term="Plan">
              {plan().title}, edition {plan().edition}
            </Fact>
          )}
        </Show>
        <Fact term="Printed">{format.dateAndTime(props.at)}</Fact>
        <Show when={props.people.length > 0}>
          <Fact term="Initials">
            {props.people
              .map((id) => `${markOf(scope.shop(), id).initials} ${scope.words.person(id)}`)
              .join(', ')}
          </Fact>
        </Show>
        <Fact term="Whole record">{countWords(props.lines)}</Fact>
        <Show when={!isEmpty(props.query)}>
          <Fact term="Shown here">{props.shown} (a part of the record)</Fact>
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
