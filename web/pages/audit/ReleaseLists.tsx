/** What stops the release, every reason with its way out; the word itself; and the releases given. */
import { A } from '@solidjs/router'
import { createMemo, createSignal, For, Index, Show, untrack } from 'solid-js'
import { againstWords } from '../../../shared/job/against'
import type { Against } from '../../../shared/job/release'
import { RELEASES } from '../../../shared/plan/kinds'
import { SOMEBODY_WHO_LEADS } from '../../../shared/shop/entitlement'
import { counted, upperFirst } from '../../../shared/words'
import { format } from '../../format'
import { benchHref, recordHref, settleHref } from '../../hrefs'
import { useJobDialogs } from '../../job/dialogs'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { useNow } from '../../ui/clock'
import { createSame } from '../../ui/same'
import { Entry, List } from './AuditList'
import { AcceptButton, LookButton, ToBench } from './EntryWays'
import {
  type ReleaseView,
  releaseLines,
  releaseViews,
  sortAgainst,
  stepIdOf,
  type UnsignedStage,
  waysOut,
} from './release-view'
import '../../ui/unfold.css'

/** A cure ends by the clock alone. */
const LOOK_AGAIN_MS = 30_000

export function AgainstRelease() {
  const scope = useJob()
  const now = useNow(LOOK_AGAIN_MS)
  const views = createSame(() => releaseViews(scope.planned(), Math.max(now(), scope.now())))
  return (
    <Index
      each={views()}
      fallback={
        <List
          title="What stops the release"
          count={0}
          empty="This plan has no release, so this engine cannot be released. A plan names its release on its last stage."
        />
      }
    >
      {(view, index) => <OneRelease view={view()} before={views()[index - 1]} />}
    </Index>
  )
}

function OneRelease(props: { view: ReleaseView; before: ReleaseView | undefined }) {
  const scope = useJob()
  const open = useJobDialogs()
  const own = () => props.view.further
  const sorted = createMemo(() => sortAgainst(scope.planned(), own()))
  const decisions = createSame(() => sorted().decisions)
  const unsigned = createSame(() => sorted().unsigned)
  const name = () => RELEASES[props.view.kind].word
  const shared = () => props.view.against.length - own().length
  const foot = () => (
    <Show when={!props.view.inForce}>
      <For each={unsigned()}>{(stage) => <ToSign stage={stage} />}</For>
      <Show when={shared() > 0}>
        <p class="pencil list-note">
          And the {shared() === 1 ? 'one reason' : `${shared()} reasons`} above, against the{' '}
          {RELEASES[props.before?.kind ?? 'to_fitting'].word}.
        </p>
      </Show>
      <Show
        when={scope.leads()}
        fallback={
          <p class="pencil list-note">
            The {name()} is for {SOMEBODY_WHO_LEADS}.
          </p>
        }
      >
        <Button
          wide
          variant={props.view.against.length === 0 ? 'main' : undefined}
          onClick={() => open({ dialog: 'release', kind: props.view.kind })}
        >
          {upperFirst(name())}
          <Show when={props.view.against.length > 0}>
            <span class="pencil">{counted(props.view.against.length, 'reason')} against</span>
          </Show>
        </Button>
      </Show>
    </Show>
  )
  return (
    <List
      title={sorted().count > 0 ? `What stops the ${name()}` : upperFirst(name())}
      count={sorted().count}
      empty={
        props.view.inForce
          ? `Released: ${props.view.inForce.number}, ${format.dateAndTime(props.view.inForce.doneAt)}.`
          : shared() > 0
            ? 'Nothing else.'
            : 'Nothing is open.'
      }
      foot={foot()}
    >
      <For each={decisions()}>
        {(against) => (
          <Entry id={stepIdOf(scope.planned(), against)} ways={<Ways against={against} />}>
            <p>{againstWords(against, scope.words)}</p>
          </Entry>
        )}
      </For>
    </List>
  )
}

