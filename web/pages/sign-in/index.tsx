/** The first page of the day: touch your name, press your PIN. In the demonstration, the first look stands above. */
import { A, useNavigate, useSearchParams } from '@solidjs/router'
import { createSignal, lazy, Show, Suspense } from 'solid-js'
import { usePageTitle } from '../../frame/title'
import { useLive } from '../../live/live'
import { PeoplePin } from '../../people/PeoplePin'
import { Button } from '../../ui/Button'
import { recall, remember } from '../../ui/device'

const FirstLook = lazy(() => import('./FirstLook').then((all) => ({ default: all.FirstLook })))

/** Whether the first look was closed on this device. */
const CLOSED = 'paintmark.first-look'

export default function SignIn() {
  const { demo } = useLive()
  const navigate = useNavigate()
  const [search] = useSearchParams()
  const [closed, setClosed] = createSignal(recall(CLOSED) !== undefined)
  usePageTitle(() => 'Sign in')
  /** Only back into these pages: an address from elsewhere is not followed. */
  const next = () => {
    const to = String(search.to ?? '/')
    return /^\/(?!\/)/.test(to) ? to : '/'
  }
  function close(): void {
    remember(CLOSED, 'closed')
    setClosed(true)
  }
  return (
    <div class="page stack apart">
      <Show when={demo.state() && !closed()}>
        <section class="first-look stack airy" aria-label="First look">
          <div class="first-look-head cluster ends">
            <h2>First look: a screen for everybody</h2>
            <Button variant="quiet" onClick={close}>
              Do not show again
            </Button>
          </div>
          <Suspense>
            <FirstLook />
          </Suspense>
        </section>
      </Show>
      <h1>Who is here?</h1>
      <Show when={demo.state() && closed()}>
        <p>
          New here? <A href="/first-look">What each person’s screen answers</A>
        </p>
      </Show>
      <PeoplePin onDone={() => navigate(next(), { replace: true })} />
    </div>
  )
}
