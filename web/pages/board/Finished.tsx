/** Finds engines that left the shop, by number or by year. Asks the server only when somebody asks. */
import { A, useSearchParams } from '@solidjs/router'
import { createEffect, createMemo, createSignal, For, Match, onMount, Show, Switch } from 'solid-js'
import { numbersMeant } from '../../../shared/job/number'
import type { FinishedJob } from '../../../shared/protocol'
import { counted } from '../../../shared/words'
import { format } from '../../format'
import { engineHref, recordHref } from '../../hrefs'
import { type Failure, isFailure } from '../../live/http'
import { useBoard, useLive } from '../../live/live'
import { Button } from '../../ui/Button'
import { Field } from '../../ui/Field'
import { Form } from '../../ui/Form'
import { lookUp, type Question, yearHint, yearIn } from './finished'
import { matches } from './search'
import './finished.css'

interface FinishedProps {
  /** A number that was sought on the board. */
  sought: string
  /** How often somebody pressed for it: the entry goes on in its first field. */
  pressed: number
}

interface Looked {
  question: Question
  /** Absent while the server is asked. */
  answer?: FinishedJob[] | Failure
}

export default function Finished(props: FinishedProps) {
  const { clock } = useLive()
  const thisYear = () => Number(format.calendar.dayOf(clock.now()).slice(0, 4))
  // The question stands in the address, so that whoever comes back from an engine finds the list again.
  const [params, setParams] = useSearchParams<{ number?: string; year?: string }>()
  const [number, setNumber] = createSignal(params.number ?? props.sought)
  const [year, setYear] = createSignal(params.year ?? String(thisYear()))
  const [wrong, setWrong] = createSignal<'number' | 'year'>()
  const [looked, setLooked] = createSignal<Looked>()
  let first: HTMLDivElement | undefined

  async function look(question: Question): Promise<void> {
    setWrong()
    const asked: Looked = { question }
    setLooked(asked)
    const answer = await lookUp(question)
    // Another question may have been asked meanwhile.
    if (looked() === asked) setLooked({ question, answer })
  }
  function ask(question: Question): Promise<void> {
    setParams(
      'year' in question
        ? { year: question.year, number: undefined }
        : { number: question.number, year: undefined },
      { replace: true },
    )
    if ('year' in question) setYear(String(question.year))
    return look(question)
  }
  function askNumber(): false | undefined {
    const asked = number().trim()
    if (asked) return void ask({ number: asked })
    setWrong('number')
    return false
  }
  function askYear(): false | undefined {
    const asked = yearIn(year(), thisYear())
    if (asked !== undefined) return void ask({ year: asked })
    setWrong('year')
    return false
  }

  onMount(() => {
    const asked = yearIn(params.year ?? '', thisYear())
    if (params.number) void look({ number: params.number })
    else if (asked !== undefined) void look({ year: asked })
  })
  createEffect(() => {
    if (props.pressed > 0) first?.querySelector('input')?.focus()
  })

  return (
    <>
      <div class="finished-ask" ref={first}>
        <Form onSubmit={askNumber}>
          <Field
            label="Job number"
            value={number()}
            onValue={(text) => {
              setNumber(text)
              setWrong()
            }}
            {...(wrong() === 'number' ? { error: 'Enter the job number as it stands on the record.' } : {})}
            maxLength={24}
            autocomplete="off"
            autocapitalize="characters"
          />
          <Button type="submit">Find engine</Button>
        </Form>
        <Form onSubmit={askYear}>
          <Field
            label="Year of the last entry"
            value={year()}
            onValue={(text) => {
              setYear(text)
              setWrong()
            }}
            {...(wrong() === 'year' ? { error: yearHint(thisYear()) } : {})}
            inputmode="numeric"
            maxLength={4}
            autocomplete="off"
          />
          <Button type="submit">Show year</Button>
        </Form>
      </div>
      <Show when={looked()}>
        {(now) => <Answer looked={now()} thisYear={thisYear()} ask={(question) => void ask(question)} />}
      </Show>
    </>
  )
}

