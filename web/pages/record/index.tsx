/**
 * The release record under its number: read from the log up to what the release covers, the same for ever, made for
 * paper. What the log has had since stands above it on the screen, and not on the paper.
 */

import { useParams } from '@solidjs/router'
import { createMemo, createResource, For, Match, Show, Switch } from 'solid-js'
import type { Chain } from '../../../shared/chain'
import { trailLine } from '../../../shared/job/trail'
import { usePageTitle } from '../../frame/title'
import { auditHref } from '../../hrefs'
import { canHash, hashText } from '../../live/hash'
import { ask, isFailure } from '../../live/http'
import { useLive, useShop } from '../../live/live'
import { Button } from '../../ui/Button'
import { EmptyState } from '../../ui/EmptyState'
import { createNear, NearContext } from '../../ui/near'
import { Sentence } from '../../ui/Sentence'
import { Turn } from '../../ui/Turn'
import { type Edition, type EditionFound, editionOf, inGroups } from './edition'
import { FindJoint } from './FindJoint'
import { footPages } from './foot'
import { Paper } from './Paper'
import { checkWhole, eventsOf, type Whole, wholeWords } from './whole'
import '../../job/record/record-print.css'
import '../../job/record/record.css'
import './record-page.css'
import './record-paper.css'

export default function RecordPage() {
  const params = useParams<{ id: string; number: string }>()
  return (
    <Show keyed when={`${params.id} ${params.number}`}>
      <Loaded jobId={params.id} number={params.number} />
    </Show>
  )
}

function Loaded(props: { jobId: string; number: string }) {
  usePageTitle(() => `${props.number} release record`)
  const [answer] = createResource(
    () => props.jobId,
    (id) => ask<Chain>(`/api/jobs/${encodeURIComponent(id)}/chain`),
  )
  const chain = () => {
    const reply = answer()
    return reply && !isFailure(reply) ? reply : undefined
  }
  const problem = () => {
    const reply = answer()
    return reply && isFailure(reply) ? reply.sentence : undefined
  }
  const outcome = createMemo((): EditionFound | undefined => {
    const log = chain()
    const events = log && eventsOf(log)
    if (!log) return undefined
    return events ? editionOf(props.jobId, events, props.number) : { missing: 'gap', numbers: [] }
  })
  const { known } = useShop()
  const edition = () => {
    const result = outcome()
    // The shop's name and paints stand on it.
    return known() && result && 'edition' in result ? result.edition : undefined
  }
  const missing = () => {
    const result = outcome()
    return result && 'missing' in result ? result : undefined
  }
  return (
    <div class="page stack apart">
      <Switch fallback={<p class="pencil">Reading the log…</p>}>
        <Match when={edition()}>{(edition) => <Shown edition={edition()} chain={chain()} />}</Match>
        <Match when={problem()}>
          {(sentence) => (
            <EmptyState title="The record cannot be read now">
              <p>{sentence()}</p>
              <a class="button" href={auditHref(props.jobId)}>
                To the audit
              </a>
            </EmptyState>
          )}
        </Match>
        <Match when={missing()}>
          {(missing) => (
            <EmptyState title={`No record ${props.number}`}>
              <p>
                {missing().missing === 'gap'
                  ? 'The log came with a gap, or with an entry this page does not know, so nothing is shown rather than something wrong. Load the page again.'
                  : missing().numbers.length > 0
                    ? `The records of this engine: ${missing().numbers.join(', ')}.`
                    : 'This engine is not released yet. Its record is made by the release, on the audit page.'}
              </p>
              <a class="button" href={auditHref(props.jobId)}>
                To the audit
              </a>
            </EmptyState>
          )}
        </Match>
      </Switch>
    </div>
  )
}

function Shown(props: { edition: Edition; chain: Chain | undefined }) {
  const live = useLive()
  const near = createNear()
  // Reckoned when the page stands: it asks for every entry of the log once more.
  const stands = near.part('last')
  const [checked] = createResource(
    () => stands() && props.chain,
    (chain) => checkWhole(chain, props.edition.release, canHash() ? hashText : undefined),
  )
  const whole = (): Whole => (checked.state === 'ready' ? checked() : { state: 'checking' })
  footPages(() => props.edition.release.number)
  const since = createMemo(() =>
    props.edition.since.map((event) => trailLine(props.edition.now, event, live.session.words)).toReversed(),
  )
  return (
    <>
      <aside class="record-screen stack roomy" aria-label="About this record">
        <div class="cluster">
          <Button variant="main" onClick={() => window.print()}>
            Print the record
          </Button>
          <a class="button" href={auditHref(props.edition.job.id)}>
            To the audit
          </a>
        </div>
        <Sentence against={whole().state === 'differs' || whole().state === 'cannot'}>
          {wholeWords(whole())}
          <Show when={whole().state === 'whole'}>
            {' '}
            Compare it with an earlier print:{' '}
            <span class="paper-hash">{inGroups(props.edition.release.head)}</span>
          </Show>
        </Sentence>
        <Show when={props.edition.release.withdrawn}>
          {(gone) => (
            <p class="sentence against">
              No longer counts: work went on at {gone().stepId}, {live.session.words.person(gone().by)},{' '}
              {live.session.words.moment(gone().doneAt)}. It says what was so when it was given.
            </p>
          )}
        </Show>
        <FindJoint edition={props.edition} />
        <h2>Since this record</h2>
        <Show
          when={since().length > 0}
          fallback={<p class="pencil">Nothing was added to the log since it was given.</p>}
        >
          <p class="pencil">
            {since().length === 1 ? 'One entry' : `${since().length} entries`}, not part of this edition and
            not printed with it.
          </p>
          <ol class="since">
            <For each={since()}>
              {(line) => (
                <li>
                  <time class="pencil" dateTime={new Date(line.doneAt).toISOString()}>
                    {live.session.words.moment(line.doneAt)}
                  </time>{' '}
                  {line.sentence}
                </li>
              )}
            </For>
          </ol>
        </Show>
      </aside>
      <NearContext.Provider value={near}>
        <Turn room="100rem">
          <Paper edition={props.edition} whole={whole()} />
        </Turn>
      </NearContext.Provider>
    </>
  )
}
