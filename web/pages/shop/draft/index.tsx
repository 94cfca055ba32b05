/**
 * A plan in draft: every change is kept on this device at once and checked at once. Without a fault it is taken into the
 * library, where an edition never changes any more; as a file it goes anywhere at any time.
 */
import { useNavigate } from '@solidjs/router'
import { createMemo, createSignal, Index, onCleanup, onMount, Show } from 'solid-js'
import type { PlanFault } from '../../../../shared/plan/place'
import type { Plan } from '../../../../shared/plan/types'
import { SOMEBODY_WHO_LEADS } from '../../../../shared/shop/entitlement'
import { counted, upperFirst } from '../../../../shared/words'
import { useLive } from '../../../live/live'
import { countWords, planHref, readPlanFile } from '../../../shop/plan-library'
import { type ShopScope, useShopSend } from '../../../shop/scope'
import { Button } from '../../../ui/Button'
import { Sentence } from '../../../ui/Sentence'
import { saveFile } from '../../../ui/save-file'
import { createSubmission } from '../../../ui/submission'
import { withAsPrinted } from '../fault-place'
import { PartHead } from '../PartHead'
import { addStep } from './draft-plan'
import { Fold } from './Fold'
import { finishOf, placeInPlan, within } from './finish'
import { Head } from './Head'
import { Points } from './Points'
import { StepEdit } from './StepEdit'
import { type DraftShelf, draftShelf } from './shelf'
import './draft.css'

const REST_MS = 300

