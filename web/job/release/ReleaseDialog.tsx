/**
 * The word that lets an engine go: asked of the server alone, which has the log's hash, and answered with the
 * number of its record or with every reason against it.
 */
import { A } from '@solidjs/router'
import { createMemo, createSignal, For, Match, Show, Switch } from 'solid-js'
import { againstWords } from '../../../shared/job/against'
import type { JobEvent } from '../../../shared/job/events'
import type { Against } from '../../../shared/job/release'
import { RELEASES, type ReleaseKind } from '../../../shared/plan/kinds'
import type { Answer, Fault } from '../../../shared/protocol'
import { upperFirst } from '../../../shared/words'
import { recordHref } from '../../hrefs'
import { useSendAndWait } from '../../live/live'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { Sentence } from '../../ui/Sentence'
import { ownWork, useJob } from '../scope'

/** What the answer says against it; the sentence alone where it is about something else. */
function reasonsIn(answer: Answer | Fault): Against[] {
  if (answer.ok || answer.code !== 'stands_against_release' || !('data' in answer)) return []
  return (answer.data as { against: Against[] }).against
}

export default function ReleaseDialog(props: { kind: ReleaseKind; onClose(): void }) {
  const scope = useJob()
  const sendAndWait = useSendAndWait()
  const [sending, setSending] = createSignal(false)
  const [answer, setAnswer] = createSignal<Answer | Fault>()
  const preview = createMemo(() => scope.preview({ type: 'Release', kind: props.kind }))
  /** Who asks is known here; what stands against it is the server's to say. */
  const notYou = () => {
    const { refusal } = preview()
    return refusal?.code === 'stands_against_release' ? undefined : refusal
  }
  const released = () => {
    const reply = answer()
    if (!reply?.ok) return undefined
    return reply.events.map(({ event }) => event as JobEvent).find((event) => event.type === 'Released')
  }
  const refused = () => {
    const reply = answer()
    return reply && !reply.ok ? reply : undefined
  }
  const send = async () => {
    setSending(true)
    setAnswer(undefined)
    setAnswer(await sendAndWait(scope.job().id, { type: 'Release', kind: props.kind }))
    setSending(false)
  }
  const up = () => scope.link() === 'live'
  const name = () => upperFirst(RELEASES[props.kind].word)
  return (
    <Dialog open broad title={name()} onClose={props.onClose}>
      <Switch
        fallback={
          <>
            <p>
              {props.kind === 'to_fitting'
                ? 'You state that everything up to the bench proof is done and signed. If that work is disturbed later, the release no longer counts.'
                : 'You state that the engine may go to its owner. This makes a numbered record that never changes; what comes later goes into the next edition.'}
            </p>
            <Show when={ownWork(preview())}>
              <p class="own-work">You signed steps of this engine yourself, and the record will say so.</p>
            </Show>
            <Show when={!up()}>
              <Sentence against>No signal. A release needs the shop’s server: move closer.</Sentence>
            </Show>
            <Button variant="main" wide disabled={!up() || sending()} onClick={() => void send()}>
              {sending() ? 'Asking the server…' : `${name()}: I answer for it`}
            </Button>
          </>
        }
      >
        <Match when={released()}>
          {(event) => (
            <>
              <p class="released-number stencil">{(event() as { number: string }).number}</p>
              <Sentence>Released. This is the number of its record.</Sentence>
              <A
                class="button main wide"
                href={recordHref(scope.job().id, (event() as { number: string }).number)}
              >
                The record
              </A>
            </>
          )}
        </Match>
        <Match when={refused()}>
          {(refusal) => (
            <>
              <Sentence against>
                {reasonsIn(refusal()).length > 0
                  ? `Not released: ${reasonsIn(refusal()).length === 1 ? 'one reason stands' : `${reasonsIn(refusal()).length} reasons stand`} against it.`
                  : refusal().sentence}
              </Sentence>
              <ol class="reasons lines">
                <For each={reasonsIn(refusal())}>
                  {(reason) => <li>{againstWords(reason, scope.words)}</li>}
                </For>
              </ol>
              <Button wide onClick={props.onClose}>
                To the list
              </Button>
            </>
          )}
        </Match>
        <Match when={notYou()}>{(no) => <Sentence against>{no().sentence}</Sentence>}</Match>
      </Switch>
    </Dialog>
  )
}
