/** The tightening order, drawn on the bolts as they might stand. */
import { Match, Show, Switch } from 'solid-js'
import { BoltMap } from '../../drawings/BoltMap'
import type { Head } from '../../drawings/heads'
import { Basis } from '../../ui/Basis'
import { orderBasis } from './calculation'
import { SelectInput, TextInput, useCalculator } from './fields'
import { Why } from './HoleRow'
import type { Ordered } from './order'
import { answerOf } from './part'

export function OrderRow() {
  const { calculation, refs } = useCalculator()
  const order = () => answerOf(calculation().order)
  return (
    <section class="desk-row" aria-labelledby="desk-order">
      <div class="desk-asked stack roomy">
        <h2 id="desk-order">The order</h2>
        <div class="desk-pair">
          <SelectInput
            field="pattern"
            options={[
              { value: 'circle', title: 'a circle' },
              { value: 'rows', title: 'rows' },
            ]}
          />
          <TextInput field="count" inputMode="numeric" />
          <Show when={calculation().inputs.pattern === 'rows'}>
            <TextInput field="rows" hint="Two for even counts unless entered." inputMode="numeric" />
          </Show>
        </div>
      </div>
      <div class="desk-answers stack apart">
        <section
          class="desk-answer stack"
          classList={{ 'desk-greyed': !order() }}
          aria-labelledby="desk-tighten"
        >
          <h3 id="desk-tighten">Tightening order</h3>
          <Switch>
            <Match when={order()}>
              {(ordered) => (
                <>
                  <p>
                    Proposed: the big number is the turn, the small one the position. An order the maker
                    prints counts first.
                  </p>
                  <div class="desk-map">
                    <BoltMap
                      positions={ordered().positions}
                      outline={ordered().outline}
                      heads={headsOf(ordered())}
                      label={`Tighten ${ordered().proposed.order.join(', ')}`}
                      order={ordered().proposed.order}
                      height={330}
                      fit
                    />
                  </div>
                  <p>
                    Tighten {ordered().proposed.order.join(', ')}. Loosen{' '}
                    {ordered().proposed.loosening.join(', ')}.
                  </p>
                  <Basis ids={[orderBasis(ordered())]} of="the order" refs={refs} />
                </>
              )}
            </Match>
            <Match when={calculation().order.state !== 'there'}>
              <Why part={calculation().order} />
            </Match>
          </Switch>
        </section>
      </div>
    </section>
  )
}

function headsOf({ positions, proposed }: Ordered): Head[] {
  const turn = new Map(proposed.order.map((n, i) => [n, i + 1]))
  return positions.map(({ n }) => ({ n, figure: String(turn.get(n)), label: String(n), state: 'open' }))
}
