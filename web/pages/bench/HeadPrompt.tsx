/**
 * A head that one tap cannot record: it is not its turn, the wait is not over, or it needs a number. The usual
 * answer is the biggest press; a pad serves for any other.
 */
import { createEffect, createSignal, on, Show } from 'solid-js'
import { numberWords } from '../../../shared/plan/order'
import type { AdoptedJoint } from '../../../shared/plan/types'
import { bandWords } from '../../../shared/plan/words'
import { format } from '../../format'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { NumberPad } from '../../ui/NumberPad'
import { useBench } from './bench'
import { CuringWords } from './HoleCures'
import { targetOf } from './phase'
import { indicatedSlip, slipSentences } from './wrench'
import './entry.css'

export function HeadPrompt(props: { head: number | undefined; onClose: () => void }) {
  const bench = useBench()
  const scope = useJob()
  const joint = () => bench.round()?.joint
  const record = () => {
    const phase = bench.phase()
    return phase.kind === 'record' ? phase : undefined
  }
  const called = (n: number | undefined) => {
    const one = joint()
    return one && n !== undefined ? headWord(one, n).toLowerCase() : ''
  }
  const notItsTurn = () => {
    const found = record()
    return bench.inTurn() && found !== undefined && found.head !== props.head
  }
  return (
    <Dialog
      open={props.head !== undefined && record() !== undefined}
      title={`${joint()?.title ?? ''}: ${called(props.head)}`}
      onClose={props.onClose}
    >
      <Show when={notItsTurn()}>
        <p class="sentence against">
          That is number {props.head}; number {record()?.head} comes next. What you record now is flagged as
          out of order.
        </p>
        <Button variant="main" wide onClick={props.onClose}>
          Go back: {called(record()?.head)} is next
        </Button>
      </Show>
      <Show when={record()?.early}>
        {(until) => (
          <p class="sentence against">
            The wait is over at {scope.words.moment(until())}. What you record before is flagged as too early.
          </p>
        )}
      </Show>
      <CuringWords head={props.head} />
      <Answer head={props.head ?? 0} onDone={props.onClose} plain={notItsTurn()} />
    </Dialog>
  )
}

/** The number a head needs, or the one press. Also stands in the action column for the next head. */
export function Answer(props: { head: number; onDone?: () => void; plain?: boolean; brief?: boolean }) {
  const bench = useBench()
  const record = () => {
    const phase = bench.phase()
    return phase.kind === 'record' ? phase : undefined
  }
  const say = (value?: number, readsSo?: boolean) => {
    const how = record()?.how
    if (!how) return
    bench.record(props.head, how, {
      ...(value === undefined ? {} : { value }),
      ...(readsSo ? { readsSo } : {}),
    })
    props.onDone?.()
  }
  return (
    <>
      <Show when={record()?.how === 'turned'}>
        <Turned head={props.head} say={say} plain={props.plain === true} brief={props.brief === true} />
      </Show>
      <Show when={record()?.how === 'indicated'}>
        <Indicated head={props.head} say={say} />
      </Show>
      <Show when={record()?.how === 'clicked'}>
        <Button variant={props.plain ? undefined : 'main'} wide class="tall" onClick={() => say()}>
          {headWord(bench.round()?.joint, props.head)}: clicked at{' '}
          {format.number(record()?.scale?.value ?? 0)} {record()?.scale?.unit}
        </Button>
      </Show>
      <Show when={record()?.how === 'slackened'}>
        <Button variant={props.plain ? undefined : 'main'} wide class="tall" onClick={() => say()}>
          {headWord(bench.round()?.joint, props.head)}: slackened
        </Button>
      </Show>
    </>
  )
}

const headWord = (joint: AdoptedJoint | undefined, n: number): string => {
  const word = joint?.fastener ?? 'head'
  return `${word.charAt(0).toUpperCase()}${word.slice(1)} ${joint ? numberWords(joint, n) : n}`
}

interface SayProps {
  head: number
  say: (value: number, readsSo?: boolean) => void
}

function Turned(props: SayProps & { plain: boolean; brief: boolean }) {
  const bench = useBench()
  const [other, setOther] = createSignal(false)
  const [text, setText] = createSignal('')
  createEffect(on([() => props.head, bench.pass], () => setText('')))
  const asked = () => {
    const sheet = bench.sheet()
    return sheet?.kind === 'angle' ? sheet.angleDeg : 0
  }
  return (
    <div class="entry">
      <Button variant={props.plain ? undefined : 'main'} wide class="tall" onClick={() => props.say(asked())}>
        {headWord(bench.round()?.joint, props.head)}: turned +{format.number(asked())}°
      </Button>
      <Show
        when={other() && !props.brief}
        fallback={
          <Show when={!props.brief}>
            <Button wide onClick={() => setOther(true)}>
              Another angle
            </Button>
          </Show>
        }
      >
        <p class="entry-display" aria-live="polite">
          <span>{text() || '–'}</span> <span class="entry-unit">°</span>
        </p>
        <NumberPad value={text()} onChange={setText} decimal maxLength={5} label="Degrees turned" />
        <Button
          wide
          disabled={text() === '' || text() === '.'}
          onClick={() => {
            props.say(Number(text()))
            setText('')
            setOther(false)
          }}
        >
          {text() === '' ? 'Enter the degrees' : `Turned ${text()}°`}
        </Button>
      </Show>
    </div>
  )
}

function Indicated(props: SayProps) {
  const bench = useBench()
  const scope = useJob()
  const [text, setText] = createSignal('')
  createEffect(on([() => props.head, bench.pass], () => setText('')))
  const value = () => (text() === '' || text() === '.' ? Number.NaN : Number(text()))
  const slip = () => {
    const wrench = bench.wrench()
    return wrench && Number.isFinite(value())
      ? indicatedSlip(scope.shop(), wrench, value(), bench.band())
      : undefined
  }
  const say = (readsSo?: boolean) => {
    props.say(value(), readsSo)
    setText('')
  }
  return (
    <div class="entry">
      <h2>
        {headWord(bench.round()?.joint, props.head)}: what does {bench.wrench()?.id} show?
      </h2>
      <p class="entry-display" aria-live="polite">
        <span>{text() || '–'}</span> <span class="entry-unit">{bench.wrench()?.unit}</span>
      </p>
      <NumberPad value={text()} onChange={setText} decimal maxLength={6} label="Number shown" />
      <Show
        when={slip()}
        fallback={
          <Button variant="main" wide disabled={!Number.isFinite(value())} onClick={() => say()}>
            {Number.isFinite(value())
              ? `It shows ${format.number(value())} ${bench.wrench()?.unit}`
              : 'Read it off the wrench'}
          </Button>
        }
      >
        {(found) => (
          <div class="stop stack" role="alert">
            {slipSentences(found(), targetOf(bench.sheet())).map((sentence) => (
              <p>{sentence}</p>
            ))}
            <Button variant="main" wide onClick={() => say(true)}>
              It really shows {format.number(value())} {bench.wrench()?.unit}
            </Button>
            <Button wide onClick={() => setText('')}>
              I misread it: enter again
            </Button>
            <p class="small pencil">
              A thread that is giving way also reads low. Look at it before you go on.
            </p>
          </div>
        )}
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
