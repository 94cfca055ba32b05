/** Faults, cautions and open points: of the whole plan with a way to each, or of one step or joint at its place. */
import { createMemo, For, Show } from 'solid-js'
import type { PlanFault } from '../../../../shared/plan/place'
import type { AsPrinted, Plan } from '../../../../shared/plan/types'
import { cautionFix, placeWords } from '../../../shop/plan-place'
import { Button } from '../../../ui/Button'
import { TakeAsPrinted } from '../TakeAsPrinted'
import { type Finish, placeInPlan } from './finish'

interface PointsProps {
  plan: Plan
  finish: Finish
  /** Step, or step and joint; without it the whole plan. */
  within?: readonly [step: number, joint?: number]
  goTo?: (path: string) => void
  onTaken?: (path: string, page: Omit<AsPrinted, 'torqueNm'>) => void
}

/** A sheet of thousands of lines has thousands of open points. */
const MOST_SHOWN = 30

export function Points(props: PointsProps) {
  const here = (points: readonly PlanFault[]) =>
    points.filter(({ path }) => {
      if (!props.within) return true
      const [step, joint] = props.within
      const place = placeInPlan(path)
      return place.step === step && place.joint === joint
    })
  const kinds = createMemo(() => [
    { look: 'fault', title: 'To put right', points: here(props.finish.faults) },
    { look: 'caution', title: 'To look at', points: here(props.finish.cautions) },
    { look: 'open', title: 'Still open', points: here(props.finish.open) },
  ])
  return (
    <For each={kinds().filter(({ points }) => points.length > 0)}>
      {({ look, title, points }) => (
        <div
          class="draft-points mark stack close"
          classList={{ rust: look !== 'open', 'points-fault': look === 'fault' }}
        >
          <p class="strong">
            {title} <span class="pencil">{points.length}</span>
          </p>
          <ul>
            <For each={points.slice(0, MOST_SHOWN)}>
              {(point) => (
                <li>
                  <span>
                    <Show when={!props.within}>
                      <span class="pencil">{placeWords(props.plan, point.path)}: </span>
                    </Show>
                    <b>{point.problem}.</b> {look === 'caution' ? cautionFix(point.fix) : point.fix}
                  </span>
                  <Show when={props.goTo}>
                    {(goTo) => (
                      <Button
                        variant="quiet"
                        aria-label={`Go to ${placeWords(props.plan, point.path)}: ${point.problem}`}
                        onClick={() => goTo()(point.path)}
                      >
                        Go to it
                      </Button>
                    )}
                  </Show>
                  <Show when={point.asPrinted && props.onTaken}>
                    {(onTaken) => <TakeAsPrinted onTaken={(page) => onTaken()(point.path, page)} />}
                  </Show>
                </li>
              )}
            </For>
          </ul>
          <Show when={points.length > MOST_SHOWN}>
            <p class="pencil">And {points.length - MOST_SHOWN} more; each stands at its place below.</p>
          </Show>
        </div>
      )}
    </For>
  )
}
