/** The shop itself: people, wrenches, tolerances, plans. Everybody may look; supervisor and owner write. */
import { A, useParams } from '@solidjs/router'
import { createMemo, createResource, For, lazy, Match, Show, Switch } from 'solid-js'
import type { BackupsTold } from '../../../shared/protocol'
import { SOMEBODY_WHO_LEADS } from '../../../shared/shop/entitlement'
import { usePageTitle } from '../../frame/title'
import { ask, isFailure } from '../../live/http'
import { useBoard, useSession } from '../../live/live'
import { shopCommandWords } from '../../live/shop-command-words'
import { useShopScope } from '../../shop/scope'
import { doneCount, guideOf } from '../../shop/setup-guide'
import { RefusedList } from '../../ui/RefusedList'
import { Backups } from './Backups'
import { backupSentences } from './backups'
import { People } from './People'
import { OnePlan, Plans } from './Plans'
import { ReadPlan } from './ReadPlan'
import { TolerancesPart } from './TolerancesPart'
import { Wrenches } from './Wrenches'
import { PARTS, whereIs } from './where'
import '../../job/job.css'
import './shop.css'
import './card-form.css'
import './read-plan.css'
import './plan-look.css'

// The way of a plan into the library is a seldom one, and loads its own code.
const FromSheet = lazy(() => import('./sheet'))
const DraftPage = lazy(() => import('./draft'))

export default function ShopPage() {
  const params = useParams<{ rest?: string }>()
  const scope = useShopScope()
  const board = useBoard()
  const where = createMemo(() => whereIs(params.rest ?? ''))
  usePageTitle(() => PARTS.find(({ id }) => id === where().part)?.title ?? 'Shop')
  const onePlan = () => {
    const at = where()
    return 'plan' in at ? at.plan : undefined
  }
  const oneDraft = () => {
    const at = where()
    return 'draft' in at ? at.draft : undefined
  }
  const session = useSession()
  /** The demonstration's shop is made anew each time, and kept nowhere. */
  const isTold = () => scope.mayEdit() && session.me() !== undefined && !session.me()?.demo
  const [told] = createResource(isTold, () => ask<BackupsTold>('/api/backups'))
  const backups = createMemo(() => {
    const answer = told.latest
    return answer && !isFailure(answer) ? backupSentences(answer) : []
  })
  const parts = () => PARTS.filter(({ id }) => id !== 'backups' || isTold())
  const begun = () => guideOf(scope.shop(), board.ids().length)
  return (
    <div class="page shop">
      <div class="shop-head cluster">
        <h1>Shop</h1>
        <nav aria-label="Parts of the shop">
          <ul>
            <For each={parts()}>
              {(part) => (
                <li>
                  <A
                    href={part.id === 'people' ? '/shop' : `/shop/${part.id}`}
                    class="part-link"
                    classList={{ 'part-here': where().part === part.id }}
                    aria-current={where().part === part.id ? 'page' : undefined}
                    activeClass=""
                    end
                  >
                    {part.title}
                  </A>
                </li>
              )}
            </For>
          </ul>
        </nav>
      </div>
      <Show when={!scope.mayEdit()}>
        <p class="pencil part-note">
          You may look at everything here. Only {SOMEBODY_WHO_LEADS} changes it; you set your own PIN.
        </p>
      </Show>
      <Show when={scope.mayEdit() && scope.known() && board.known() && begun().some(({ done }) => !done)}>
        <p class="part-note">
          The shop is being set up: {doneCount(begun())}.{' '}
          <A href="/first-run">Continue with the guided list</A>
        </p>
      </Show>
      <Show when={where().part !== 'backups' && backups().some(({ against }) => against)}>
        <p class="part-note">
          The backups need a look. <A href="/shop/backups">See what is wrong with them</A>
        </p>
      </Show>
      <Show when={scope.known()} fallback={<p class="pencil">Reading the shop…</p>}>
        <Switch>
          <Match when={where().part === 'people'}>
            <People scope={scope} />
          </Match>
          <Match when={where().part === 'wrenches'}>
            <Wrenches scope={scope} />
          </Match>
          <Match when={where().part === 'backups'}>
            <Backups sentences={backups()} />
          </Match>
          <Match when={where().part === 'tolerances'}>
            <TolerancesPart scope={scope} />
          </Match>
          <Match when={'read' in where()}>
            <ReadPlan scope={scope} />
          </Match>
          <Match when={'sheet' in where()}>
            <FromSheet scope={scope} />
          </Match>
          <Match when={oneDraft()} keyed>
            {(id) => <DraftPage scope={scope} id={id} />}
          </Match>
          <Match when={onePlan()} keyed>
            {(plan) => <OnePlan scope={scope} id={plan.id} edition={plan.edition} />}
          </Match>
          <Match when={where().part === 'plans'}>
            <Plans scope={scope} />
          </Match>
        </Switch>
      </Show>
      <RefusedList
        entries={scope.refused()}
        onDismiss={scope.dismiss}
        entered={({ command }) => shopCommandWords(command)}
      />
    </div>
  )
}
