/** The demonstration's first look: five people, what each one's screen answers, and one touch to be them. */
import { useNavigate } from '@solidjs/router'
import { For, Show } from 'solid-js'
import { useLive } from '../../live/live'
import { Button } from '../../ui/Button'
import { paintColour } from '../../ui/paint'
import { Sentence } from '../../ui/Sentence'
import { createSubmission } from '../../ui/submission'
import { LOOKS, type Look } from './looks'
import './first-look.css'
import '../../people/dab.css'

export function FirstLook() {
  const { session } = useLive()
  const navigate = useNavigate()
  const entering = createSubmission(async ({ personId, href }: Look) => {
    const refusal = session.person()?.id === personId ? undefined : await session.signInAtDemo(personId)
    if (refusal) return refusal
    navigate(href)
  })

  return (
    <>
      <Show when={entering.error()}>{(sentence) => <Sentence against>{sentence()}</Sentence>}</Show>
      <ul class="looks">
        <For each={LOOKS}>
          {(look) => (
            <li class="look" style={{ '--paint': paintColour(session.cardOf(look.personId)?.paint) }}>
              <p class="look-who">
                <span class="look-dab dab" aria-hidden="true" />
                <span class="look-name">{session.nameOf(look.personId)}</span>
                <span class="pencil">{look.as}</span>
              </p>
              <div class="look-words">
                <h3>{look.asks}</h3>
                <p>{look.answers}</p>
              </div>
              <Button class="look-be" onClick={() => void entering.submit(look)}>
                Be {session.nameOf(look.personId).split(' ')[0]}: {look.screen}
              </Button>
            </li>
          )}
        </For>
      </ul>
    </>
  )
}
