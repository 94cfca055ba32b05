/** The tightening order, drawn on the bolts as they might stand. */
import { Show } from 'solid-js'
import { BoltMap } from '../../drawings/BoltMap'
import type { Head } from '../../drawings/heads'
import { orderBasis } from './calculation'
import { SelectInput, TextInput, useCalculator } from './fields'
import type { Ordered } from './order'
import { Answer, Row, Sources } from './sheet'

export function OrderRow() {
  const { calculation } = useCalculator()
  return (
    <Row
      title="The order"
      asks={
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
      }
    >
      <Answer title="Tightening order" part={calculation().order}>
        {(ordered) => (
          <>
            <p>
              Proposed: the big number is the turn, the small one the position. An order the maker prints
              counts first.
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
              Tighten {ordered().proposed.order.join(', ')}. Loosen {ordered().proposed.loosening.join(', ')}.
            </p>
            <Sources ids={[orderBasis(ordered())]} of="the order" />
          </>
        )}
      </Answer>
    </Row>
  )
}

function headsOf({ positions, proposed }: Ordered): Head[] {
  const turn = new Map(proposed.order.map((n, i) => [n, i + 1]))
  return positions.map(({ n }) => ({ n, figure: String(turn.get(n)), label: String(n), state: 'open' }))
}
