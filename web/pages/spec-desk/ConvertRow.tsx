/** A torque in any spelling of any unit, in all the others. */
import { For, Match, Switch } from 'solid-js'
import { Button } from '../../ui/Button'
import { TextInput, useCalculator } from './fields'
import type { Converted } from './printed'

export function ConvertRow() {
  const { calculation, set } = useCalculator()
  const read = () =>
    calculation().converted.state === 'read'
      ? (calculation().converted as Extract<Converted, { state: 'read' }>)
      : undefined
  const refused = () =>
    calculation().converted.state === 'refused'
      ? (calculation().converted as Extract<Converted, { state: 'refused' }>)
      : undefined
  return (
    <section class="desk-row desk-convert" aria-labelledby="desk-convert">
      <div class="desk-asked stack roomy">
        <h2 id="desk-convert">Convert</h2>
        <TextInput field="convert" hint="35 ft. lbs., 12,5 daN·m, 3.2 mkg, 806 kgf-cm." />
      </div>
      <div class="desk-answers stack apart">
        <Switch
          fallback={
            <section class="desk-answer desk-greyed stack">
              <p>Type a torque with its unit to see it in all the others.</p>
            </section>
          }
        >
          <Match when={refused()}>
            {(no) => (
              <section class="desk-answer stack">
                <p class="sentence against">{no().why}</p>
                <div class="cluster roomy">
                  <For each={no().readings}>
                    {(reading) => (
                      <Button onClick={() => set('convert', reading.text)}>{reading.text}</Button>
                    )}
                  </For>
                </div>
              </section>
            )}
          </Match>
          <Match when={read()}>
            {(converted) => (
              <section class="desk-answer stack">
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
              </section>
            )}
          </Match>
        </Switch>
      </div>
    </section>
  )
}
