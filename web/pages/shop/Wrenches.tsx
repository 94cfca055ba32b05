/** The wrench crib: what each covers, when it was checked, whether it can be used today. */
import { createMemo, For, Show } from 'solid-js'
import { FIELD_WORDS } from '../../../shared/format/field-words'
import { SOMEBODY_WHO_LEADS } from '../../../shared/shop/entitlement'
import { WRENCH_KINDS } from '../../../shared/shop/kinds'
import type { Wrench } from '../../../shared/shop/types'
import { upperFirst } from '../../../shared/words'
import { format } from '../../format'
import type { ShopScope } from '../../shop/scope'
import { Button } from '../../ui/Button'
import { createDialogs } from '../../ui/dialogs'
import { EmptyState } from '../../ui/EmptyState'
import { PartHead } from './PartHead'
import { WrenchForm } from './WrenchForm'
import { inCrib, rangeWords, wrenchStanding } from './wrenches'

type WrenchDialog = { dialog: 'card'; before?: Wrench }

export function Wrenches(props: { scope: ShopScope }) {
  const { scope } = props
  const dialogs = createDialogs<WrenchDialog>({
    card: (dialog) => <WrenchForm scope={scope} {...dialog} />,
  })
  const crib = createMemo(() => inCrib(Object.values(scope.shop().wrenches), scope.now()))
  const against = () => crib().filter((wrench) => wrenchStanding(wrench, scope.now()).against).length
  return (
    <section aria-labelledby="crib-title">
      <PartHead
        id="crib-title"
        title="Wrench crib"
        beside={`${crib().length}${against() > 0 ? `, ${against()} not to be used` : ''}`}
      >
        <Show when={scope.mayEdit()}>
          <Button onClick={() => dialogs.open({ dialog: 'card' })}>Add wrench</Button>
        </Show>
      </PartHead>
      <Show
        when={crib().length > 0}
        fallback={
          <EmptyState title="The crib is empty.">
            <p>
              Each wrench gets a card here: its scale, its unit, when it was checked. The bench offers those
              that fit the joint, and holds up a number that could be a slip between their units.
            </p>
            <Show when={!scope.mayEdit()}>
              <p>{upperFirst(SOMEBODY_WHO_LEADS)} adds them here.</p>
            </Show>
          </EmptyState>
        }
      >
        <ul class="cards">
          <For each={crib()}>
            {(wrench) => {
              const standing = () => wrenchStanding(wrench, scope.now())
              return (
                <li class="shop-card wrench stack" classList={{ 'card-against': standing().against }}>
                  <h3>
                    <span class="stencil">{wrench.id}</span> {wrench.title}
                  </h3>
                  <p class="strong">{rangeWords(wrench)}</p>
                  <p class="pencil">{WRENCH_KINDS[wrench.kind].word}</p>
                  <p class="strong" classList={{ against: standing().against }}>
                    {standing().words}
                  </p>
                  <dl class="pairs">
                    <Show when={wrench.lengthMm}>
                      {(length) => (
                        <>
                          <dt>Drive to grip</dt>
                          <dd>{format.number(length())} mm</dd>
                        </>
                      )}
                    </Show>
                    <Show when={wrench.away}>
                      <dt>Where</dt>
                      <dd>{wrench.away}</dd>
                    </Show>
                    <dt>{FIELD_WORDS.lastCheckedAt}</dt>
                    <dd>
                      {wrench.lastCheckedAt === undefined ? 'not entered' : format.date(wrench.lastCheckedAt)}
                    </dd>
                    {/* Whatever was due once: out of service, it is checked before it is used. */}
                    <Show when={wrench.state === 'in_service'}>
                      <dt>{FIELD_WORDS.dueAt}</dt>
                      <dd>{wrench.dueAt === undefined ? 'not entered' : format.date(wrench.dueAt)}</dd>
                    </Show>
                  </dl>
                  <Show when={scope.mayEdit()}>
                    <div class="card-acts cluster">
                      <Button
                        onClick={() => dialogs.open({ dialog: 'card', before: wrench })}
                        aria-label={`Change ${wrench.id}`}
                      >
                        Change
                      </Button>
                    </div>
                  </Show>
                </li>
              )
            }}
          </For>
        </ul>
      </Show>
      <dialogs.Outlet />
    </section>
  )
}
