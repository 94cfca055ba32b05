/** The plan's wrench does not fit: the best one that does, each with its reason. The hand chooses. */
import { createMemo, Show } from 'solid-js'
import { upperFirst } from '../../../shared/words'
import { againstWrench } from '../../../shared/wrench'
import { Button } from '../../ui/Button'
import { useBench } from './bench'
import { rangeWords, wrenchOffer } from './wrench'
import './beside.css'
import { format } from '../../format'

export function WrenchOffer() {
  const bench = useBench()
  const offer = createMemo(() => wrenchOffer(bench.wrenchChoices(), bench.wrench()?.id))
  return (
    <Show when={offer()}>
      {(offer) => (
        <section class="offer" aria-label="Another wrench">
          <p>
            <strong>{offer().unfit.wrench.id}</strong>{' '}
            <span class="against-words">
              does not fit. {upperFirst(againstWrench(offer().unfit, format).join('; '))}.
            </span>
          </p>
          <Show
            when={offer().fit}
            fallback={<p>No other wrench in the crib fits. Readings with this one are flagged.</p>}
          >
            {(other) => (
              <>
                <p>
                  <strong>{other().wrench.id}</strong> fits: {rangeWords(other().wrench)},{' '}
                  {other().wrench.title}.
                  <Show when={againstWrench(other(), format).join('; ')}>
                    {(words) => <span class="pencil"> {upperFirst(words())}.</span>}
                  </Show>
                </p>
                <Button variant="main" wide onClick={() => bench.takeWrench(other().wrench.id)}>
                  Take {other().wrench.id}
                </Button>
              </>
            )}
          </Show>
        </section>
      )}
    </Show>
  )
}
