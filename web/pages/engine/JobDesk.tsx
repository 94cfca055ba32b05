/**
 * What the engine and the audit page stand on: the job watched, who is here told, what the server refused shown
 * until it is put aside. Its children are drawn once the job is known.
 */
import { For, type JSX, Show } from 'solid-js'
import type { Place } from '../../../shared/protocol'
import { type JobView, useJob } from '../../live/job'
import { useLive } from '../../live/live'
import { Button } from '../../ui/Button'
import { EmptyState } from '../../ui/EmptyState'
import { type Desk, DeskContext } from './desk'
import './desk.css'

interface JobDeskProps {
  jobId: string
  place: Place
  children: (view: JobView) => JSX.Element
}

export function JobDesk(props: JobDeskProps) {
  const live = useLive()
  const view = useJob(props.jobId)
  view.at(props.place)
  const desk: Desk = {
    job: view.job,
    shop: view.shop,
    words: live.session.words,
    me: () => live.session.person()?.id,
    now: live.clock.now,
    send: (command) => void view.send(command),
    may: (command) => view.may(command),
  }
  const there = () => view.known() && view.job().version > 0
  return (
    <DeskContext.Provider value={desk}>
      <Show
        when={there()}
        fallback={
          <div class="page">
            <Show when={view.problem()} fallback={<p class="pencil">Opening the engine…</p>}>
              {(sentence) => (
                <EmptyState title="No engine here">
                  <p>{sentence()}</p>
                  <a class="button" href="/">
                    To the board
                  </a>
                </EmptyState>
              )}
            </Show>
          </div>
        }
      >
        <Refused view={view} />
        {props.children(view)}
      </Show>
    </DeskContext.Provider>
  )
}

function Refused(props: { view: JobView }) {
  return (
    <div class="refused-list" role="status">
      <For each={props.view.refused()}>
        {(entry) => (
          <div class="refused">
            <p>{entry.sentence}</p>
            <Button variant="quiet" onClick={() => props.view.dismiss(entry.id)}>
              Put aside
            </Button>
          </div>
        )}
      </For>
    </div>
  )
}
