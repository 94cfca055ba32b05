/** What stands around every page: the bar, what the reader must know first, and the way to sign-in. */
import { type RouteSectionProps, useLocation, useNavigate } from '@solidjs/router'
import { createEffect, lazy, Show, Suspense } from 'solid-js'
import { useLive } from '../live/live'
import { TopBar } from './TopBar'

const DemoStrip = lazy(() => import('./DemoStrip'))

/** Pages that stand without anybody signed in. */
const FIRST_LOOK = '/first-look'
const OPEN_PAGES = new Set(['/sign-in', '/first-run', FIRST_LOOK])

export function Frame(props: RouteSectionProps) {
  const { session, link, demo } = useLive()
  const location = useLocation()
  const navigate = useNavigate()

  createEffect(() => {
    const me = session.me()
    if (!me) return
    const { pathname, search } = location
    if (!me.shop.opened) {
      if (pathname !== '/first-run') navigate('/first-run', { replace: true })
    } else if (!me.signIn) {
      const back =
        pathname === '/' || OPEN_PAGES.has(pathname) ? '' : `?to=${encodeURIComponent(pathname + search)}`
      if (pathname !== '/sign-in' && !(me.demo && pathname === FIRST_LOOK))
        navigate(`/sign-in${back}`, { replace: true })
    } else if (pathname === FIRST_LOOK && !me.demo) navigate('/', { replace: true })
    else if (pathname === '/first-run' && !session.leads()) navigate('/', { replace: true })
  })

  /** A page that needs a person is not drawn while the way to sign-in is being taken. */
  const ready = () => session.me() && (session.person() || OPEN_PAGES.has(location.pathname))

  return (
    <>
      <a class="skip" href="#page">
        To the page
      </a>
      <TopBar />
      <Show when={demo.state()}>
        <Suspense>
          <DemoStrip />
        </Suspense>
      </Show>
      <Show when={session.me()?.shop.invented && !demo.state()}>
        <aside class="banner" aria-label="About this shop">
          Demo shop. All names and values are invented.
        </aside>
      </Show>
      <Show when={link.outdated()}>
        {(server) => (
          <aside class="banner against" aria-label="Another version of Paintmark" aria-live="polite">
            {server() === 'newer'
              ? 'There is a newer Paintmark'
              : 'The shop’s server runs an older Paintmark'}
            {link.state() === 'apart'
              ? ': what you enter waits here until you load it. '
              : '. You can go on, and load it when your hands are free. '}
            {/* Not by the router, which stays on the page it has. */}
            <a href={location.pathname + location.search} rel="external">
              Load it
            </a>
          </aside>
        )}
      </Show>
      <main id="page" tabIndex={-1}>
        <Show when={ready()} fallback={<p class="page pencil">{session.problem() ?? 'Opening the shop…'}</p>}>
          <Suspense fallback={<p class="page pencil">Opening…</p>}>{props.children}</Suspense>
        </Show>
      </main>
    </>
  )
}
