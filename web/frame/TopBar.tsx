/** Shop, pages, link, light, and who is signed in. */

import { A, useLocation } from '@solidjs/router'
import { createMemo, createSignal, For, lazy, onCleanup, Show, Suspense } from 'solid-js'
import { auditHref, benchHref, engineHref } from '../hrefs'
import { useLive } from '../live/live'
import { isRefused } from '../live/outbox'
import { paintColour } from '../ui/paint'
import { makeLight } from './light'
import { linkWords, type Waits } from './link-words'

const ChangePerson = lazy(() => import('./ChangePerson'))
const WaitingEntries = lazy(() => import('./WaitingEntries'))

interface PageLink {
  href: string
  title: string
  /** Other pages below the same address. */
  exact: boolean
}

export function TopBar() {
  const { session, link, photos, entries, isKept, isAside, lostEntries } = useLive()
  const location = useLocation()
  const { light, turn } = makeLight()
  const [changing, setChanging] = createSignal(false)
  const [looking, setLooking] = createSignal(false)
  // Both are asked for when there is no signal: their code has to be here by then.
  onCleanup(
    link.onUp(() => {
      for (const part of [ChangePerson, WaitingEntries]) void part.preload().catch(() => undefined)
    }),
  )
  const jobId = createMemo(() => location.pathname.match(/^\/jobs\/([^/]+)/)?.[1])

  const pages = createMemo((): PageLink[] => {
    const id = jobId()
    return [
      { href: '/', title: 'Board', exact: true },
      ...(id
        ? [
            { href: engineHref(id), title: 'Engine', exact: true },
            { href: benchHref(id), title: 'Bench', exact: false },
            { href: auditHref(id), title: 'Audit', exact: false },
          ]
        : []),
      { href: '/desk', title: 'Spec desk', exact: true },
      { href: '/shop', title: 'Shop', exact: false },
    ]
  })

  const waits = createMemo((): Waits => {
    const waiting = entries().filter((entry) => !isRefused(entry))
    const { waiting: pictures, refused, unheld } = photos.now()
    return {
      entries: waiting.length,
      photos: pictures.length,
      refused: { entries: entries().length - waiting.length, photos: refused.length },
      kept: unheld.length === 0 && waiting.every(({ command }) => isKept(command.commandId)),
      lost: lostEntries.lost().reduce((sum, { count }) => sum + count, 0),
    }
  })

  const isCut = () => link.state() === 'lost' || link.state() === 'apart'
  const isAnyAgainst = () => waits().refused.entries + waits().refused.photos + waits().lost > 0
  /** What goes up in the ordinary way comes and goes too fast to be pressed. */
  const isWorthALook = () =>
    isAnyAgainst() ||
    (isCut() && waits().entries + waits().photos > 0) ||
    entries().some(({ command }) => isAside(command.commandId))

  return (
    <header class="top-bar">
      <A class="shop-name stencil" href="/">
        {session.me()?.shop.name || 'Paintmark'}
      </A>
      <Show when={session.person()}>
        <nav aria-label="Pages">
          <ul>
            <For each={pages()}>
              {(page) => (
                <li>
                  <A href={page.href} end={page.exact} activeClass="here">
                    {page.title}
                  </A>
                </li>
              )}
            </For>
          </ul>
        </nav>
      </Show>
      <div class="top-side">
        <Show when={session.person()}>
          <p class="link-state" classList={{ lost: isCut() || isAnyAgainst() }} role="status">
            <Show when={isWorthALook()} fallback={linkWords(link.state(), waits())}>
              <button
                type="button"
                class="link-waits"
                aria-haspopup="dialog"
                onClick={() => setLooking(true)}
              >
                {linkWords(link.state(), waits())}
              </button>
            </Show>
          </p>
        </Show>
        <button type="button" class="light-switch" aria-pressed={light() === 'night'} onClick={turn}>
          <span aria-hidden="true" class="lamp" />
          <span class="light-word">Night</span>
        </button>
        <Show when={session.person()}>
          {(person) => (
            <button type="button" class="who" aria-haspopup="dialog" onClick={() => setChanging(true)}>
              <span class="stripe" style={{ '--paint': paintColour(person().paint) }}>
                <span class="stripe-paint" aria-hidden="true" />
                <span class="stripe-initials">{person().initials}</span>
                <span class="who-name">{person().name}</span>
              </span>
              <span class="unseen">is signed in. Change person</span>
            </button>
          )}
        </Show>
      </div>
      <Show when={changing()}>
        <Suspense>
          <ChangePerson onClose={() => setChanging(false)} />
        </Suspense>
      </Show>
      <Show when={looking()}>
        <Suspense>
          <WaitingEntries onClose={() => setLooking(false)} />
        </Suspense>
      </Show>
    </header>
  )
}
