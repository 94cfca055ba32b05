/** The pages and their addresses. Each page loads its own code; only the frame comes first. */
import { Router } from '@solidjs/router'
import { type Component, lazy } from 'solid-js'
import { addressesOf, PAGE_PATHS, type PagePath } from '../shared/pages'
import { Frame } from './frame/Frame'
import { LiveProvider } from './live/live'

const CODE: Record<PagePath, () => Promise<{ default: Component }>> = {
  '/': () => import('./pages/board'),
  '/wall': () => import('./pages/wall'),
  '/sign-in': () => import('./pages/sign-in'),
  '/first-run': () => import('./pages/first-run'),
  '/first-look': () => import('./pages/sign-in/FirstLookPage'),
  '/jobs/:id': () => import('./pages/engine'),
  '/jobs/:id/bench/:stepId?': () => import('./pages/bench'),
  '/jobs/:id/audit': () => import('./pages/audit'),
  '/jobs/:id/settle/:joint/:pass': () => import('./pages/settle'),
  '/jobs/:id/record/:number': () => import('./pages/record'),
  '/desk': () => import('./pages/spec-desk'),
  '/shop/*rest': () => import('./pages/shop'),
}

const PAGES = [
  ...PAGE_PATHS.map((path) => ({ path, component: lazy(CODE[path]) })),
  { path: '*', component: lazy(() => import('./pages/lost')) },
]

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
