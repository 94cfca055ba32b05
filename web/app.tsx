/** The pages and their addresses. Each page loads its own code; only the frame comes first. */
import { Router } from '@solidjs/router'
import { lazy } from 'solid-js'
import { Frame } from './frame/Frame'
import { LiveProvider } from './live/live'

const PAGES = [
  { path: '/', component: lazy(() => import('./pages/board')) },
  { path: '/wall', component: lazy(() => import('./pages/wall')) },
  { path: '/sign-in', component: lazy(() => import('./pages/sign-in')) },
  { path: '/first-run', component: lazy(() => import('./pages/first-run')) },
  { path: '/first-look', component: lazy(() => import('./pages/sign-in/FirstLookPage')) },
  { path: '/jobs/:id', component: lazy(() => import('./pages/engine')) },
  { path: '/jobs/:id/bench/:stepId?', component: lazy(() => import('./pages/bench')) },
  { path: '/jobs/:id/audit', component: lazy(() => import('./pages/audit')) },
  { path: '/jobs/:id/settle/:joint/:pass', component: lazy(() => import('./pages/settle')) },
  { path: '/jobs/:id/record/:number', component: lazy(() => import('./pages/record')) },
  { path: '/desk', component: lazy(() => import('./pages/spec-desk')) },
  { path: '/shop/*rest', component: lazy(() => import('./pages/shop')) },
  { path: '*', component: lazy(() => import('./pages/lost')) },
]

/** The addresses of a page, written as the router has them. */
const addressesOf = (path: string): RegExp => {
  const named = path.replace(/\/:\w+\?/g, '(/[^/]+)?').replace(/:\w+/g, '[^/]+')
  return new RegExp(`^${named.replace(/\/?\*\w*$/, '(/.*)?')}/?$`)
}

/** The first page's code comes while the server is asked who is signed in. */
function fetchFirstPage(): void {
  const first = PAGES.find(({ path }) => addressesOf(path).test(location.pathname))
  // Whoever draws it meets the same failure, and says so.
  first?.component.preload().catch(() => undefined)
}

/** An address with a broken escape cannot be read by the router: it is one of those that lead nowhere. */
function readAddress(): void {
  try {
    decodeURI(location.pathname)
  } catch {
    history.replaceState(null, '', '/no-such-page')
  }
}

export function App() {
  readAddress()
  fetchFirstPage()
  return (
    <LiveProvider>
      <Router root={Frame}>{PAGES}</Router>
    </LiveProvider>
  )
}
