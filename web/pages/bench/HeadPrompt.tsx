/**
 * A head that one tap cannot record: it is not its turn, the wait is not over, or it needs a number. The usual
 * answer is the biggest press; a pad serves for any other.
 */
import { createEffect, createSignal, For, Match, on, Show, Switch } from 'solid-js'
import { impossibleAt } from '../../../shared/plan/fasteners'
import { numberWords } from '../../../shared/plan/order'
import { bandWords } from '../../../shared/plan/words'
import { toNm } from '../../../shared/units'
import { upperFirst } from '../../../shared/words'
import { inRange } from '../../../shared/wrench'
import { format } from '../../format'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { padText } from '../../ui/pad-text'
import { useBench } from './bench'
import { CuringWords } from './HoleCures'
import { createNumber, NumberEntry } from './NumberEntry'
import { targetOf } from './phase'
import { breaksSentences, indicatedSlip, outOfReachWords, slipSentences } from './wrench'

export function HeadPrompt(props: { position: number; onClose(): void }) {
  const bench = useBench()
  const scope = useJob()
  const head = useHeadName()
  // Somebody else's entry may have come between: nothing is asked any more.
  createEffect(() => bench.recording() ?? props.onClose())
  const next = () => bench.recording()?.head ?? props.position
  const outOfTurn = () => bench.inTurn() && next() !== props.position
  return (
    <Dialog open title={`${bench.joint()?.title ?? ''}: ${head(props.position)}`} onClose={props.onClose}>
      <Show when={outOfTurn()}>
        <p class="sentence against">
          That is number {head(props.position)}; number {head(next())} comes next. What you record now is
          flagged as out of order.
        </p>
        <Button variant="main" wide onClick={props.onClose}>
          Go back: {head(next())} is next
        </Button>
      </Show>
      <Show when={bench.recording()?.early}>
        {(until) => (
          <p class="sentence against">
            The wait is over at {scope.words.moment(until())}. What you record before is flagged as too early.
          </p>
        )}
      </Show>
      <CuringWords head={props.position} />
      <Answer head={props.position} onDone={props.onClose} plain={outOfTurn()} />
    </Dialog>
  )
}

interface AnswerProps {
  head: number
  onDone?(): void
  /** Something else is the first thing to press. */
  plain?: boolean
  /** Only the usual answer. */
  brief?: boolean
}

/** The number a head needs, or the one press. Also stands in the action column for the next head. */
export function Answer(props: AnswerProps) {
  const bench = useBench()
  const head = useHeadName()
  const how = () => bench.recording()?.how
  const scale = () => bench.recording()?.scale
  const record = (more: { value?: number; readsSo?: boolean } = {}) => {
    const act = how()
    if (!act) return
    bench.record(props.head, act, more)
    props.onDone?.()
  }
  return (
    <Switch>
      <Match when={how() === 'turned'}>
        <Turned {...props} onRecord={record} />
      </Match>
      <Match when={how() === 'indicated'}>
        <Indicated head={props.head} onRecord={record} />
      </Match>
      <Match when={how()}>
        <Button variant={props.plain ? undefined : 'main'} wide class="tall" onClick={() => record()}>
          {upperFirst(head(props.head))}:{' '}
          {how() === 'clicked'
            ? `clicked at ${format.number(scale()?.value ?? 0)} ${scale()?.unit}`
            : 'slackened'}
        </Button>
      </Match>
    </Switch>
  )
}

/** `bolt 3`, `nut 5 (2nd in order)`. */
function useHeadName(): (n: number) => string {
  const bench = useBench()
  return (n) => {
    const joint = bench.joint()
    return joint ? `${joint.fastener} ${numberWords(joint, n)}` : `head ${n}`
  }
}

interface NumberProps {
  head: number
  onRecord(reading: { value: number; readsSo?: boolean }): void
}

