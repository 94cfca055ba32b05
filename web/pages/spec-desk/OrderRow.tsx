/** The tightening order, drawn on the bolts as they might stand. */
import { Match, Show, Switch } from 'solid-js'
import { BoltMap } from '../../drawings/BoltMap'
import type { Head } from '../../drawings/heads'
import { Basis } from '../../ui/Basis'
import { Ask, Choose, useDesk } from './ask'
import { orderBasis } from './desk'
import { Why } from './HoleRow'
import type { Ordered } from './order'
import { answerOf } from './part'

export function OrderRow() {
  const { desk, refs } = useDesk()
  const order = () => answerOf(desk().order)
  return (
    <section class="desk-row" aria-labelledby="desk-order">
      <div class="desk-asked stack roomy">
        <h2 id="desk-order">The order</h2>
        <div class="desk-pair">
          <Choose
            field="pattern"
            choices={[
              ['circle', 'a circle'],
              ['rows', 'rows'],
            ]}
          />
          <Ask field="count" inputMode="numeric" />
          <Show when={desk().asked.pattern === 'rows'}>
            <Ask field="rows" hint="Two for even counts unless entered." inputMode="numeric" />
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
              {(one) => (
                <>
                  <p>
                    Proposed: the big number is the turn, the small one the position. An order the maker
                    prints stands above it.
                  </p>
                  <div class="desk-map">
                    <BoltMap
                      positions={one().positions}
                      outline={one().outline}
                      heads={headsOf(one())}
                      label={`Tighten ${one().proposed.order.join(', ')}`}
                      order={one().proposed.order}
                      height={330}
                      fit
                    />
                  </div>
                  <p>
                    Tighten {one().proposed.order.join(', ')}. Loosen {one().proposed.loosening.join(', ')}.
                  </p>
                  <Basis ids={[orderBasis(one())]} of="the order" refs={refs} />
                </>
              )}
            </Match>
            <Match when={desk().order.state !== 'there'}>
              <Why part={desk().order} />
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
