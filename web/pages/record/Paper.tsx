/** The edition itself, from its head to the word that released the engine: the same on every device and on paper. */

import { createMemo, For, Show } from 'solid-js'
import { Dynamic } from 'solid-js/web'
import { RELEASES } from '../../../shared/plan/kinds'
import { ended } from '../../../shared/words'
import { markOf } from '../../drawings/heads'
import { format } from '../../format'
import { EngineFacts } from '../../job/JobHead'
import { RecordGroup } from '../../job/record/RecordGroup'
import { countWords, groupsOf, type JointGroup } from '../../job/record/rows'
import { auditLines } from '../../job/record/verdict'
import { JobContext, type JobView } from '../../job/scope'
import { useLive, useShop } from '../../live/live'
import { CalledThen } from '../../people/Stripe'
import { Fact } from '../../ui/Fact'
import { useNear } from '../../ui/near'
import { createLazy } from '../../ui/same'
import { Turn } from '../../ui/Turn'
import { coveredSteps, type Edition, inGroups } from './edition'
import { peopleOf } from './edition-rows'
import { Pictures } from './Pictures'
import { shopThen, todaysNames, wordsThen } from './people-then'
import {
  Accepted,
  Doubts,
  Gates,
  Holes,
  LeftOut,
  Measurements,
  Seals,
  SettledValues,
  Signatures,
} from './Sections'
import { type Whole, wholeWords } from './whole'

/** Between the head and the fasteners, in this order. */
const PARTS = [
  Signatures,
  Accepted,
  SettledValues,
  LeftOut,
  Doubts,
  Measurements,
  Holes,
  Seals,
  Gates,
  Pictures,
]

const JOINTS_AT_ONCE = 8

function Fasteners(props: { groups: readonly JointGroup[] }) {
  const groups = createMemo(() => props.groups)
  const some = useNear().growing(groups, JOINTS_AT_ONCE)
  return (
    <section class="record paper-fasteners">
      <h2>Fasteners, pass by pass</h2>
      <For each={some()} fallback={<p>This plan has no fasteners to record.</p>}>
        {(group) => <RecordGroup group={group} />}
      </For>
    </section>
  )
}

export function Paper(props: { edition: Edition; whole: Whole }) {
  const live = useLive()
  const { shop } = useShop()
  const job = () => props.edition.job
  const plan = () => job().plan
  const release = () => props.edition.release
  // On a paper that lies in a file for years, every moment has its year, and everybody the name of that day.
  const words = wordsThen(release(), { ...live.session.words, moment: format.dateAndTime })
  const then = createMemo(() => shopThen(release(), shop()))
  const view: JobView = {
    job,
    planned: job,
    shop: then,
    words,
    me: () => undefined,
    now: () => release().doneAt,
  }
  const covered = createMemo(() => coveredSteps(job(), release().kind))
  const steps = createMemo(() => plan().steps.filter(({ id }) => covered().has(id)))
  const lines = createLazy(() => auditLines(job()).filter(({ stepId }) => covered().has(stepId)))
  const people = createMemo(() => peopleOf(job(), release().by))
  return (
    <JobContext.Provider value={view}>
      <CalledThen.Provider value={(id) => release().people?.[id]}>
        <article class="paper audit" aria-labelledby="paper-head">
          <header class="paper-head">
            <div class="paper-title">
              <p class="stencil paper-shop">{shop().name}</p>
              <h1 id="paper-head">
                <span class="large">Release record</span>
                <span class="stencil paper-number">{release().number}</span>
              </h1>
            </div>
            <p class="paper-word">
              {job().engine.model}, serial {job().engine.serial}: released {RELEASES[release().kind].to},{' '}
              {format.dateAndTime(release().doneAt)}, edition {release().edition}.
            </p>
            <dl class="paper-facts">
              <Fact term="Job">{job().number}</Fact>
              <EngineFacts job={job()} withModel />
              <Fact term="Opened">{format.dateAndTime(job().openedAt)}</Fact>
              <Fact term="Agreed work" class="wide">
                {job().agreed}
              </Fact>
              <Fact term="Plan" class="wide">
                {plan().title}, edition {plan().edition}. Values from: {plan().source.replace(/\.$/, '')}.
              </Fact>
              <Fact term="Fasteners" class="wide">
                <Turn room="1lh">{countWords(lines())}</Turn>
              </Fact>
              <For each={job().warranties}>
                {(warranty) => (
                  <Fact term="Warranty case" class="wide">
                    {format.dateAndTime(warranty.doneAt)}: {ended(warranty.complaint)}
                    <Show when={warranty.closed}>
                      {(closed) => (
                        <>
                          {' '}
                          Found {format.dateAndTime(closed().doneAt)} by {words.person(closed().by)}:{' '}
                          {ended(closed().finding)}
                        </>
                      )}
                    </Show>
                  </Fact>
                )}
              </For>
              <Fact term="Initials" class="wide">
                {people()
                  .map((id) => `${markOf(then(), id).initials} ${words.person(id)}`)
                  .join(', ')}
                <Show when={todaysNames(release(), people(), words)}>
                  {(words) => <span class="pencil"> {words()}</span>}
                </Show>
              </Fact>
            </dl>
            <p class="paper-caution">
              Paintmark records what people state; it does not verify tightness. The maker’s current
              information governs.
            </p>
            <Show when={plan().invented}>
              <p class="paper-invented">
                The values of this plan are invented. Do not use them on a real engine.
              </p>
            </Show>
            <For each={[...new Set(plan().notices)]}>{(text) => <p>{text}</p>}</For>
          </header>
          <For each={PARTS}>
            {(part) => (
              <Turn room="6rem">
                <Dynamic component={part} job={job()} steps={steps()} now={props.edition.now} />
              </Turn>
            )}
          </For>
          <Turn room="100rem">
            <Fasteners groups={groupsOf(lines(), plan())} />
          </Turn>
          <footer class="paper-release">
            <h2>Release</h2>
            <p class="paper-said">
              I release this engine {RELEASES[release().kind].to}, on the record above.
            </p>
            <dl class="paper-facts">
              <Fact term="Released by">{words.person(release().by)}</Fact>
              <Fact term="When">{format.dateAndTime(release().doneAt)}</Fact>
              <Fact term="Record">
                {release().number}, edition {release().edition}
              </Fact>
              <Show when={release().ownWork}>
                <Fact term="Own work" class="wide">
                  Whoever released it had worked on it.
                </Fact>
              </Show>
              <Fact term="Covers" class="wide">
                the log of this engine to entry {release().version}, check number{' '}
                <span class="paper-hash">{inGroups(release().head)}</span>
              </Fact>
              <Fact term="Checked" class="wide">
                {wholeWords(props.whole)}
              </Fact>
            </dl>
            <p class="paper-line">
              <span>Signature</span>
              <span>Date</span>
            </p>
          </footer>
        </article>
      </CalledThen.Provider>
    </JobContext.Provider>
  )
}
