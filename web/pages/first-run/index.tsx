/** The first run: open the shop, then a short list of what a new one needs. It can be left and come back to. */
import { Show } from 'solid-js'
import { useSession } from '../../live/live'
import { Guide } from './Guide'
import { OpenShop } from './OpenShop'

export default function FirstRun() {
  const session = useSession()
  return (
    <Show when={session.me()?.shop.opened && session.person()} fallback={<OpenShop />}>
      <Guide />
    </Show>
  )
}
