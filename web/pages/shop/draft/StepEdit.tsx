/** One step of a draft, opened: its title, what it needs and hides, its signatures and time, and its joints. */
import { createMemo, For, Index, Show } from 'solid-js'
import type { Plan, PlanStep, StepKind } from '../../../../shared/plan/types'
import { passesWords } from '../../../../shared/plan/words'
import { format } from '../../../format'
import { fastenerWords } from '../../../job/step/step-words'
import { Button } from '../../../ui/Button'
import { Field } from '../../../ui/Field'
import { Select } from '../../../ui/Select'
import { addJoint, changeStep, moveStep, removeStep } from './draft-plan'
import { Fold } from './Fold'
import { type Finish, within } from './finish'
import { JointEdit } from './JointEdit'
import { NumberField } from './NumberField'
import { Points } from './Points'

const KINDS: { value: StepKind; title: string }[] = [
  { value: 'prepare', title: 'prepare' },
  { value: 'measure', title: 'measure' },
  { value: 'fit', title: 'fit' },
  { value: 'tighten', title: 'tighten' },
  { value: 'check', title: 'check' },
  { value: 'run', title: 'run' },
]
const SIGNATURES = [
  { value: '1', title: 'one' },
  { value: '2', title: 'two: the doer and another' },
]

interface StepEditProps {
  plan: Plan
  at: number
  step: PlanStep
  finish: Finish
  openJoint: number | undefined
  onOpenJoint(joint: number | undefined): void
  onPlan(plan: Plan): void
}

export function StepEdit(props: StepEditProps) {
  const step = () => props.step
  const put = (patch: Partial<PlanStep>) => props.onPlan(changeStep(props.plan, props.at, patch))
  const minutes = (patch: Partial<PlanStep['minutes']>) => put({ minutes: { ...step().minutes, ...patch } })
  return (
    <div class="step-edit stack airy">
      <Points plan={props.plan} finish={props.finish} within={[props.at]} />
      <div class="draft-fields">
        <Field
          label="Title of the step"
          value={step().title}
          maxLength={160}
          onValue={(title) => put({ title })}
        />
        <Select
          label="Kind"
          value={step().kind}
          options={KINDS}
          onValue={(kind) => put({ kind: kind as StepKind })}
        />
        <Select
          label="Stage"
          value={step().stage}
          options={props.plan.stages.map(({ id, title }) => ({ value: id, title: `${id} ${title}` }))}
          onValue={(stage) => put({ stage })}
        />
        <Select
          label="Signatures"
          value={`${step().signatures}`}
          options={SIGNATURES}
          onValue={(value) => put({ signatures: value === '2' ? 2 : 1 })}
        />
        <NumberField
          label="Minutes, at least"
          value={step().minutes.low}
          onValue={(low) => minutes({ low })}
        />
        <NumberField
          label="Minutes, likely"
          value={step().minutes.likely}
          onValue={(likely) => minutes({ likely })}
        />
        <NumberField
          label="Minutes, at most"
          value={step().minutes.high}
          onValue={(high) => minutes({ high })}
        />
      </div>
      <Picks
        title="Comes after: signed before it begins"
        empty="There is no other step."
        all={props.plan.steps.flatMap((other, i) =>
          i === props.at ? [] : [{ id: other.id, title: `${other.id} ${other.title}` }],
        )}
        chosen={step().needs}
        onChange={(needs) => put({ needs })}
      />
      <Picks
        title="Covers, once it is begun"
        empty="There is no joint of another step."
        all={props.plan.steps.flatMap((other, i) =>
          i === props.at ? [] : other.joints.map(({ id, title }) => ({ id, title: `${id} ${title}` })),
        )}
        chosen={step().hides.map(({ joint }) => joint)}
        onChange={(joints) =>
          put({
            hides: joints.map((joint) => step().hides.find((hidden) => hidden.joint === joint) ?? { joint }),
          })
        }
      />
      <h4>
        Joints <span class="pencil">{step().joints.length}</span>
      </h4>
      <ul class="draft-joints">
        <Index each={step().joints}>
          {(joint, k) => {
            const open = () => props.openJoint === k
            return (
              <li data-joint={k}>
                <Fold
                  id={joint().id}
                  title={joint().title}
                  beside={`class ${joint().class}`}
                  brief={`${passesWords(joint().passes, format)}; ${fastenerWords(joint())}`}
                  faults={within(props.finish.faults, props.at, k).length}
                  open={open()}
                  onToggle={() => props.onOpenJoint(open() ? undefined : k)}
                >
                  <JointEdit
                    plan={props.plan}
                    step={props.at}
                    at={k}
                    joint={joint()}
                    finish={props.finish}
                    onPlan={props.onPlan}
                  />
                </Fold>
              </li>
            )
          }}
        </Index>
      </ul>
      <div class="card-acts cluster">
        <Button
          onClick={() => {
            props.onPlan(addJoint(props.plan, props.at))
            props.onOpenJoint(step().joints.length - 1)
          }}
        >
          Add a joint
        </Button>
        <Button disabled={props.at === 0} onClick={() => props.onPlan(moveStep(props.plan, props.at, -1))}>
          Move the step up
        </Button>
        <Button
          disabled={props.at === props.plan.steps.length - 1}
          onClick={() => props.onPlan(moveStep(props.plan, props.at, 1))}
        >
          Move it down
        </Button>
        <Button variant="rust" onClick={() => props.onPlan(removeStep(props.plan, props.at))}>
          Take this step out
        </Button>
      </div>
    </div>
  )
}

interface PicksProps {
  title: string
  empty: string
  all: readonly { id: string; title: string }[]
  chosen: readonly string[]
  onChange(chosen: string[]): void
}

/** Any of many: those chosen stand as presses that take them out, one more is chosen from a list. */
function Picks(props: PicksProps) {
  // The same names again draw nothing anew: a long plan has thousands of joints to choose from.
  const all = createMemo(() => props.all, undefined, { equals: sameNames })
  const title = (id: string) => all().find((pick) => pick.id === id)?.title ?? id
  const options = createMemo(() => [
    { value: '', title: 'choose' },
    ...all()
      .filter(({ id }) => !props.chosen.includes(id))
      .map((pick) => ({ value: pick.id, title: pick.title })),
  ])
  return (
    <fieldset class="draft-picks stack roomy">
      <legend>{props.title}</legend>
      <Show when={all().length > 0} fallback={<p class="pencil">{props.empty}</p>}>
        <div class="picks-row">
          <For each={props.chosen}>
            {(id) => (
              <Button
                aria-label={`Take out: ${title(id)}`}
                onClick={() => props.onChange(props.chosen.filter((other) => other !== id))}
              >
                {title(id)} <span aria-hidden="true">×</span>
              </Button>
            )}
          </For>
          <Select
            label={props.chosen.length > 0 ? 'One more' : 'None yet; add one'}
            value=""
            options={options()}
            onValue={(id) => id && props.onChange([...props.chosen, id])}
          />
        </div>
      </Show>
    </fieldset>
  )
}

const sameNames = (a: PicksProps['all'], b: PicksProps['all']): boolean =>
  a.length === b.length && a.every((pick, i) => pick.id === b[i]?.id && pick.title === b[i]?.title)
