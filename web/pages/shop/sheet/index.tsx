/**
 * From a torque sheet: a pasted or dropped table, its columns as they were guessed, every line with what was read of it,
 * those to look at first; then a plan in draft. What is in work here outlives a reload.
 */
import { A, useNavigate } from '@solidjs/router'
import { createEffect, createMemo, createSignal, For, on, onCleanup, onMount, Show } from 'solid-js'
import { readSheet, type SheetChoices } from '../../../../shared/sheet'
import { SOMEBODY_WHO_LEADS } from '../../../../shared/shop/entitlement'
import { upperFirst } from '../../../../shared/words'
import { useLive } from '../../../live/live'
import type { ShopScope } from '../../../shop/scope'
import { Button } from '../../../ui/Button'
import { draftShelf } from '../draft/shelf'
import { Lines } from './Lines'
import { MakePlan } from './MakePlan'
import { SheetColumns } from './SheetColumns'
import { SheetText } from './SheetText'
import { countsWords } from './sheet-words'
import {
  type CorrectLine,
  countsOf,
  EMPTY_WORK,
  inOrder,
  isToLookAt,
  nextDoubt,
  restAs,
  type SheetWork,
  withCorrection,
  workLines,
} from './sheet-work'
import './sheet.css'
import { format } from '../../../format'

/** Longer than between two keys, so that typing a sheet does not read it at each of them. */
const REST_MS = 250

export default function FromSheet(props: { scope: ShopScope }) {
  const live = useLive()
  const navigate = useNavigate()
  const [work, setWork] = createSignal<SheetWork>(EMPTY_WORK)
  const [here, setHere] = createSignal<number>()
  const shelf = () => draftShelf(live.session.me()?.shop.key ?? 'unknown')

  let waiting: ReturnType<typeof setTimeout> | undefined
  const keep = async () => {
    clearTimeout(waiting)
    waiting = undefined
    await (await shelf()).putSheet(work().text.trim() ? work() : undefined)
  }
  const change = (next: SheetWork) => {
    setWork(next)
    clearTimeout(waiting)
    waiting = setTimeout(() => void keep(), REST_MS)
  }
  onMount(async () => {
    const stored = await (await shelf()).sheet()
    if (stored && work().text === '') setWork(stored)
  })
  const leave = () => waiting !== undefined && void keep()
  onMount(() => window.addEventListener('pagehide', leave))
  onCleanup(() => {
    window.removeEventListener('pagehide', leave)
    leave()
  })

  const [read, setRead] = createSignal<{ text: string; choices: SheetChoices }>(EMPTY_WORK)
  // A correction changes neither: the sheet is read anew only for another text or another choice.
  const text = createMemo(() => work().text)
  const choices = createMemo(() => work().choices)
  // Its text is read when it rests; a column chosen is read at once.
  createEffect(
    on([text, choices], ([now, chosen], before) => {
      if (before && before[0] !== now && before[0] !== '') {
        const rest = setTimeout(() => setRead({ text: now, choices: chosen }), REST_MS)
        onCleanup(() => clearTimeout(rest))
      } else setRead({ text: now, choices: chosen })
    }),
  )
  const sheet = createMemo(() => readSheet(read().text, format, read().choices))
  const corrections = createMemo(() => work().corrections)
  const lines = createMemo(() => workLines(sheet(), { choices: read().choices, corrections: corrections() }))
  const byLine = createMemo(() => new Map(lines().map((line) => [line.original.line, line])))
  const counts = createMemo(() => countsOf(lines()))
  // Fixed while the lines are gone through: a line put right stays where the hand is.
  const [sorted, setSorted] = createSignal<{ look: number[]; rest: number[] }>({ look: [], rest: [] })
  const sortAgain = () => setSorted(inOrder(lines()))
  createEffect(on(sheet, sortAgain))

  const correct: CorrectLine = (line, patch) => change(withCorrection(work(), line, patch))
  const toNext = () => {
    const next = nextDoubt([...sorted().look, ...sorted().rest], (n) => byLine().get(n), here())
    if (next !== undefined) {
      // Led there again also when it is the only one left.
      setHere(undefined)
      setHere(next)
    }
    return next
  }
  const onKey = (event: KeyboardEvent) => {
    // A press of a class leaves the focus on it; nothing is typed there.
    const typing = (event.target as HTMLElement).matches('input:not([type=radio]), textarea, select')
    if (event.key !== 'n' || typing || event.ctrlKey || event.metaKey || event.altKey) return
    if (document.querySelector('dialog[open]')) return
    if (toNext() !== undefined) event.preventDefault()
  }
  onMount(() => window.addEventListener('keydown', onKey))
  onCleanup(() => window.removeEventListener('keydown', onKey))

  return (
    <section class="from-sheet stack apart" aria-labelledby="sheet-title">
      <div class="part-head cluster">
        <h2 id="sheet-title">From a torque sheet</h2>
        <A class="button quiet" href="/shop/plans">
          Back to the library
        </A>
      </div>
      <Show when={props.scope.mayEdit()} fallback={<p>{upperFirst(SOMEBODY_WHO_LEADS)} drafts plans.</p>}>
        <SheetText
          text={work().text}
          onText={(text) => change({ ...work(), text })}
          onNew={(text) => change({ ...EMPTY_WORK, text })}
        />
        <Show when={lines().length > 0}>
          <SheetColumns
            sheet={sheet()}
            choices={work().choices}
            onChoices={(choices) => change({ ...work(), choices })}
          />
          <div class="sheet-counts cluster">
            <p role="status" class="sheet-figures">
              {countsWords(counts())}
            </p>
            <Button
              disabled={counts().look + counts().unread + counts().stopped === 0}
              onClick={() => void toNext()}
              aria-keyshortcuts="n"
            >
              Next to look at <kbd>N</kbd>
            </Button>
            <Button
              disabled={counts().withoutClass === 0}
              onClick={() => change(restAs(work(), lines(), 'B'))}
            >
              {counts().withoutClass === 0
                ? 'Every line has its class'
                : `All without a class as B: ${counts().withoutClass}`}
            </Button>
            <Show when={sorted().look.some((n) => !isToLookAt(byLine().get(n)))}>
              <Button variant="quiet" onClick={sortAgain}>
                Sort again
              </Button>
            </Show>
          </div>
          <Show when={sheet().remarks.length > 0}>
            <section aria-labelledby="remarks-title" class="stack">
              <h3 id="remarks-title">Of the whole sheet</h3>
              <ul class="sheet-remarks stack">
                <For each={sheet().remarks}>{(remark) => <li>{remark}</li>}</For>
              </ul>
            </section>
          </Show>
          <Lines
            sorted={sorted()}
            byLine={(n) => byLine().get(n)}
            here={here()}
            onHere={setHere}
            toNext={toNext}
            onCorrect={correct}
          />
          <MakePlan
            scope={props.scope}
            lines={lines()}
            counts={counts()}
            onMade={async (draft) => {
              await (await shelf()).put(draft)
              navigate(`/shop/plans/draft/${draft.id}`)
            }}
            now={live.clock.now}
          />
        </Show>
      </Show>
    </section>
  )
}
