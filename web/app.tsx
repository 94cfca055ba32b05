/** The pages and their addresses. Each page loads its own code; only the frame comes first. */
import { Route, Router } from '@solidjs/router'
import { lazy } from 'solid-js'
import { Frame } from './frame/Frame'
import { LiveProvider } from './live/live'

const Board = lazy(() => import('./pages/board'))
const SignIn = lazy(() => import('./pages/sign-in'))
const Engine = lazy(() => import('./pages/engine'))
const Bench = lazy(() => import('./pages/bench'))
const Audit = lazy(() => import('./pages/audit'))
const Settle = lazy(() => import('./pages/settle'))
const ReleaseRecord = lazy(() => import('./pages/record'))
const Wall = lazy(() => import('./pages/wall'))
const SpecDesk = lazy(() => import('./pages/spec-desk'))
const Shop = lazy(() => import('./pages/shop'))
const FirstLook = lazy(() => import('./pages/sign-in/FirstLookPage'))
const FirstRun = lazy(() => import('./pages/first-run'))
const Lost = lazy(() => import('./pages/lost'))

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
  return (
    <LiveProvider>
      <Router root={Frame}>
        <Route path="/" component={Board} />
        <Route path="/wall" component={Wall} />
        <Route path="/sign-in" component={SignIn} />
        <Route path="/first-run" component={FirstRun} />
        <Route path="/first-look" component={FirstLook} />
        <Route path="/jobs/:id" component={Engine} />
        <Route path="/jobs/:id/bench/:stepId?" component={Bench} />
        <Route path="/jobs/:id/audit" component={Audit} />
        <Route path="/jobs/:id/settle/:joint/:pass" component={Settle} />
        <Route path="/jobs/:id/record/:number" component={ReleaseRecord} />
        <Route path="/desk" component={SpecDesk} />
        <Route path="/shop/*rest" component={Shop} />
        <Route path="*" component={Lost} />
      </Router>
    </LiveProvider>
  )
}
