/**
 * A plan file on its way into the library: dropped, chosen or pasted, read by the server, its faults shown at their
 * place in the text, which can be put right here; then a look at the plan, and only then is it added.
 */
import { A, useNavigate } from '@solidjs/router'
import { createSignal, For, Show } from 'solid-js'
import type { PlanFault } from '../../../shared/plan/place'
import type { Plan } from '../../../shared/plan/types'
import { planHref, readPlanFile } from '../../shop/plan-library'
import type { ShopDesk } from '../../shop/scope'
import { Button } from '../../ui/Button'
import { Sentence } from '../../ui/Sentence'
import { DropFile } from './DropFile'
import { excerpt, placeOf } from './fault-place'
import { PlanLook } from './PlanLook'

/** Each brings five lines of text with it. */
const MOST_SHOWN = 12

export function ReadPlan(props: { desk: ShopDesk }) {
  const { desk } = props
  const navigate = useNavigate()
  const [text, setText] = createSignal('')
  const [fileName, setFileName] = createSignal<string>()
  const [faults, setFaults] = createSignal<{ of: string; list: PlanFault[] }>()
  const [plan, setPlan] = createSignal<Plan>()
  const [why, setWhy] = createSignal<string>()
  const [busy, setBusy] = createSignal(false)
  let area: HTMLTextAreaElement | undefined

  async function read(): Promise<void> {
    const asked = text()
    setPlan()
    setFaults()
    setWhy()
    if (!asked.trim()) return void setWhy('There is no text yet. Drop, choose or paste a plan file.')
    setBusy(true)
    const reading = await readPlanFile(asked)
    setBusy(false)
    if ('sentence' in reading) setWhy(reading.sentence)
    else if ('faults' in reading) setFaults({ of: asked, list: reading.faults })
    else setPlan(reading.plan)
  }

  async function take(file: File): Promise<void> {
    setFileName(file.name)
    setText(await file.text())
    await read()
  }

  async function add(one: Plan): Promise<void> {
    setBusy(true)
    const sentence = await desk.send({ type: 'AddPlan', plan: one })
    setBusy(false)
    setWhy(sentence)
    if (!sentence) navigate(planHref(one))
  }

  const goTo = (offset: number) => {
    area?.focus()
    area?.setSelectionRange(offset, offset)
  }

  return (
    <section class="read-plan" aria-labelledby="read-title">
      <div class="part-head">
        <h2 id="read-title">Read in a plan</h2>
        <A class="button quiet" href="/shop/plans">
          Back to the library
        </A>
      </div>
      <Show when={desk.mayEdit()} fallback={<p>A supervisor or the owner reads plans into the library.</p>}>
        <Show when={!plan()}>
          <DropFile
            accept=".json,application/json"
            title={fileName() ?? 'Drop a plan file here, or press to choose one.'}
            hint="A text file of JSON; GET /api/schema has its layout. Nothing is added before you have looked."
            onFile={(file) => void take(file)}
          />
        </Show>
        <Show when={faults()} keyed>
          {(found) => <Faults text={found.of} faults={found.list} goTo={goTo} />}
        </Show>
        <Show when={why()}>
          <Sentence against>{why()}</Sentence>
        </Show>
        <Show when={plan()} keyed>
          {(one) => (
            <>
              <Sentence>
                No fault found. Look at it; it is not in the library yet. The maker’s information governs.
              </Sentence>
              <div class="part-head">
                <h2>
                  {one.title} <span class="pencil">edition {one.edition}</span>{' '}
                  <Show when={one.invented}>
                    <span class="invented">values invented</span>
                  </Show>
                </h2>
                <Button variant="main" disabled={busy()} onClick={() => void add(one)}>
                  {busy() ? 'Adding…' : 'Add it to the library'}
                </Button>
                <Button variant="quiet" onClick={() => setPlan()}>
                  Change the text
                </Button>
              </div>
              <PlanLook plan={one} />
            </>
          )}
        </Show>
        <Show when={!plan()}>
          <div class="field">
            <label for="plan-text">Or paste its text, and put it right here</label>
            <textarea
              id="plan-text"
              class="plan-text"
              ref={area}
              spellcheck={false}
              autocomplete="off"
              value={text()}
              onInput={(event) => setText(event.currentTarget.value)}
            />
          </div>
          <Button variant="main" disabled={busy()} onClick={() => void read()}>
            {busy() ? 'Reading…' : faults() ? 'Read it again' : 'Read it'}
          </Button>
        </Show>
      </Show>
    </section>
  )
}

function Faults(props: { text: string; faults: readonly PlanFault[]; goTo(offset: number): void }) {
  const count = () => (props.faults.length === 1 ? '1 fault' : `${props.faults.length} faults`)
  return (
    <section class="faults" aria-labelledby="faults-title">
      <h3 id="faults-title">
        <span role="status">
          {count()}: nothing was added.
          <Show when={props.faults.length > MOST_SHOWN}> The first {MOST_SHOWN}:</Show>
        </span>
      </h3>
      <ol>
        <For each={props.faults.slice(0, MOST_SHOWN)}>
          {(fault) => {
            const place = placeOf(props.text, fault.path)
            return (
              <li>
                <p class="small path">{fault.path}</p>
                <p>
                  <b>{fault.problem}.</b> {fault.fix}
                </p>
                <pre>
                  <For each={excerpt(props.text, place)}>
                    {(line) => (
                      <code classList={{ 'at-fault': line.at }}>
                        <span class="line-number">{line.n}</span>
                        {line.text}
                        {'\n'}
                      </code>
                    )}
                  </For>
                </pre>
                <Button variant="quiet" onClick={() => props.goTo(place.offset)}>
                  To line {place.line} in the text
                </Button>
              </li>
            )
          }}
        </For>
      </ol>
    </section>
  )
}
