/** A joint's passes: read at once from what the manual prints, or set one by one. */
import { createSignal, Index, Match, Show, Switch } from 'solid-js'
import { isRefusal } from '../../../../shared/log'
import type { Joint, Pass } from '../../../../shared/plan/types'
import { passWords } from '../../../../shared/plan/words'
import { sheetToPlan } from '../../../../shared/sheet'
import { readSpec, specSentenceFor } from '../../../../shared/spec'
import { format } from '../../../format'
import { Button } from '../../../ui/Button'
import { Field } from '../../../ui/Field'
import { Select } from '../../../ui/Select'
import { specWords } from '../sheet/sheet-words'
import { NEW_PASS, withLimits } from './draft-plan'
import { NumberField } from './NumberField'

const KINDS: { value: Pass['kind']; title: string }[] = [
  { value: 'torque', title: 'torque' },
  { value: 'angle', title: 'angle' },
  { value: 'slacken', title: 'slacken' },
  { value: 'wait', title: 'wait' },
]

interface PassesEditProps {
  joint: Joint
  onChange(passes: Pass[]): void
}

export function PassesEdit(props: PassesEditProps) {
  const passes = () => props.joint.passes
  const put = (index: number, pass: Pass) =>
    props.onChange(passes().map((other, i) => (i === index ? pass : other)))
  return (
    <fieldset class="draft-passes stack roomy">
      <legend>Passes</legend>
      <Printed onPasses={(read) => props.onChange(read)} />
      <ol class="stack roomy">
        <Index each={passes()}>
          {(pass, i) => (
            <li class="draft-pass">
              <Select
                label={`Pass ${i + 1}`}
                value={pass().kind}
                options={KINDS}
                onValue={(kind) => put(i, NEW_PASS[kind as Pass['kind']])}
              />
              <PassFields pass={pass()} onChange={(changed) => put(i, changed)} />
              <Button
                variant="quiet"
                aria-label={`Take pass ${i + 1} out`}
                onClick={() => props.onChange(passes().filter((_, at) => at !== i))}
              >
                Take out
              </Button>
            </li>
          )}
        </Index>
      </ol>
      <div class="card-acts cluster">
        <Button onClick={() => props.onChange([...passes(), NEW_PASS.torque])}>Add a torque</Button>
        <Button onClick={() => props.onChange([...passes(), NEW_PASS.angle])}>Add an angle</Button>
        <Button onClick={() => props.onChange([...passes(), NEW_PASS.slacken])}>Add a slackening</Button>
      </div>
    </fieldset>
  )
}

/** As a torque sheet of one line is: the same reading, the same care. */
function passesFrom(text: string): Pass[] | undefined {
  const spec = readSpec(text)
  if (isRefusal(spec) || spec.contradiction) return undefined
  const { plan } = sheetToPlan([{ kind: 'item', line: 1, text, item: 'x', printed: text, spec }], {
    id: 'x',
    title: 'x',
    family: 'x',
    source: 'x',
  })
  return plan.steps[0]?.joints[0]?.passes
}

function Printed(props: { onPasses(passes: Pass[]): void }) {
  const [text, setText] = createSignal('')
  const says = () => {
    if (!text().trim()) return 'As in 30 N·m + 90°. It takes the place of the passes below.'
    const spec = readSpec(text())
    if (isRefusal(spec)) return specSentenceFor(spec) ?? spec.refused
    if (spec.contradiction)
      return `${spec.contradiction.first.text} and ${spec.contradiction.second.text} are not the same torque. Enter the one that is right.`
    return `Read as ${specWords(spec)}.`
  }
  const passes = () => passesFrom(text())
  return (
    <div class="draft-printed">
      <Field
        label="As the manual prints them"
        value={text()}
        hint={says()}
        autocomplete="off"
        spellcheck={false}
        onValue={setText}
      />
      <Button
        disabled={!passes()}
        onClick={() => {
          const read = passes()
          if (!read) return
          props.onPasses(read)
          setText('')
        }}
      >
        Take these passes
      </Button>
    </div>
  )
}

function PassFields(props: { pass: Pass; onChange(pass: Pass): void }) {
  const torque = () => (props.pass.kind === 'torque' ? props.pass : undefined)
  const angle = () => (props.pass.kind === 'angle' ? props.pass : undefined)
  const slacken = () => (props.pass.kind === 'slacken' ? props.pass : undefined)
  const wait = () => (props.pass.kind === 'wait' ? props.pass : undefined)
  return (
    <Switch>
      <Match when={torque()}>
        {(pass) => (
          <>
            <NumberField
              label="N·m"
              value={pass().torqueNm ?? undefined}
              emptyIs="no published torque"
              onValue={(value) => {
                const { limits, ...bare } = pass()
                props.onChange(
                  value === undefined ? { ...bare, torqueNm: null } : { ...pass(), torqueNm: value },
                )
              }}
            />
            <Show when={pass().torqueNm !== null}>
              <Limits
                unit="N·m"
                min={pass().limits?.minNm}
                max={pass().limits?.maxNm}
                onValue={(min, max) => props.onChange(withLimits(pass(), min, max))}
              />
            </Show>
          </>
        )}
      </Match>
      <Match when={angle()}>
        {(pass) => (
          <>
            <NumberField
              label="Degrees"
              value={pass().angleDeg}
              onValue={(angleDeg) => props.onChange({ ...pass(), angleDeg })}
            />
            <Limits
              unit="°"
              min={pass().limits?.minDeg}
              max={pass().limits?.maxDeg}
              onValue={(min, max) => props.onChange(withLimits(pass(), min, max))}
            />
          </>
        )}
      </Match>
      <Match when={slacken()}>
        {(pass) => (
          <NumberField
            label="Degrees back"
            value={pass().angleDeg}
            emptyIs={passWords({ kind: 'slacken' }, format)}
            onValue={(angleDeg: number | undefined) =>
              props.onChange(angleDeg === undefined ? { kind: 'slacken' } : { kind: 'slacken', angleDeg })
            }
          />
        )}
      </Match>
      <Match when={wait()}>
        {(pass) => (
          <NumberField
            label="Minutes"
            value={pass().minutes}
            onValue={(minutes) => props.onChange({ ...pass(), minutes })}
          />
        )}
      </Match>
    </Switch>
  )
}

interface LimitsProps {
  unit: string
  min: number | undefined
  max: number | undefined
  onValue(min: number | undefined, max: number | undefined): void
}

/** Both or none: one alone is kept here until the other is typed. */
function Limits(props: LimitsProps) {
  const [low, setLow] = createSignal(props.min)
  const [high, setHigh] = createSignal(props.max)
  const min = () => props.min ?? low()
  const max = () => props.max ?? high()
  return (
    <>
      <NumberField
        label={`Lowest ${props.unit}`}
        value={min()}
        emptyIs="the shop’s own"
        onValue={(value) => {
          setLow(value)
          setHigh(max())
          props.onValue(value, high())
        }}
      />
      <NumberField
        label={`Highest ${props.unit}`}
        value={max()}
        emptyIs="the shop’s own"
        onValue={(value) => {
          setLow(min())
          setHigh(value)
          props.onValue(low(), value)
        }}
      />
    </>
  )
}
