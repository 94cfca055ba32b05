/** The plan, stage by stage, and a row of its stages to jump by: each filled as far as it is done. */
import { createMemo, For, Show } from 'solid-js'
import { RELEASES } from '../../../shared/plan/kinds'
import { format } from '../../format'
import { useJob } from '../../job/scope'
import { progressOf, type StageView, stagesOf } from '../../job/step/step-view'
import { progressWords } from '../../job/step/step-words'
import { goTo } from '../../ui/bring-up'
import { createSame } from '../../ui/same'
import { Turn } from '../../ui/Turn'
import { StepRow } from './StepRow'

/** About as high as a step stands that is not drawn yet. */
const STEP_REM = 6

export function StageList(props: { moment: number }) {
  const scope = useJob()
  // Apart from the job, which is another after every entry: its plan is the same.
  const plan = createMemo(() => scope.planned().plan)
  const stages = createMemo(() => stagesOf(plan()))
  return (
    <>
      <nav class="stage-jump" aria-label="Stages">
        <For each={stages()}>{(stage) => <Jump stage={stage} moment={props.moment} />}</For>
      </nav>
      <For each={stages()}>
        {(stage) => (
          <Turn room={`${stage.steps.length * STEP_REM}rem`}>
            <section class="stage" aria-labelledby={`stage-${stage.id}`}>
              <StageHead stage={stage} moment={props.moment} />
              <ol class="steps">
                <For each={stage.steps}>{(step) => <StepRow step={step} moment={props.moment} />}</For>
              </ol>
            </section>
          </Turn>
        )}
      </For>
    </>
  )
}

function useProgress(props: { stage: StageView; moment: number }) {
  const scope = useJob()
  return createSame(() => progressOf(scope.planned(), props.stage.steps, props.moment))
}

function Jump(props: { stage: StageView; moment: number }) {
  const progress = useProgress(props)
  const share = () => `${(100 * progress().done) / progress().steps}%`
  return (
    <a
      href={`#stage-${props.stage.id}`}
      style={{ '--share': share() }}
      title={`${props.stage.title}: ${progressWords(progress())}`}
      onClick={(event) => goTo(event, `stage-${props.stage.id}`)}
    >
      <b>{props.stage.id}</b>
      <span class="jump-title">{props.stage.title}</span>
      <span class="jump-far">
        {progress().done}
        <span aria-hidden="true">/</span>
        <span class="unseen"> of </span>
        {progress().steps}
      </span>
    </a>
  )
}

function StageHead(props: { stage: StageView; moment: number }) {
  const progress = useProgress(props)
  return (
    <header class="stage-head cluster level ends">
      <h3 id={`stage-${props.stage.id}`} tabindex="-1">
        <span class="stage-letter">{props.stage.id}</span> {props.stage.title}
      </h3>
      <p>
        {progressWords(progress())}
        <Show when={progress().minutesLeft > 0}>
          <span class="pencil">, about {format.duration(progress().minutesLeft)} of work left</span>
        </Show>
        <Show when={props.stage.releases}>
          {(release) => <span class="pencil">. Ends in the {RELEASES[release()].word}.</span>}
        </Show>
      </p>
    </header>
  )
}