function Answer(props: { looked: Looked; thisYear: number; ask(question: Question): void }) {
  const failure = () => {
    const { answer } = props.looked
    return answer && isFailure(answer) ? answer : undefined
  }
  const jobs = () => {
    const { answer } = props.looked
    return answer && !isFailure(answer) ? answer : undefined
  }
  const year = () => ('year' in props.looked.question ? props.looked.question.year : undefined)
  return (
    <div class="finished-answer stack roomy">
      <div class="cluster">
        <p role="status" class="strong">
          <Switch fallback="Looking…">
            <Match when={failure()}>{(why) => why().sentence}</Match>
            <Match when={jobs()}>{(found) => foundWords(props.looked.question, found().length)}</Match>
          </Switch>
        </p>
        <Show when={failure()}>
          <Button onClick={() => props.ask(props.looked.question)}>Try again</Button>
        </Show>
        <Show when={year()}>
          {(shown) => (
            <For each={[shown() - 1, shown() + 1].filter((other) => other <= props.thisYear)}>
              {(other) => (
                <Button variant="quiet" onClick={() => props.ask({ year: other })}>
                  Show {other}
                </Button>
              )}
            </For>
          )}
        </Show>
      </div>
      <Show when={jobs()?.length === 0 && 'number' in props.looked.question && props.looked.question.number}>
        {(number) => <StillHere number={number()} />}
      </Show>
      <Show when={jobs()?.length ? jobs() : undefined} keyed>
        {(found) => <Engines jobs={found} />}
      </Show>
    </div>
  )
}

function foundWords(question: Question, count: number): string {
  if ('number' in question)
    return count > 1
      ? `${counted(count, 'engine')} with this number left the shop, latest first`
      : count > 0
        ? 'This engine left the shop.'
        : `No engine “${question.number}” has left the shop.`
  if (count === 0) return `No engine left the shop with its last entry in ${question.year}.`
  return `${counted(count, 'engine')} with the last entry in ${question.year}${count > 1 ? ', latest first' : ''}`
}

/** A number nobody found may stand on the board. */
function StillHere(props: { number: string }) {
  const board = useBoard()
  const here = createMemo(() => {
    const inShop = board.ids().flatMap((id) => board.summary(id) ?? [])
    const [meant, ...more] = numbersMeant(
      props.number,
      inShop.map(({ number }) => number),
    )
    return more.length > 0 ? undefined : inShop.find(({ number }) => number === meant)
  })
  return (
    <Show when={here()} fallback={<p class="pencil">Enter the whole number as it stands on the record.</p>}>
      {(summary) => (
        <p>
          <A href={engineHref(summary().id)}>{summary().number}</A> is on the board: it is still in the shop.
        </p>
      )}
    </Show>
  )
}

/** Drawn at once; more on request. */
const FIRST = 50

function Engines(props: { jobs: readonly FinishedJob[] }) {
  const [sought, setSought] = createSignal('')
  const [atMost, setAtMost] = createSignal(FIRST)
  const found = createMemo(() => {
    const query = sought().trim()
    return query ? props.jobs.filter((job) => matches(job, query)) : props.jobs
  })
  const more = () => Math.min(found().length - atMost(), FIRST)
  return (
    <>
      <Show when={props.jobs.length > 10}>
        <div class="finished-filter">
          <Field
            label="Find in this list: number, serial, engine or owner"
            type="search"
            value={sought()}
            onValue={setSought}
            autocomplete="off"
          />
        </div>
      </Show>
      <ul class="lines">
        <For
          each={found().slice(0, atMost())}
          fallback={<li class="pencil">No engine in this list matches “{sought().trim()}”.</li>}
        >
          {(job) => (
            <li class="finished-row">
              <A class="finished-engine" href={engineHref(job.id)}>
                <b class="stencil">{job.number}</b>
                <span>
                  <span class="strong">{job.engine}</span>
                  <span class="pencil">
                    {job.owner}; serial {job.serial}
                  </span>
                </span>
              </A>
              <span class="pencil small">last entry {format.date(job.finishedAt)}</span>
              <Show when={job.release}>
                {(release) => (
                  <A class="button quiet" href={recordHref(job.id, release())}>
                    Record {release()}
                  </A>
                )}
              </Show>
            </li>
          )}
        </For>
      </ul>
      <Show when={more() > 0}>
        <Button onClick={() => setAtMost(atMost() + FIRST)}>
          Show {more()} more of {found().length}
        </Button>
      </Show>
    </>
  )
}
