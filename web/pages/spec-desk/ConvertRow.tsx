/** A torque in any spelling of any unit, in all the others. */
import { For, Match, Switch } from 'solid-js'
import { TextInput, useCalculator } from './fields'
import { inState } from './part'
import { Readings, Row } from './sheet'

export function ConvertRow() {
  const { calculation } = useCalculator()
  return (
    <Row
      title="Convert"
      asks={<TextInput field="convert" hint="35 ft. lbs., 12,5 daN·m, 3.2 mkg, 806 kgf-cm." />}
    >
      <section
        class="desk-answer stack"
        classList={{ 'desk-greyed': calculation().converted.state === 'none' }}
      >
        <Switch fallback={<p>Type a torque with its unit to see it in all the others.</p>}>
          <Match when={inState(calculation().converted, 'refused')}>
            {(unread) => <Readings of={unread()} field="convert" />}
          </Match>
          <Match when={inState(calculation().converted, 'read')}>
            {(converted) => (
              <>
                <dl class="desk-facts">
                  <For each={converted().rows}>
                    {(row) => (
                      <div classList={{ 'desk-typed': row.asTyped }}>
                        <dt>{row.unit}</dt>
                        <dd>{row.shown}</dd>
                      </div>
                    )}
                  </For>
                </dl>
                <p class="small pencil">
                  Exact by definition: 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg, gn = 9.806 65 m/s² (NIST SP
                  811).
                </p>
              </>
            )}
          </Match>
        </Switch>
      </section>
    </Row>
  )
}
