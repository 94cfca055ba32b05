/**
 * A plan file on its way into the library: dropped, chosen or pasted, read by the server, its faults shown at their
 * place in the text, which can be put right here; then a look at the plan, and only then is it added.
 */
import { useNavigate } from '@solidjs/router'
import { createMemo, createSignal, For, Show } from 'solid-js'
import type { PlanFault } from '../../../shared/plan/place'
import type { AsPrinted, Plan } from '../../../shared/plan/types'
import { SOMEBODY_WHO_LEADS } from '../../../shared/shop/entitlement'
import { counted, upperFirst } from '../../../shared/words'
import { planHref, readPlanFile } from '../../shop/plan-library'
import { placeWords, problemWords } from '../../shop/plan-place'
import { type ShopScope, useShopSend } from '../../shop/scope'
import { Button } from '../../ui/Button'
import { Sentence } from '../../ui/Sentence'
import { createSubmission } from '../../ui/submission'
import { DropFile } from './DropFile'
import { excerpt, placeOf, withAsPrinted } from './fault-place'
import { PartHead } from './PartHead'
import { PlanLook } from './PlanLook'
import { TakeAsPrinted } from './TakeAsPrinted'

/** Each brings five lines of text with it. */
const MOST_SHOWN = 12

export function ReadPlan(props: { scope: ShopScope }) {
  const { scope } = props
  const send = useShopSend()
  const navigate = useNavigate()
  const [text, setText] = createSignal('')
  const [fileName, setFileName] = createSignal<string>()
  const [faults, setFaults] = createSignal<{ text: string; list: PlanFault[] }>()
  const [plan, setPlan] = createSignal<Plan>()
  let area: HTMLTextAreaElement | undefined

  const adding = createSubmission(async (plan: Plan) => {
    const refusal = await send({ type: 'AddPlan', plan })
    if (refusal) return refusal
    navigate(planHref(plan))
  })
  const reading = createSubmission(async () => {
    const whole = text()
    setPlan()
    setFaults()
    adding.reset()
    if (!whole.trim()) return 'There is no text yet. Drop, choose or paste a plan file.'
    const answer = await readPlanFile(whole)
    if ('sentence' in answer) return answer.sentence
    if ('faults' in answer) setFaults({ text: whole, list: answer.faults })
    else setPlan(answer.plan)
  })

  async function take(file: File): Promise<void> {
    setFileName(file.name)
    setText(await file.text())
    await reading.submit()
  }

  const goTo = (offset: number) => {
    area?.focus()
    area?.setSelectionRange(offset, offset)
  }

  return (
    <section class="stack airy" aria-labelledby="read-title">
      <PartHead id="read-title" title="Load a plan file" inLibrary />
      <Show
        when={scope.mayEdit()}
        fallback={<p>{upperFirst(SOMEBODY_WHO_LEADS)} adds plans to the library.</p>}
      >
        <Show when={!plan()}>
          <DropFile
            accept=".json,application/json"
            title={fileName() ?? 'Drop a plan file here, or press to choose one.'}
            hint="A text file of JSON; GET /api/schema has its layout. Nothing is added before you have looked."
            onFile={(file) => void take(file)}
          />
        </Show>
        <Show when={faults()} keyed>
          {({ text, list }) => (
            <Faults
              text={text}
              faults={list}
              goTo={goTo}
              onTaken={(path, page) => {
                setText(JSON.stringify(withAsPrinted(JSON.parse(text), path, page), null, 2))
                void reading.submit()
              }}
            />
          )}
        </Show>
        <Show when={plan() ? adding.error() : reading.error()}>
          {(sentence) => <Sentence against>{sentence()}</Sentence>}
        </Show>
        <Show when={plan()} keyed>
          {(read) => (
            <>
              <Sentence>
                No fault found. Look at it; it is not in the library yet. The maker’s information governs.
              </Sentence>
              <PartHead title={read.title} beside={`edition ${read.edition}`} invented={read.invented}>
                <Button variant="main" disabled={adding.busy()} onClick={() => adding.submit(read)}>
                  {adding.busy() ? 'Adding…' : 'Add to library'}
                </Button>
                <Button variant="quiet" onClick={() => setPlan()}>
                  Change the text
                </Button>
              </PartHead>
              <PlanLook plan={read} />
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
          <Button variant="main" disabled={reading.busy()} onClick={() => reading.submit()}>
            {reading.busy() ? 'Reading…' : faults() ? 'Read it again' : 'Read it'}
          </Button>
        </Show>
      </Show>
    </section>
  )
}

interface FaultsProps {
  text: string
  faults: readonly PlanFault[]
  goTo(offset: number): void
  onTaken(path: string, page: Omit<AsPrinted, 'torqueNm'>): void
}

function Faults(props: FaultsProps) {
  /** As far as its text is a plan at all. */
  const plan = createMemo((): unknown => {
    try {
      return JSON.parse(props.text)
    } catch {
      return undefined
    }
  })
  return (
    <section class="faults" aria-labelledby="faults-title">
      <h3 id="faults-title">
        <span role="status">
          {counted(props.faults.length, 'fault')}: nothing was added.
          <Show when={props.faults.length > MOST_SHOWN}> The first {MOST_SHOWN}:</Show>
        </span>
      </h3>
      <ol class="stack airy">
        <For each={props.faults.slice(0, MOST_SHOWN)}>
          {(fault) => {
            const place = placeOf(props.text, fault.path)
            return (
              <li class="mark rust stack close">
                <p class="small">{placeWords(plan(), fault.path)}</p>
                <p>
                  <b>{problemWords(fault.problem)}.</b> {fault.inFile ?? fault.fix}
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
                <Show when={fault.asPrinted}>
                  <TakeAsPrinted onTaken={(page) => props.onTaken(fault.path, page)} />
                </Show>
              </li>
            )
          }}
        </For>
      </ol>
    </section>
  )
}
