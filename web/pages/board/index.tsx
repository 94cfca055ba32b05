/**
 * The service writer's screen: every engine, by what needs attention, with the one reason it waits in words fit to
 * read aloud on the phone. No bolts here.
 */
import { A, useSearchParams } from '@solidjs/router'
import { createMemo, createSignal, For, lazy, onCleanup, onMount, Show, Suspense } from 'solid-js'
import type { JobSummary } from '../../../shared/job/summary'
import { OFFICE } from '../../../shared/shop/entitlement'
import { counted } from '../../../shared/words'
import { format } from '../../format'
import { usePageTitle } from '../../frame/title'
import { benchHref } from '../../hrefs'
import { useBoard, useLive, useSession, useShop } from '../../live/live'
import { Button } from '../../ui/Button'
import { useNow } from '../../ui/clock'
import { EmptyState } from '../../ui/EmptyState'
import { createNear } from '../../ui/near'
import { Beside } from './Beside'
import { DamageNotices } from './DamageNotices'
import { Key } from './Key'
import { PinNotice } from './PinNotice'
import { perEngine } from './per-engine'
import { Row } from './Row'
import { matches } from './search'
import { type Looker, mostPressing, toDoOn } from './today'
import { useSince } from './use-since'
import './board.css'
import './board-print.css'

const NewJob = lazy(() => import('../../job/NewJob'))
const ChoosePlan = lazy(() => import('./ChoosePlan'))
const Finished = lazy(() => import('./Finished'))

/** How often it is asked which day it is. */
const LOOK_MS = 10_000
/** More rows than the tallest office screen shows. */
const AT_ONCE = 12

export default function Board() {
  const board = useBoard()
  const session = useSession()
  const { clock, link } = useLive()
  const { shop } = useShop()
  usePageTitle(() => 'Board')
  const [sought, setSought] = createSignal('')
  const [opening, setOpening] = createSignal(false)
  const [planFor, setPlanFor] = createSignal<JobSummary>()
  const [lookedFor, setLookedFor] = createSignal(0)
  const lookFor = () => setLookedFor(lookedFor() + 1)
  const width = createStripWidth()
  const near = createNear({ atOnce: AT_ONCE })

  const shown = createMemo(() => {
    const query = sought().trim()
    if (!query) return board.ids()
    return board.ids().filter((id) => {
      const summary = board.summary(id)
      return summary && matches(summary, query)
    })
  })
  const time = useNow(LOOK_MS)
  const day = createMemo(() => format.calendar.dayOf(time()))
  const entered = createMemo(() => shop().people[session.person()?.id ?? ''])
  const looker = createMemo((): Looker | undefined => {
    const me = session.person()
    const known = entered()
    return me && { id: me.id, roles: me.roles, ...(known ? { entered: known } : {}) }
  })
  const toDo = perEngine(board, (summary) => {
    const who = looker()
    day()
    return who ? toDoOn(summary, who, clock.now(), session.words) : []
  })
  const today = createMemo(() => mostPressing(toDo()))
  const since = useSince(board, day)
  const mayOpen = () => session.holds(...OFFICE)
  const mine = perEngine(board, ({ id, number, on }) =>
    on.flatMap(({ by, stepId }) =>
      by === session.person()?.id ? { href: benchHref(id, stepId), number, stepId } : [],
    ),
  )
  const countWords = () => {
    const all = board.ids().length
    if (all === 0) return 'no engine in the shop'
    if (sought().trim()) return `${shown().length} of ${all} shown`
    return `${counted(all, 'engine')}, by what needs attention`
  }
  const outOfReach = () => !board.known() && board.looked() && link.state() === 'lost'

  return (
    <div class="page board">
      <PrintLine />
      <div class="board-head cluster">
        <h1>Board</h1>
        <p class="pencil" role="status">
          {board.known() ? countWords() : outOfReach() ? '' : 'Reading the board…'}
        </p>
        <Show when={board.known() && board.asOf()}>
          {(at) => <p class="as-of">As of {session.words.moment(at())}</p>}
        </Show>
        <Search onValue={setSought} />
        <Button variant="quiet" class="only-broad" onClick={lookFor}>
          Engines that left
        </Button>
        <A class="button quiet only-broad" href="/wall">
          Wall
        </A>
        <Button variant="quiet" class="only-broad" onClick={() => window.print()}>
          Print
        </Button>
        {/* On an empty board the same press stands in its midst, with what it is for. */}
        <Show when={mayOpen() && !(board.known() && board.ids().length === 0)}>
          <Button onClick={() => setOpening(true)}>Open job</Button>
        </Show>
      </div>
      <DamageNotices notices={board.damage()} />
      <PinNotice />
      <Show when={mine().length > 0}>
        <ul class="go-on stack">
          <For each={mine()}>
            {(next) => (
              <li>
                <A class="button main wide" href={next.href}>
                  Continue: <span class="stencil">{next.number}</span> {next.stepId}
                </A>
              </li>
            )}
          </For>
        </ul>
      </Show>
      <div class="board-sides">
        <Show when={board.known() && board.ids().length > 0 && !sought().trim()}>
          <Beside today={today()} changes={since.changes()} since={since.at()} seeAll={since.seeAll} />
        </Show>
        <div class="board-rows">
          <div class="row row-measure" aria-hidden="true">
            <div class="row-strip" ref={width.ref} />
          </div>
          <Show when={outOfReach()}>
            <EmptyState title="No signal, and the board is not kept on this device.">
              <p>It opens by itself when the signal is back.</p>
            </EmptyState>
          </Show>
          <Show when={board.known()}>
            <Show
              when={shown().length > 0}
              fallback={
                <Nothing
                  sought={sought().trim()}
                  mayOpen={mayOpen()}
                  mayLead={session.leads()}
                  open={() => setOpening(true)}
                />
              }
            >
              <ol class="rows">
                <For each={shown()}>
                  {(id) => (
                    <Row
                      summary={() => board.summary(id)}
                      width={width.value()}
                      near={near}
                      onChoosePlan={setPlanFor}
                    />
                  )}
                </For>
              </ol>
            </Show>
            <LeftTheShop
              sought={shown().length === 0 ? sought().trim() : ''}
              pressed={lookedFor()}
              onPress={lookFor}
            />
            <Show when={!sought().trim()}>
              <Key />
            </Show>
          </Show>
        </div>
      </div>
      <Suspense>
        <Show when={opening()}>
          <NewJob onClose={() => setOpening(false)} />
        </Show>
        <Show when={planFor()}>
          {(summary) => <ChoosePlan job={summary()} onClose={() => setPlanFor()} />}
        </Show>
      </Suspense>
    </div>
  )
}

