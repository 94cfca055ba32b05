/** Beside the work: what not to do yet, cautions, stop here, and what the step needs on the bench. */
import { createMemo, For, Show } from 'solid-js'
import { sealantWords } from '../../../shared/plan/words'
import { format } from '../../format'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { useBench } from './bench'
import { interruptionWords, markerWords, notYet, stopWords } from './cautions'
import { useStopped } from './HandoverWords'
import './beside.css'
import './stop.css'

export function NotYetWords() {
  const bench = useBench()
  const scope = useJob()
  // Where it was left, the note beside it says the same.
  const stopped = useStopped()
  const items = createMemo(() => (stopped() ? [] : notYet(scope.planned(), bench.step())))
  return (
    <For each={items()}>
      {(item) => (
        <p class="mark rust">
          <strong>
            Not yet: {item.stepId} {item.title}.
          </strong>{' '}
          {item.why}
        </p>
      )}
    </For>
  )
}

export function Cautions() {
  const bench = useBench()
  return (
    <Show when={bench.step().cautions?.length}>
      <ul class="cautions stack" aria-label="Cautions">
        <For each={bench.step().cautions}>{(caution) => <li>{caution}</li>}</For>
      </ul>
    </Show>
  )
}

/** One touch; what it means stands beside it in `StopWords`, before it is pressed. */
export function StopHere() {
  const bench = useBench()
  const scope = useJob()
  return (
    <div class="stop-here">
      <Button
        wide
        class="tall"
        onClick={() => void scope.send({ type: 'PutDownStep', stepId: bench.step().id })}
      >
        Leave step
      </Button>
      <Button class="tall" onClick={() => bench.open({ dialog: 'leave' })}>
        Note, hand over…
      </Button>
    </div>
  )
}

export function StopWords() {
  const bench = useBench()
  const scope = useJob()
  const markers = createMemo(() => markerWords(scope.planned(), bench.step()))
  return (
    <section>
      <h2>If you stop here</h2>
      <For each={stopWords(scope.planned(), bench.step(), bench.joint(), bench.pass())}>
        {(words) => <p>{words}</p>}
      </For>
      <For each={markers()}>{(words) => <p class="mark pencil">{words}</p>}</For>
    </section>
  )
}

export function OnTheBench() {
  const bench = useBench()
  const scope = useJob()
  const step = () => bench.step()
  return (
    <div class="stack airy">
      <Show when={step().sealant}>
        {(sealant) => (
          <section>
            <h2>Sealant</h2>
            <p>{sealantWords(sealant(), format)}</p>
          </section>
        )}
      </Show>
      <Show when={step().parts.length > 0}>
        <section>
          <h2>Parts for this step</h2>
          <ul>
            <For each={step().parts}>
              {(part) => (
                <li>
                  {part.quantity} × {part.name}
                  {part.oneUse ? ', one-use: new' : ''}
                </li>
              )}
            </For>
          </ul>
        </section>
      </Show>
      <Show when={(step().notes?.length ?? 0) + (bench.joint()?.notes?.length ?? 0) > 0}>
        <section>
          <h2>Notes</h2>
          <For each={[...(step().notes ?? []), ...(bench.joint()?.notes ?? [])]}>
            {(note) => <p>{note}</p>}
          </For>
        </section>
      </Show>
      <Show when={!bench.mine() && bench.joint()}>
        {(joint) => (
          <section>
            <h2>If you are interrupted</h2>
            <p>{interruptionWords(scope.planned(), joint(), bench.pass())}</p>
          </section>
        )}
      </Show>
      <p class="small pencil">
        {scope.planned().plan.title}, edition {scope.planned().plan.edition}.
        {scope.planned().plan.invented ? ' Values are invented: never use them on a real engine.' : ''} The
        maker’s current information governs.
      </p>
    </div>
  )
}
