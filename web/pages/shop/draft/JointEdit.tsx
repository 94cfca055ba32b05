/** One joint of a draft: what is held in the hand, how it is tightened, where its fasteners sit. */

import { createMemo, For, Show } from 'solid-js'
import { fastenerSentence, LUBRICATION_EXAMPLES } from '../../../../shared/fastener'
import { CLASSES, JOINT_CLASSES } from '../../../../shared/plan/kinds'
import type { Interruption, Joint, Plan } from '../../../../shared/plan/types'
import { threadRead } from '../../../../shared/sheet'
import { BoltMap } from '../../../drawings/BoltMap'
import { format } from '../../../format'
import { Button } from '../../../ui/Button'
import { Field } from '../../../ui/Field'
import { Select } from '../../../ui/Select'
import { mapLabel, plannedHeads } from '../plan-look'
import { changeJoint, type Pattern, patternOf, placeAnew, removeJoint } from './draft-plan'
import type { Finish } from './finish'
import { NumberField } from './NumberField'
import { PassesEdit } from './PassesEdit'
import { Points } from './Points'

const CLASS_OPTIONS = JOINT_CLASSES.map((value) => ({ value, title: `${value}: ${CLASSES[value]}` }))
const FASTENERS = ['bolt', 'nut', 'stud', 'plug', 'union', 'sender', 'injector'].map((value) => ({
  value,
  title: value,
}))
const USES = [
  { value: 'reusable', title: 'may be used again' },
  { value: 'one_use', title: 'one use only' },
  { value: 'cycles', title: 'so many tightenings' },
]
const TORQUE_ONLY = [
  { value: 'restart_pass', title: 'start the pass again' },
  { value: 'slacken_restart_joint', title: 'slacken, and start the joint again' },
]
const AFTER_ANGLE = [
  { value: '', title: 'not said' },
  { value: 'new_fasteners', title: 'new fasteners' },
  { value: 'slacken_restart_joint', title: 'slacken, and start the joint again' },
]
const PATTERN_WORDS: Record<Pattern, string> = {
  row: 'in a row',
  rows: 'in two rows',
  circle: 'on a circle',
}
const MAP_HEIGHT = 220

interface JointEditProps {
  plan: Plan
  step: number
  at: number
  joint: Joint
  finish: Finish
  onPlan(plan: Plan): void
}

export function JointEdit(props: JointEditProps) {
  const put = (patch: Parameters<typeof changeJoint>[3]) =>
    props.onPlan(changeJoint(props.plan, props.step, props.at, patch))
  const joint = () => props.joint
  const pattern = createMemo(() => patternOf(joint().positions))
  const threadWords = () => {
    const read = threadRead(joint().thread)
    if (!('designation' in read)) return fastenerSentence(read.refusal, format)
    const long = read.lengthMm === undefined ? '' : `, ${format.number(read.lengthMm, 2)} mm long`
    return `Understood as ${read.designation}${long}.`
  }
  const rule = (patch: { [K in keyof Interruption]?: Interruption[K] | undefined }) => {
    const { afterAngle, ...rest } = { ...joint().interruption, ...patch }
    put({ interruption: { ...rest, ...(afterAngle ? { afterAngle } : {}) } as Interruption })
  }
  return (
    <div class="joint-edit stack airy">
      <Points plan={props.plan} finish={props.finish} within={[props.step, props.at]} />
      <div class="draft-fields">
        <Field
          label="Title of the joint"
          value={joint().title}
          maxLength={120}
          onValue={(title) => put({ title })}
        />
        <Select
          label="Fastener"
          value={joint().fastener}
          options={FASTENERS}
          onValue={(fastener) => put({ fastener: fastener as Joint['fastener'] })}
        />
        <Field
          label="Thread"
          value={joint().thread}
          hint={threadWords()}
          maxLength={40}
          onValue={(thread) => put({ thread })}
        />
        <Field
          label="Grade or material"
          value={joint().grade}
          hint="As in 10.9, A4-70, bronze."
          maxLength={60}
          onValue={(grade) => put({ grade })}
        />
        <NumberField
          label="Length in mm"
          value={joint().lengthMm}
          emptyIs="not given"
          onValue={(lengthMm) => put({ lengthMm })}
        />
        <Field
          label="Lubrication"
          value={joint().lubrication}
          hint={`As in ${LUBRICATION_EXAMPLES.join(', ')}.`}
          maxLength={80}
          onValue={(lubrication) => put({ lubrication })}
        />
        <Select
          label="Class"
          value={joint().class}
          options={CLASS_OPTIONS}
          onValue={(id) => put({ class: JOINT_CLASSES.find((known) => known === id) ?? joint().class })}
        />
        <Select
          label="Use"
          value={joint().use.kind}
          options={USES}
          onValue={(kind) =>
            put({
              use: kind === 'cycles' ? { kind, limit: 2 } : { kind: kind as 'reusable' | 'one_use' },
            })
          }
        />
        <Show when={joint().use.kind === 'cycles'}>
          <NumberField
            label="Tightenings, trial fits too"
            whole
            value={(joint().use as { limit?: number }).limit}
            onValue={(limit) => put({ use: { kind: 'cycles', limit } })}
          />
        </Show>
      </div>
      <PassesEdit
        joint={joint()}
        onChange={(passes) => put({ passes })}
        onPrinted={(passes, notes) =>
          put({
            passes,
            ...(notes.length > 0 ? { notes: [...new Set([...(joint().notes ?? []), ...notes])] } : {}),
          })
        }
      />
      <div class="draft-fields">
        <Select
          label="Interrupted, torques only so far"
          value={joint().interruption.torqueOnly}
          options={TORQUE_ONLY}
          onValue={(value) => rule({ torqueOnly: value as Interruption['torqueOnly'] })}
        />
        <Select
          label="Interrupted once an angle is turned"
          value={joint().interruption.afterAngle ?? ''}
          options={AFTER_ANGLE}
          onValue={(value) =>
            rule({ afterAngle: (value || undefined) as Interruption['afterAngle'] | undefined })
          }
        />
      </div>
      <div class="draft-places">
        <div class="draft-fields">
          <NumberField
            label="How many"
            whole
            value={joint().positions.length}
            onValue={(count) =>
              count >= 1 &&
              count <= 200 &&
              props.onPlan(placeAnew(props.plan, props.step, props.at, count, pattern() ?? 'row'))
            }
          />
          <Select
            label="They sit"
            value={pattern() ?? 'own'}
            options={[
              ...(pattern() ? [] : [{ value: 'own', title: 'as the plan file places them' }]),
              ...Object.entries(PATTERN_WORDS).map(([value, title]) => ({ value, title })),
            ]}
            onValue={(value) =>
              value !== 'own' &&
              props.onPlan(
                placeAnew(props.plan, props.step, props.at, joint().positions.length, value as Pattern),
              )
            }
          />
        </div>
        <BoltMap
          positions={joint().positions}
          outline={joint().outline}
          heads={plannedHeads(joint())}
          label={mapLabel(joint())}
          height={MAP_HEIGHT}
          fit
        />
      </div>
      <Show when={(joint().notes ?? []).length > 0}>
        <section>
          <h5>What stands beside it</h5>
          <ul class="dashed stack close">
            <For each={joint().notes}>{(note) => <li>{note}</li>}</For>
          </ul>
        </section>
      </Show>
      <Button variant="rust" onClick={() => props.onPlan(removeJoint(props.plan, props.step, props.at))}>
        Take this joint out of the plan
      </Button>
    </div>
  )
}
