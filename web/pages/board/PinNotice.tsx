/** Another set somebody's PIN: they hear of it on each device until they say that they have seen it there. */
import { createSignal, Show } from 'solid-js'
import { useSession, useShop } from '../../live/live'
import { pinNotice } from '../../shop/pin-words'
import { Button } from '../../ui/Button'
import { recall, remember } from '../../ui/device'

export function PinNotice() {
  const session = useSession()
  const { shop } = useShop()
  const [seen, setSeen] = createSignal(0)
  const key = (personId: string) => `paintmark-pin-seen-${personId}`
  const notice = () => {
    seen()
    const me = session.person()?.id
    const told = me === undefined ? undefined : pinNotice(shop(), me, session.words)
    return told && me !== undefined && recall(key(me)) !== String(told.at) ? { ...told, me } : undefined
  }
  return (
    <Show when={notice()}>
      {(told) => (
        <section class="pin-notice cluster" aria-label="Your PIN">
          <p>
            {told().sentence} If you did not ask for it, ask who did: whoever knows your PIN signs as you. You
            set your own on the Shop page.
          </p>
          <Button
            onClick={() => {
              remember(key(told().me), String(told().at))
              setSeen(seen() + 1)
            }}
          >
            Seen
          </Button>
        </section>
      )}
    </Show>
  )
}
