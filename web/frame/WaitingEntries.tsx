/** What this device has not handed over yet, whose it is, and the ways out: try now, or a file when nothing else helps. */
import { For, Show } from 'solid-js'
import type { JobCommand } from '../../shared/job/commands'
import type { ShopCommand } from '../../shared/shop/types'
import { counted, upperFirst } from '../../shared/words'
import { jobCommandWords } from '../live/job-command-words'
import { openJob } from '../live/job-feed'
import { useLive } from '../live/live'
import { commandIdOf, isRefused, type QueuedCommand } from '../live/outbox'
import { shopCommandWords } from '../live/shop-command-words'
import { lostWords, MAY_BE_CLEARED, OPENS_NOT_ALONE, unheldWords } from '../live/unheld'
import { Button } from '../ui/Button'
import { Dialog } from '../ui/Dialog'
import { RefusedList } from '../ui/RefusedList'
import { Sentence } from '../ui/Sentence'
import { saveFile } from '../ui/save-file'
import './waiting-entries.css'

export default function WaitingEntries(props: { onClose(): void }) {
  const live = useLive()
  const { session, entries, photos } = live

  function about({ stream, command }: QueuedCommand): string {
    if (stream === 'shop') return 'The shop'
    const id = stream.slice('job:'.length)
    const number = openJob(id)?.number || live.board.summary(id)?.number
    return number ?? (command.type === 'OpenJob' ? command.number : 'An engine')
  }
  const entered = ({ stream, command }: QueuedCommand): string =>
    stream === 'shop'
      ? shopCommandWords(command as ShopCommand)
      : jobCommandWords(command as JobCommand, openJob(stream.slice('job:'.length))?.plan)
  function standing(entry: QueuedCommand): string {
    const id = commandIdOf(entry)
    const kept = live.isKept(id) ? 'Kept on this device.' : 'On this page only.'
    return live.isAside(id) ? `${kept} Did not get through; the others go first.` : kept
  }
  const waiting = () => entries().filter((entry) => !isRefused(entry))
  const refused = () => entries().filter(isRefused)
  const isAnyOnItsWay = () => waiting().length + photos.now().waiting.length > 0
  const isAllThere = () =>
    entries().length + photos.now().waiting.length + photos.now().refused.length === 0 &&
    live.lostEntries.lost().length === 0

  async function asFile(): Promise<void> {
    const now = photos.now()
    const pictures = await Promise.all(
      [...now.waiting, ...now.refused].map(async ({ bytes, ...photo }) => ({
        ...photo,
        picture: await dataUrl(bytes),
      })),
    )
    const savedAt = live.clock.now()
    saveFile(`not-sent-${new Date(savedAt).toISOString().slice(0, 16).replace(':', '-')}.json`, {
      shop: session.me()?.shop.name,
      savedAt,
      entries: entries(),
      photos: pictures,
    })
  }

  return (
    <Dialog open title="Not with the shop yet" broad onClose={props.onClose}>
      <Show when={isAllThere()}>
        <p>Everything entered here is with the shop.</p>
      </Show>
      <Show when={isAnyOnItsWay()}>
        <p>
          This goes to the shop in this order when there is signal, each under the name of who entered it.
          Nothing counts twice.
        </p>
      </Show>
      <Show when={unheldWords(live.unkept(), 'entry', 'entries')}>
        {(words) => <Sentence against>{words()}</Sentence>}
      </Show>
      <Show when={live.link.state() === 'lost' && !live.opensAlone()}>
        <Sentence>{OPENS_NOT_ALONE}</Sentence>
      </Show>
      <Show when={waiting().length > 0 && live.unkept().length === 0 && !live.stays()}>
        <p class="pencil">{MAY_BE_CLEARED}</p>
      </Show>
      <ol class="waiting-entries">
        <For each={waiting()}>
          {(entry) => (
            <li>
              <p>
                <strong>{about(entry)}</strong>: {entered(entry)}
              </p>
              <p class="pencil">
                {session.words.person(entry.by)}, {session.words.moment(entry.command.doneAt)}.{' '}
                {standing(entry)}
              </p>
            </li>
          )}
        </For>
      </ol>
      <Show when={photos.now().waiting.length > 0}>
        <p>{upperFirst(counted(photos.now().waiting.length, 'photo'))} on the way.</p>
      </Show>
      <Show when={refused().length + photos.now().refused.length > 0}>
        <h3>Not taken over</h3>
        <RefusedList
          entries={refused()}
          onDismiss={live.outbox.dismiss}
          entered={(entry) => `${about(entry)}, ${entered(entry)}`}
        />
        <For each={photos.now().refused}>{(photo) => <p>A photo: {photo.refused}</p>}</For>
      </Show>
      <Show when={live.lostEntries.lost().length > 0}>
        <h3>Never arrived</h3>
        <For each={live.lostEntries.lost()}>
          {(gap) => <Sentence against>{lostWords(gap, session.words.moment)}</Sentence>}
        </For>
        <Button onClick={live.lostEntries.putAside}>I have looked</Button>
      </Show>
      <div class="cluster">
        <Button
          onClick={() => {
            live.link.open()
            live.outbox.wake()
          }}
        >
          Try now
        </Button>
        <Button variant="quiet" onClick={() => void asFile()}>
          Save as a file
        </Button>
      </div>
    </Dialog>
  )
}

const dataUrl = (bytes: Blob): Promise<string> =>
  new Promise((resolve, reject) => {
    const reader = new FileReader()
    reader.onload = () => resolve(String(reader.result))
    reader.onerror = () => reject(reader.error)
    reader.readAsDataURL(bytes)
  })
