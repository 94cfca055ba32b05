/** A joint's passes: read at once from what the manual prints, or set one by one. */
import { createMemo, createSignal, For, Index, Match, Show, Switch } from 'solid-js'
import type { Joint, Pass } from '../../../../shared/plan/types'
import { passWords } from '../../../../shared/plan/words'
import { format } from '../../../format'
import { useShop } from '../../../live/live'
import { Button } from '../../../ui/Button'
import { Field } from '../../../ui/Field'
import { Select } from '../../../ui/Select'
import { NEW_PASS, withLimits } from './draft-plan'
import { judgedPass, printedPasses, type Said } from './judged'
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
  /** What a manual's text was read as, with the sentences that go into the joint's notes. */
  onPrinted(passes: Pass[], notes: readonly string[]): void
}

export function PassesEdit(props: PassesEditProps) {
  const { shop } = useShop()
  const passes = () => props.joint.passes
  const put = (index: number, pass: Pass) =>
    props.onChange(passes().map((other, i) => (i === index ? pass : other)))
  return (
    <fieldset class="draft-passes stack roomy">
      <legend>Passes</legend>
      <Printed joint={props.joint} onPasses={props.onPrinted} />
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
              <SaidOf said={judgedPass(props.joint, i, shop().tolerances)} />
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

function Printed(props: { joint: Joint; onPasses(passes: Pass[], notes: readonly string[]): void }) {
  const { shop } = useShop()
  const [text, setText] = createSignal('')
  const read = createMemo(() =>
    text().trim() ? printedPasses(props.joint, text(), shop().tolerances) : undefined,
  )
  const take = (passes: Pass[], notes: readonly string[]) => {
    props.onPasses(passes, notes)
    setText('')
  }
  return (
    <div class="draft-printed">
      <Field
        label="As the manual prints them"
        value={text()}
        hint={read()?.says ?? 'As in 30 N·m + 90°. It takes the place of the passes below.'}
        autocomplete="off"
        spellcheck={false}
        onValue={setText}
      />
      <Button
        disabled={!read()?.passes}
        onClick={() => {
          const { passes, notes = [] } = read() ?? {}
          if (passes) take(passes, notes)
        }}
      >
        Take these passes
      </Button>
      <SaidOf said={read()?.said} />
      <Show when={read()?.offers.length}>
        <div class="draft-said cluster roomy">
          <For each={read()?.offers}>
            {(offer) => <Button onClick={() => take(offer.passes, offer.notes)}>It says {offer.text}</Button>}
          </For>
        </div>
      </Show>
    </div>
  )
}

/** The judge's word, beside the number it speaks of. */
function SaidOf(props: { said: Said | undefined }) {
  return (
    <Show when={props.said}>
      {(said) => (
        <div
          class="draft-said mark stack close"
          classList={{ rust: said().against, 'points-fault': said().against }}
          role="status"
        >
          <For each={said().sentences}>{(sentence) => <p>{sentence}</p>}</For>
        </div>
      )}
    </Show>
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
