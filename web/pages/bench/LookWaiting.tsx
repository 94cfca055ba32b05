/** A look noted without the server: as soon as the link is back the page asks for the PIN that makes it a signature. */
import { createMemo, For, Show } from 'solid-js'
import { setViews } from '../../../shared/job/verdicts'
import { useJob } from '../../job/scope'
import { GIVE_SECOND } from '../../job/step/second-words'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { useBench } from './bench'

export function LookWaiting() {
  const bench = useBench()
  const scope = useJob()
  const looks = createMemo(() =>
    setViews(scope.planned(), bench.step()).flatMap(({ set, state: { look, second } }) =>
      look && !second ? [{ set, look }] : [],
    ),
  )
  return (
    <For each={looks()}>
      {({ set, look }) => (
        <section class="offer" aria-label="Look noted">
          <p>
            Look noted: <Stripe person={look.personId} name="after" />, {scope.words.moment(look.doneAt)},{' '}
            {set.title}.
          </p>
          <Show
            when={scope.link() === 'live'}
            fallback={<p class="small">It becomes a signature with their PIN, when the signal is back.</p>}
          >
            <Button variant="main" wide onClick={() => bench.open({ dialog: 'second', setId: set.id })}>
              {GIVE_SECOND} as {scope.words.person(look.personId)}
            </Button>
          </Show>
        </section>
      )}
    </For>
  )
}
