/** What can be done next, before the whole plan: in work, needing a second signature, ready. Each leads to its step. */
import { For, Show } from 'solid-js'
import { isDone, standingOf, stepState, waitsForCure } from '../../../shared/job/verdicts'
import type { AdoptedStep } from '../../../shared/plan/types'
import { format } from '../../format'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { goTo } from '../../ui/bring-up'
import { createSame } from '../../ui/same'

interface Led {
  step: AdoptedStep
  until?: number
}

export function WhereToGo(props: { moment: number }) {
  const scope = useJob()
  const groups = createSame(() => {
    const job = scope.planned()
    const now = props.moment
    const standings = job.plan.steps.map((step) => ({ step, standing: standingOf(job, step, now) }))
    const by = (asked: string) =>
      standings.flatMap(({ step, standing }): Led[] => (standing === asked ? [{ step }] : []))
    const curing = job.plan.steps.flatMap((step): Led[] => {
      const until = waitsForCure(job, step, now)
      return until === undefined ? [] : [{ step, until }]
    })
    return [
      { title: 'In work', steps: by('in_work') },
      { title: 'Stopped', steps: by('stopped') },
      { title: 'Needs a second signature', steps: by('awaiting_second') },
      { title: 'Ready', steps: by('ready') },
      { title: 'Waits for a cure', steps: curing },
      { title: 'On hold', steps: by('on_hold') },
    ].filter(({ steps }) => steps.length > 0)
  })
  const allDone = () => scope.planned().plan.steps.every((step) => isDone(scope.planned(), step))
  return (
    <div class="where-to-go">
      <For
        each={groups()}
        fallback={
          <p class="pencil">
            {allDone()
              ? 'Every step is done.'
              : 'Nothing is in work and nothing is ready. The plan below says what each step needs.'}
          </p>
        }
      >
        {(group) => (
          <section>
            <h2>{group.title}</h2>
            <ul>
              <For each={group.steps}>{({ step, until }) => <Leads step={step} until={until} />}</For>
            </ul>
          </section>
        )}
      </For>
    </div>
  )
}

function Leads(props: { step: AdoptedStep; until: number | undefined }) {
  const scope = useJob()
  const claim = () => stepState(scope.planned(), props.step.id).claim
  return (
    <li>
      <a href={`#step-${props.step.id}`} onClick={(event) => goTo(event, `step-${props.step.id}`)}>
        <b>{props.step.id}</b> <span>{props.step.title}</span>
      </a>
      <Show
        when={claim()}
        fallback={
          <span class="pencil small">
            {props.until === undefined
              ? format.duration(props.step.minutes.likely)
              : `until ${scope.words.moment(props.until)}`}
          </span>
        }
      >
        {(held) => <Stripe person={held().by} />}
      </Show>
    </li>
  )
}
