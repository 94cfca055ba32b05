/** A look that is no signature: why, and the press that asks for the PIN which makes it one. */
import { createMemo, For, Match, Switch } from 'solid-js'
import { LOOK_FLAGS } from '../../../shared/job/kinds'
import { setViews } from '../../../shared/job/verdicts'
import { useJob } from '../../job/scope'
import { GIVE_SECOND, isSealedHere, SEALED_WAITS } from '../../job/step/second-words'
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
            {set.title}.{look.flag ? ` No second signature: ${LOOK_FLAGS[look.flag]}.` : ''}
          </p>
          <Switch
            fallback={<p class="small">It becomes a signature with their PIN, when the signal is back.</p>}
          >
            <Match when={isSealedHere(scope.pending(), bench.step().id, set.id)}>
              <p class="small">{SEALED_WAITS} It becomes a signature if nothing on the step has changed.</p>
            </Match>
            <Match when={scope.link() === 'live' || scope.sealing()}>
              <Button variant="main" wide onClick={() => bench.open({ dialog: 'second', setId: set.id })}>
                {GIVE_SECOND} as {scope.words.person(look.personId)}
              </Button>
            </Match>
          </Switch>
        </section>
      )}
    </For>
  )
}