/** A number for one head: typed anew for the next head and the next pass. */
function createHeadNumber(props: NumberProps) {
  const bench = useBench()
  const number = createNumber()
  createEffect(on([() => props.head, bench.pass], number.clear))
  return number
}

function Turned(props: AnswerProps & NumberProps) {
  const bench = useBench()
  const head = useHeadName()
  const number = createHeadNumber(props)
  const [other, setOther] = createSignal(false)
  const degrees = () => {
    const sheet = bench.sheet()
    return sheet?.kind === 'angle' ? sheet.angleDeg : 0
  }
  const enter = () => {
    props.onRecord({ value: number.value() })
    number.clear()
    setOther(false)
  }
  return (
    <div class="entry">
      <Button
        variant={props.plain ? undefined : 'main'}
        wide
        class="tall"
        onClick={() => props.onRecord({ value: degrees() })}
      >
        {upperFirst(head(props.head))}: turned +{format.number(degrees())}°
      </Button>
      <Show when={!props.brief}>
        <Show
          when={other()}
          fallback={
            <Button wide onClick={() => setOther(true)}>
              Another angle
            </Button>
          }
        >
          <NumberEntry number={number} unit="°" decimal maxLength={5} label="Degrees turned" />
          <Button wide disabled={number.isEmpty()} onClick={enter}>
            {number.isEmpty() ? 'Enter the degrees' : `Turned ${padText(number.text())}°`}
          </Button>
        </Show>
      </Show>
    </div>
  )
}

function Indicated(props: NumberProps) {
  const bench = useBench()
  const scope = useJob()
  const head = useHeadName()
  const number = createHeadNumber(props)
  const shown = () => `${format.number(number.value())} ${bench.wrench()?.unit}`
  const slip = () => {
    const wrench = bench.wrench()
    return wrench && !number.isEmpty()
      ? indicatedSlip(scope.shop(), wrench, number.value(), bench.band())
      : undefined
  }
  /** What has to be answered before the number is taken; nothing where it may well be so. */
  const doubts = (): string[] => {
    const wrench = bench.wrench()
    const joint = bench.joint()
    if (!wrench || !joint || number.isEmpty() || wrench.unit === 'deg') return []
    const nm = toNm(number.value(), wrench.unit)
    const breaks = impossibleAt(joint, bench.pass(), nm, bench.band())
    const found = slip()
    return [
      ...(breaks ? breaksSentences(breaks) : []),
      ...(inRange(wrench, number.value()) ? [] : [outOfReachWords(wrench, number.value())]),
      ...(found ? slipSentences(found, targetOf(bench.sheet())) : []),
    ]
  }
  const enter = (more: { readsSo?: boolean } = {}) => {
    props.onRecord({ value: number.value(), ...more })
    number.clear()
  }
  return (
    <div class="entry">
      <h2>
        {upperFirst(head(props.head))}: what does {bench.wrench()?.id} show?
      </h2>
      <NumberEntry number={number} unit={bench.wrench()?.unit} decimal maxLength={6} label="Number shown" />
      <Show
        when={doubts().length > 0}
        fallback={
          <Button variant="main" wide disabled={number.isEmpty()} onClick={() => enter()}>
            {number.isEmpty() ? 'Enter the number first' : `It shows ${shown()}`}
          </Button>
        }
      >
        <div class="stop stack" role="alert">
          <For each={doubts()}>{(sentence) => <p>{sentence}</p>}</For>
          <Button variant="main" wide onClick={() => enter(slip() ? { readsSo: true } : {})}>
            It really shows {shown()}
          </Button>
          <Button wide onClick={number.clear}>
            I misread it: enter again
          </Button>
          <p class="small pencil">A thread that is giving way also reads low. Look at it before you go on.</p>
        </div>
      </Show>
      <Show when={bench.band()}>
        {(band) => (
          <p class="small pencil">
            Asked {format.torque(targetOf(bench.sheet()) ?? 0, 'N·m')} N·m, band {bandWords(band(), format)}
          </p>
        )}
      </Show>
    </div>
  )
}
