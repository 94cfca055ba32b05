/** The audit: what wants the supervisor, most important first, then the record, fastener by fastener. */
import { createMemo, createSignal, For, onCleanup, onMount, Show } from 'solid-js'
import { Dynamic } from 'solid-js/web'
import { usePageTitle } from '../../frame/title'
import { engineHref } from '../../hrefs'
import { EngineLine, JobHead } from '../../job/JobHead'
import { JobProvider } from '../../job/JobProvider'
import { RefusedEntries } from '../../job/RefusedEntries'
import { RecordGroup } from '../../job/record/RecordGroup'
import { countWords, EMPTY_QUERY, groupsOf, occurring, type Query, searchRecord } from '../../job/record/rows'
import { auditLines } from '../../job/record/verdict'
import { useJob } from '../../job/scope'
import { EmptyState } from '../../ui/EmptyState'
import { createNear, NearContext, useNear } from '../../ui/near'
import { createSame } from '../../ui/same'
import { Turn } from '../../ui/Turn'
import { FlaggedReadings, SignBeforeHidden, UnitSlips } from './AuditLists'
import { CompletenessBars } from './Completeness'
import { goToNextOpen, isForThePage } from './next-open'
import { Deferrals, Holds } from './OpenEnds'
import { PrintHead } from './PrintHead'
import { RecordFilterBar } from './RecordFilter'
import { AgainstRelease, Releases } from './ReleaseLists'
import { Values } from './Values'
import { Deviations, WaiversGiven } from './Waivers'
import './audit.css'
import '../../job/record/record.css'
import '../../job/record/record-print.css'

export default function AuditPage() {
  return (
    <JobProvider place="audit">
      <RefusedEntries />
      <Audit />
    </JobProvider>
  )
}

/** Below what must be signed first. */
const LISTS = [
  AgainstRelease,
  FlaggedReadings,
  UnitSlips,
  Deviations,
  WaiversGiven,
  Values,
  Deferrals,
  Holds,
  CompletenessBars,
]

function Audit() {
  const scope = useJob()
  usePageTitle(() => `${scope.job().number} audit`)
  let page: HTMLDivElement | undefined
  const next = () => page && goToNextOpen(page)
  const press = (event: KeyboardEvent) => {
    if (event.key === 'n' && isForThePage(event) && next()) event.preventDefault()
  }
  onMount(() => window.addEventListener('keydown', press))
  onCleanup(() => window.removeEventListener('keydown', press))
  return (
    <NearContext.Provider value={createNear()}>
      <div class="page audit" ref={page}>
        <JobHead title="Audit">
          <p>
            <EngineLine />
          </p>
        </JobHead>
        <Show when={scope.job().plan} fallback={<NoRecord />}>
          <Releases />
          <div class="audit-lists">
            <SignBeforeHidden />
            <For each={LISTS}>
              {(list) => (
                <Turn>
                  <Dynamic component={list} />
                </Turn>
              )}
            </For>
          </div>
          <Turn room="100rem">
            <Record onNext={next} />
          </Turn>
        </Show>
      </div>
    </NearContext.Provider>
  )
}

const JOINTS_AT_ONCE = 8

function Record(props: { onNext(): void }) {
  const scope = useJob()
  const [query, setQuery] = createSignal<Query>(EMPTY_QUERY)
  const [printedAt, setPrintedAt] = createSignal(scope.now())
  const lines = createMemo(() => auditLines(scope.job()))
  const who = createSame(() => occurring(lines()))
  const shown = createMemo(() => searchRecord(lines(), query(), scope.words))
  const byJoint = createMemo(
    () => new Map(groupsOf(shown(), scope.planned().plan).map((group) => [group.joint.id, group])),
  )
  const joints = createSame(() => [...byJoint().keys()])
  const near = useNear()
  const some = near.growing(joints, JOINTS_AT_ONCE)
  /** Nobody sees it on a screen. */
  const paperComes = near.part('last')
  const beforePrint = () => setPrintedAt(scope.now())
  onMount(() => window.addEventListener('beforeprint', beforePrint))
  onCleanup(() => window.removeEventListener('beforeprint', beforePrint))
  return (
    <section class="record" aria-labelledby="record-head">
      <Show when={paperComes()}>
        <PrintHead
          query={query()}
          lines={lines()}
          people={who().people}
          shown={countWords(shown())}
          at={printedAt()}
        />
      </Show>
      <h2 class="ruled" id="record-head">
        The record
      </h2>
      <RecordFilterBar
        query={query()}
        onChange={setQuery}
        lines={lines()}
        who={who()}
        shown={shown()}
        onNext={props.onNext}
      />
      <For
        each={some()}
        fallback={
          <p class="record-none">
            {lines().length === 0
              ? 'This plan has no fasteners to record.'
              : 'No fastener matches. Use fewer words, or show all.'}
          </p>
        }
      >
        {(id) => <RecordGroup group={byJoint().get(id)} />}
      </For>
    </section>
  )
}

function NoRecord() {
  const scope = useJob()
  return (
    <EmptyState title="Nothing to audit yet">
      <p>
        Every fastener is listed here, pass by pass, once this engine has a plan. A supervisor adopts one on
        the engine page.
      </p>
      <a class="button" href={engineHref(scope.job().id)}>
        To the engine
      </a>
    </EmptyState>
  )
}
