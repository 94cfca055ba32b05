/** What every page of a job stands on: the job watched, who is here told. Its children are drawn once the job is known. */
import { useLocation, useNavigate, useParams } from '@solidjs/router'
import { createMemo, Match, onMount, type ParentProps, Show, Switch } from 'solid-js'
import type { Job, PlannedJob } from '../../shared/job/types'
import type { JobPage } from '../../shared/protocol'
import { engineHref } from '../hrefs'
import { ask, isFailure } from '../live/http'
import { useJobFeed } from '../live/job-feed'
import { useLive } from '../live/live'
import { EmptyState } from '../ui/EmptyState'
import { JobDialogs } from './JobDialogs'
import { JobContext, type JobScope, previewCommand } from './scope'
import './job.css'

/** The job of the page's address. */
export function JobProvider(props: ParentProps<{ place: JobPage }>) {
  const params = useParams<{ id: string }>()
  return (
    <Show keyed when={params.id}>
      {(id) => (
        <Watched jobId={id} place={props.place}>
          {props.children}
        </Watched>
      )}
    </Show>
  )
}

function Watched(props: ParentProps<{ jobId: string; place: JobPage }>) {
  const { session, clock, link, shop, isKept, sealedSeconds } = useLive()
  const feed = useJobFeed(props.jobId, props.place)
  const scope: JobScope = {
    job: createMemo(() => feed.replica().job),
    planned: () => scope.job() as PlannedJob,
    confirmed: createMemo(() => feed.replica().confirmed),
    shop: shop.shop,
    words: session.words,
    me: () => session.person()?.id,
    now: clock.now,
    leads: session.leads,
    link: link.state,
    here: feed.here,
    pending: createMemo(() => feed.replica().pending),
    isKept,
    asOf: feed.asOf,
    refused: feed.refused,
    dismiss: feed.dismiss,
    since: feed.since,
    preview: (command, asker) => previewCommand(scope, command, asker),
    may: (command, asker) => scope.preview(command, asker).refusal,
    send: feed.send,
    sealing: sealedSeconds.offered,
    sealSecond: (second) => sealedSeconds.give(props.jobId, second),
    sendOrExplain(command) {
      const refusal = scope.may(command)
      if (!refusal) void scope.send(command)
      return refusal?.sentence
    },
  }
  return (
    <JobContext.Provider value={scope}>
      <Show
        // What may be done is decided on both: neither is shown without the other.
        when={feed.replica().known && shop.known() && scope.job().version > 0}
        fallback={
          <div class="page">
            <Switch fallback={<p class="pencil">Opening the engine…</p>}>
              <Match when={feed.problem()}>
                {(sentence) => <NoEngine jobId={props.jobId} sentence={sentence()} />}
              </Match>
              <Match when={link.state() === 'lost' && feed.looked()}>
                <EmptyState title="No signal, and this engine is not kept on this device.">
                  <p>
                    It opens by itself when the signal is back. Engines looked at here before open without it.
                  </p>
                  <a class="button" href="/">
                    To the board
                  </a>
                </EmptyState>
              </Match>
            </Switch>
          </div>
        }
      >
        <JobDialogs>{props.children}</JobDialogs>
      </Show>
    </JobContext.Provider>
  )
}

/** Whoever typed the number that is painted on the engine is led to it. */
function NoEngine(props: { jobId: string; sentence: string }) {
  const navigate = useNavigate()
  const { pathname } = useLocation()
  onMount(async () => {
    const meant = await ask<Job>(`/api/jobs/${encodeURIComponent(props.jobId)}`)
    if (!isFailure(meant))
      navigate(pathname.replace(/^\/jobs\/[^/]+/, engineHref(meant.id)), { replace: true })
  })
  return (
    <EmptyState title="No engine here">
      <p>{props.sentence}</p>
      <a class="button" href="/">
        To the board
      </a>
    </EmptyState>
  )
}