/** Older engines are not on the board: they are looked up, and what does that is loaded then. */
function LeftTheShop(props: { sought: string; pressed: number; onPress(): void }) {
  const [params] = useSearchParams<{ number?: string; year?: string }>()
  return (
    <section class="finished stack roomy" aria-labelledby="finished-title">
      <h2 id="finished-title">Engines that left the shop</h2>
      <p class="pencil">
        An engine released to its owner leaves the board six weeks after its last entry. Look it up by its
        number, or see all of a year.
      </p>
      <Show
        when={props.pressed > 0 || params.number || params.year}
        fallback={
          <div>
            <Button onClick={() => props.onPress()}>Look up an engine</Button>
          </div>
        }
      >
        <Suspense fallback={<p class="pencil">Opening…</p>}>
          <Finished sought={props.sought} pressed={props.pressed} />
        </Suspense>
      </Show>
    </section>
  )
}

/** On paper only: whose board it is, and when it stood so. */
function PrintLine() {
  const { session, clock } = useLive()
  const [at, setAt] = createSignal(clock.now())
  const before = () => setAt(clock.now())
  addEventListener('beforeprint', before)
  onCleanup(() => removeEventListener('beforeprint', before))
  return (
    <p class="on-paper">
      <span class="stencil">{session.me()?.shop.name}</span> {format.longDateAndTime(at())}, for{' '}
      {session.person()?.name}
    </p>
  )
}

/** All strips are as wide as one: it is measured once for all of them. */
function createStripWidth() {
  const [value, setValue] = createSignal(0)
  // On paper nothing is measured: the strips keep what they had and are fitted by the style sheet.
  const observer = new ResizeObserver(([entry]) => {
    const width = Math.floor(entry?.contentRect.width ?? 0)
    if (width > 0) setValue(width)
  })
  onCleanup(() => observer.disconnect())
  return { value, ref: (element: HTMLElement) => observer.observe(element) }
}

function Search(props: { onValue(value: string): void }) {
  let input: HTMLInputElement | undefined
  const seek = (event: KeyboardEvent) => {
    const target = event.target as HTMLElement
    if (
      event.key !== '/' ||
      /^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName) ||
      document.querySelector('dialog[open]')
    )
      return
    event.preventDefault()
    input?.focus()
  }
  onMount(() => document.addEventListener('keydown', seek))
  onCleanup(() => document.removeEventListener('keydown', seek))
  return (
    <search class="search">
      <label for="seek" class="unseen">
        Find an engine by number, serial, name, owner
      </label>
      <input
        id="seek"
        type="search"
        ref={input}
        placeholder="Find an engine"
        autocomplete="off"
        aria-keyshortcuts="/"
        onInput={(event) => props.onValue(event.currentTarget.value)}
      />
    </search>
  )
}

function Nothing(props: { sought: string; mayOpen: boolean; mayLead: boolean; open(): void }) {
  return (
    <Show
      when={props.sought}
      fallback={
        <EmptyState title="No engine is in the shop yet.">
          <p>
            Each engine gets a row here: its number, its owner, a bar of its steps, and the one reason it
            waits.
          </p>
          <Show
            when={props.mayOpen}
            fallback={
              <p>
                A service writer or a supervisor opens a job when an engine comes in; it then appears here by
                itself.
              </p>
            }
          >
            <p>Open a job when an engine comes in; a supervisor then adopts its build plan.</p>
            <Button variant="main" onClick={props.open}>
              Open job
            </Button>
          </Show>
          <Show when={props.mayLead}>
            <p>
              A new shop? <A href="/first-run">The guided list</A> says what else the shop needs: people,
              wrenches, a plan.
            </p>
          </Show>
        </EmptyState>
      }
    >
      <EmptyState title={`No engine matches “${props.sought}”.`}>
        <p>
          The search looks at number, serial number, engine, owner and what it drives, of the engines on the
          board. Try fewer letters, or look below among those that left the shop.
        </p>
      </EmptyState>
    </Show>
  )
}