export default function DraftPage(props: { scope: ShopScope; id: string }) {
  const live = useLive()
  const navigate = useNavigate()
  const [plan, setPlan] = createSignal<Plan>()
  const [state, setState] = createSignal<'reading' | 'gone' | 'kept' | 'keeping' | 'not kept'>('reading')
  const [lasting, setLasting] = createSignal(true)
  const [open, setOpen] = createSignal<{ step?: number; joint?: number | undefined }>({})
  const [serverFaults, setServerFaults] = createSignal<{ of: Plan; faults: PlanFault[] }>()
  const [sure, setSure] = createSignal(false)
  let shelf: DraftShelf | undefined
  let waiting: ReturnType<typeof setTimeout> | undefined

  onMount(async () => {
    shelf = await draftShelf(live.session.me()?.shop.key ?? 'unknown')
    setLasting(shelf.lasting)
    const draft = await shelf.get(props.id)
    if (draft) setPlan(draft.plan)
    setState(draft ? 'kept' : 'gone')
  })
  const keep = async () => {
    clearTimeout(waiting)
    waiting = undefined
    const now = plan()
    if (!now || !shelf) return
    try {
      await shelf.put({ id: props.id, plan: now, changedAt: live.clock.now() })
      setState('kept')
    } catch {
      setState('not kept')
    }
  }
  const onPlan = (next: Plan) => {
    setPlan(next)
    setState('keeping')
    clearTimeout(waiting)
    waiting = setTimeout(() => void keep(), REST_MS)
  }
  const leave = () => waiting !== undefined && void keep()
  onMount(() => window.addEventListener('pagehide', leave))
  onCleanup(() => {
    window.removeEventListener('pagehide', leave)
    leave()
  })

  const finish = createMemo(() => {
    const now = plan()
    const own = now ? finishOf(now, props.scope.shop()) : { faults: [], cautions: [], open: [] }
    const server = serverFaults()
    // What the server found stands until something is changed.
    return server && server.of === now ? { ...own, faults: server.faults } : own
  })

  const goTo = (path: string) => {
    const { step, joint } = placeInPlan(path)
    setOpen(step === undefined ? {} : { step, joint })
    queueMicrotask(() => {
      const at = step === undefined ? '.draft-head' : `[data-step="${step}"]`
      const inIt = joint === undefined ? '' : ` [data-joint="${joint}"]`
      const place = document.querySelector<HTMLElement>(`${at}${inIt}`)
      place?.scrollIntoView({ block: 'start' })
      place?.querySelector<HTMLElement>('button, input, select')?.focus({ preventScroll: true })
    })
  }

  const send = useShopSend()
  const adding = createSubmission(async () => {
    const now = plan()
    if (!now || finish().faults.length > 0) return
    const reading = await readPlanFile(JSON.stringify(now))
    if ('faults' in reading) return void setServerFaults({ of: now, faults: reading.faults })
    const refusal = 'plan' in reading ? await send({ type: 'AddPlan', plan: now }) : reading.sentence
    if (refusal) return refusal
    clearTimeout(waiting)
    waiting = undefined
    await shelf?.drop(props.id)
    navigate(planHref(now))
  })

  function asFile(): void {
    const now = plan()
    if (!now) return
    saveFile(`${now.id || 'plan'}-${now.edition}.json`, now)
  }

  async function letGo(): Promise<void> {
    if (!sure()) return void setSure(true)
    clearTimeout(waiting)
    waiting = undefined
    await shelf?.drop(props.id)
    navigate('/shop/plans')
  }

  const stateWords = () =>
    ({
      reading: '',
      gone: '',
      kept: lasting() ? 'Kept on this device.' : 'This browser keeps nothing: export it as a file.',
      keeping: 'Keeping it…',
      'not kept': 'It could not be kept on this device: export it as a file.',
    })[state()]

  return (
    <section class="draft stack airy" aria-labelledby="draft-title">
      <Show
        when={plan()}
        fallback={
          <>
            <PartHead id="draft-title" title="A plan in draft" inLibrary />
            <p>
              {state() === 'gone'
                ? 'There is no such draft on this device. Drafts stay where they were made, until they are in the library.'
                : 'Reading the draft…'}
            </p>
          </>
        }
      >
        {(now) => (
          <>
            <PartHead
              id="draft-title"
              title={now().title || 'A plan in draft'}
              beside={`in draft, edition ${now().edition}`}
              inLibrary
            />
            <p>
              {countWords(now())}.{' '}
              <span class="pencil" role="status">
                {stateWords()}
              </span>
            </p>
            <p class="pencil">The maker’s information governs. Look at every value against the page.</p>
            <div class="draft-acts cluster">
              <Show
                when={props.scope.mayEdit()}
                fallback={<p>{upperFirst(SOMEBODY_WHO_LEADS)} adds it to the library.</p>}
              >
                <Button
                  variant="main"
                  aria-disabled={finish().faults.length > 0}
                  disabled={adding.busy()}
                  onClick={adding.submit}
                >
                  {adding.busy() ? 'Adding it…' : 'Add to library'}
                </Button>
              </Show>
              <Button onClick={asFile}>Export it as a file</Button>
              <Button variant="rust" onClick={() => void letGo()}>
                {sure() ? 'Yes, delete this draft' : 'Delete this draft'}
              </Button>
            </div>
            <Show when={adding.error()}>{(sentence) => <Sentence against>{sentence()}</Sentence>}</Show>
            <section class="stack roomy" aria-labelledby="check-title">
              <h3 id="check-title" aria-live="polite">
                {checkWords(finish())}
              </h3>
              <Points
                plan={now()}
                finish={finish()}
                goTo={goTo}
                onTaken={(path, page) => onPlan(withAsPrinted(now(), path, page))}
              />
            </section>
            <section class="draft-head stack roomy" aria-labelledby="head-title">
              <h3 id="head-title">The plan</h3>
              <Head plan={now()} onPlan={onPlan} />
            </section>
            <section class="stack roomy" aria-labelledby="steps-title">
              <h3 id="steps-title">
                Steps <span class="pencil">{now().steps.length}</span>
              </h3>
              <ol class="draft-steps">
                <Index each={now().steps}>
                  {(step, i) => {
                    const isOpen = () => open().step === i
                    const brief = () =>
                      [
                        counted(step().joints.length, 'joint'),
                        step().signatures === 2 ? 'two signatures' : 'one signature',
                        ...(step().needs.length > 0 ? [`after ${step().needs.join(', ')}`] : []),
                      ].join(', ')
                    return (
                      <li data-step={i}>
                        <Fold
                          id={step().id}
                          title={step().title}
                          brief={brief()}
                          faults={within(finish().faults, i).length}
                          open={isOpen()}
                          onToggle={() => setOpen(isOpen() ? {} : { step: i })}
                        >
                          <StepEdit
                            plan={now()}
                            at={i}
                            step={step()}
                            finish={finish()}
                            openJoint={open().joint}
                            onOpenJoint={(joint) => setOpen({ step: i, joint })}
                            onPlan={onPlan}
                          />
                        </Fold>
                      </li>
                    )
                  }}
                </Index>
              </ol>
              <Button
                onClick={() => {
                  onPlan(addStep(now()))
                  setOpen({ step: now().steps.length - 1 })
                }}
              >
                Add a step
              </Button>
            </section>
          </>
        )}
      </Show>
    </section>
  )
}

function checkWords({ faults, cautions, open }: ReturnType<typeof finishOf>): string {
  const parts = [
    faults.length > 0 ? `${faults.length} to put right before it can be added` : 'No fault found',
    cautions.length > 0 ? `${cautions.length} to look at` : '',
    open.length > 0 ? `${open.length} still open` : '',
  ]
  return `${parts.filter(Boolean).join('; ')}.`
}