function Ways(props: { against: Against }) {
  const scope = useJob()
  const open = useJobDialogs()
  const id = () => stepIdOf(scope.planned(), props.against)
  return (
    <For each={waysOut(props.against)}>
      {(way) => {
        switch (way.do) {
          case 'bench':
            return <ToBench stepId={way.stepId} />
          case 'look':
            return <LookButton stepId={way.stepId} setId={way.setId} />
          case 'settle':
            return (
              <Show when={scope.leads()}>
                <A class="button" href={settleHref(scope.job().id, way.joint, way.pass)}>
                  Decide torque<span class="unseen">, {id()}</span>
                </A>
              </Show>
            )
          case 'clear':
            return (
              <Button onClick={() => open({ dialog: 'clear_hold', holdId: way.holdId })}>
                Clear hold<span class="unseen"> on {id()}</span>
              </Button>
            )
          case 'finding':
            return (
              <Show when={scope.leads()}>
                <Button onClick={() => open({ dialog: 'close_warranty', complaint: way.complaint })}>
                  Record finding
                </Button>
              </Show>
            )
          case 'waive':
            return <AcceptButton what={[way.what]} of={id()} />
        }
      }}
    </For>
  )
}

/** Steps that only want doing: folded, because a fresh engine has all of them; links once it is opened. */
function ToSign(props: { stage: UnsignedStage }) {
  const { id } = untrack(useJob().job)
  const [opened, setOpened] = createSignal(false)
  const count = () => props.stage.steps.length
  return (
    <details class="to-sign unfold" onToggle={(event) => event.currentTarget.open && setOpened(true)}>
      <summary>
        <span class="entry-id">{props.stage.stage}</span> {props.stage.title}:{' '}
        {count() === 1 ? 'one step is' : `${count()} steps are`} not signed
      </summary>
      <Show
        when={opened()}
        fallback={<p>{props.stage.steps.map(({ stepId, title }) => `${stepId} ${title}`).join(', ')}</p>}
      >
        <ul>
          <For each={props.stage.steps}>
            {(step) => (
              <li>
                <A href={benchHref(id, step.stepId)}>
                  <b>{step.stepId}</b> {step.title}
                </A>
              </li>
            )}
          </For>
        </ul>
      </Show>
    </details>
  )
}

/** Numbered, newest first; a withdrawn one stays readable with its reason. */
export function Releases() {
  const scope = useJob()
  const open = useJobDialogs()
  const lines = createSame(() => releaseLines(scope.planned()))
  return (
    <Show when={lines().length > 0}>
      <section class="releases" aria-labelledby="releases-head">
        <h2 id="releases-head" class="ruled">
          Releases
        </h2>
        <ol>
          <For each={lines()}>
            {({ release, state, complaint, finding }) => (
              <li class={`release release-${state}`}>
                <p class="stencil release-number">{release.number}</p>
                <div>
                  <p>
                    <b>released {RELEASES[release.kind].to}</b> by <Stripe person={release.by} name="after" />
                    , {format.dateAndTime(release.doneAt)}
                    <Show when={release.ownWork}>, who had worked on it</Show>
                  </p>
                  <Show when={release.withdrawn}>
                    {(gone) => (
                      <p class="against">
                        Withdrawn {format.dateAndTime(gone().doneAt)}: rework on {gone().stepId} by{' '}
                        {scope.words.person(gone().by)}.
                      </p>
                    )}
                  </Show>
                  <Show when={complaint}>
                    {(complaint) => (
                      <p>A warranty case was opened since, and ends in the next edition: “{complaint()}”</p>
                    )}
                  </Show>
                  <Show when={finding}>{(finding) => <p>Found: {finding()}</p>}</Show>
                </div>
                <div class="entry-ways cluster">
                  <A class="button" href={recordHref(scope.job().id, release.number)}>
                    The record<span class="unseen"> {release.number}</span>
                  </A>
                  <Show when={state === 'stands' && release.kind === 'to_owner'}>
                    <Button
                      variant="quiet"
                      onClick={() => open({ dialog: 'open_warranty', number: release.number })}
                    >
                      Open warranty case
                    </Button>
                  </Show>
                </div>
              </li>
            )}
          </For>
        </ol>
      </section>
    </Show>
  )
}
