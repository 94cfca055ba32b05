/** The fastener: thread, class, lubrication, and what the manual prints; beside it the torque band. */
import { A } from '@solidjs/router'
import { For, Match, Show, Switch } from 'solid-js'
import { LUBRICATIONS } from '../../../shared/fastener'
import { EmptyState } from '../../ui/EmptyState'
import { SelectInput, TextInput, useCalculator } from './fields'
import { PrintedAnswer } from './PrintedAnswer'
import { Row } from './sheet'
import { ThreadFacts } from './ThreadFacts'
import { TorqueAnswer } from './TorqueAnswer'
import { LUBRICATION_WORDS } from './tension'

const GRADES = ['8.8', '10.9', '12.9', '5.8', '4.6', 'SAE 2', 'SAE 5', 'SAE 8', 'A2-70', 'A4-70', 'A4-80']
const STATES = [
  { value: '', title: 'not said' },
  ...LUBRICATIONS.map((state) => ({ value: state, title: LUBRICATION_WORDS[state] })),
  { value: 'measured', title: 'measured: friction entered' },
]
const EXAMPLES = ['M10x1.25', '3/8-16 UNC', '#10-32']

export function FastenerRow() {
  const { calculation } = useCalculator()
  return (
    <Row
      title="The fastener"
      asks={
        <>
          <TextInput field="thread" hint="As printed: M10x1.25, 3/8-16 UNC, #10-32." />
          <TextInput field="grade" hint="As marked on the head: 8.8, 10.9, SAE 5, A2-70." list={GRADES} />
          <SelectInput field="lubrication" options={STATES} />
          <Show when={calculation().inputs.lubrication === 'measured'}>
            <TextInput field="mu" hint="Thread and head alike: 0.12, or 0.10 to 0.14." inputMode="text" />
          </Show>
          <TextInput
            field="printed"
            hint="As it stands there: 24 ±4 N·m (18 ±3 lb-ft), 30 Nm + 90°. It counts before anything computed."
            long
          />
          <details
            class="desk-more"
            open={['utilisation', 'headBearing', 'clearanceHole'].some(
              (field) => calculation().inputs[field as 'utilisation'] !== '',
            )}
          >
            <summary>Head, clearance hole, share of yield</summary>
            <div class="desk-pair">
              <TextInput field="headBearing" hint="Plain hexagon head unless entered." inputMode="decimal" />
              <TextInput field="clearanceHole" hint="Medium hole unless entered." inputMode="decimal" />
              <TextInput field="utilisation" hint="0.9 unless entered." inputMode="decimal" />
            </div>
          </details>
        </>
      }
    >
      <Show when={calculation().printed.state !== 'none'}>
        <PrintedAnswer />
      </Show>
      <Switch>
        <Match when={calculation().thread.state === 'open'}>
          <EmptyState title="Type a thread as it is printed.">
            <p>
              Its torque band, what strips first, whether the bolt fits its hole, what to set on which wrench
              and the tightening order then stand here, each with formula and source.
            </p>
            <ul class="cluster roomy">
              <For each={EXAMPLES}>
                {(example) => (
                  <li>
                    <A class="button" href={`/desk?thread=${encodeURIComponent(example)}`}>
                      {example}
                    </A>
                  </li>
                )}
              </For>
            </ul>
          </EmptyState>
        </Match>
        <Match when={calculation().thread.state !== 'open'}>
          <TorqueAnswer />
          <ThreadFacts />
        </Match>
      </Switch>
    </Row>
  )
}
