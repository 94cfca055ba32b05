/** What must be so before the step is signed: a look is one press, a count the pad, the rest is reckoned. */
import { createSignal, For, Match, Show, Switch } from 'solid-js'
import { stepState } from '../../../shared/job/verdicts'
import type { Gate } from '../../../shared/plan/types'
import { PhotoPlaces } from '../../job/photos/PhotoPlaces'
import { useJob } from '../../job/scope'
import { cureWords } from '../../job/step/sealant-words'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { useBench } from './bench'
import { createNumber, NumberEntry } from './NumberEntry'
import { gateDone } from './stations'
import './checks.css'

export function GatePanel() {
  const bench = useBench()
  return (
    <ul class="gates stack">
      <For each={bench.step().gates}>{(gate) => <GateRow gate={gate} />}</For>
    </ul>
  )
}

function GateRow(props: { gate: Gate }) {
  const bench = useBench()
  const scope = useJob()
  const [counting, setCounting] = createSignal(false)
  const answer = () => stepState(scope.planned(), bench.step().id).gates[props.gate.id]
  const met = () => gateDone(scope.planned(), bench.step(), props.gate, bench.now())
  const send = (count?: number) =>
    void scope.send({
      type: 'AnswerGate',
      stepId: bench.step().id,
      gateId: props.gate.id,
      ...(count === undefined ? {} : { count }),
    })
  return (
    <li class="gate stack" classList={{ met: met() }}>
      <div class="stack">
        <p>
          <strong>{props.gate.text}</strong>
          <Show when={props.gate.kind === 'count' ? props.gate : undefined}>
            {(gate) => <span class="pencil"> · {gate().expect} expected</span>}
          </Show>
        </p>
        <Show when={answer()}>
          {(answer) => (
            <p>
              <Stripe person={answer().by} />{' '}
              {answer().count === undefined ? 'seen' : `counted ${answer().count}`},{' '}
              {scope.words.moment(answer().doneAt)}
              <Show when={!met()}>
                <span class="against-words"> This count is wrong: look again before anything is closed.</span>
              </Show>
            </p>
          )}
        </Show>
        <GateNote gate={props.gate} met={met()} />
      </div>
      <Show when={bench.mine()}>
        <Switch>
          <Match when={props.gate.kind === 'look'}>
            <Button
              variant={answer() ? undefined : 'main'}
              onClick={() => send()}
              disabled={answer()?.by === scope.me()}
            >
              {answer() ? 'Seen' : 'I have looked: it is so'}
            </Button>
          </Match>
          <Match when={props.gate.kind === 'count'}>
            <Button variant={met() ? undefined : 'main'} onClick={() => setCounting(true)}>
              {answer() ? 'Count again' : 'Count'}
            </Button>
            <Show when={counting()}>
              <CountDialog gate={props.gate} onClose={() => setCounting(false)} onCount={send} />
            </Show>
          </Match>
        </Switch>
      </Show>
    </li>
  )
}

/** For the gates nobody answers here: how they stand, and what they wait for. */
function GateNote(props: { gate: Gate; met: boolean }) {
  const bench = useBench()
  const scope = useJob()
  return (
    <Switch>
      <Match when={props.gate.kind === 'proven'}>
        <p class={props.met ? 'pencil' : 'against-words'}>
          {props.met ? 'Signed off.' : 'Not signed off yet: a signature is missing.'}
        </p>
      </Match>
      <Match when={props.gate.kind === 'no_open_class_a'}>
        <p class="pencil">
          {props.met
            ? 'Answered by the record; the audit shows what is open.'
            : 'A class A joint is still open.'}
        </p>
      </Match>
      <Match when={props.gate.kind === 'photo' ? props.gate : undefined}>
        {(gate) => <PhotoPlaces step={bench.step()} gate={gate()} mine={bench.mine()} />}
      </Match>
      <Match when={props.gate.kind === 'cured' ? props.gate : undefined}>
        {(gate) => (
          <p class={props.met ? 'pencil' : 'against-words'}>
            {cureWords(scope.planned(), gate().steps, bench.now(), scope.words)}
          </p>
        )}
      </Match>
    </Switch>
  )
}

function CountDialog(props: { gate: Gate; onClose(): void; onCount(count: number): void }) {
  const number = createNumber()
  const enter = () => {
    if (number.isEmpty()) return
    props.onCount(number.value())
    props.onClose()
  }
  return (
    <Dialog open title={props.gate.text} onClose={props.onClose}>
      <div class="entry">
        <NumberEntry number={number} onEnter={enter} maxLength={4} label={props.gate.text} />
        <Button variant="main" wide disabled={number.isEmpty()} onClick={enter}>
          {number.isEmpty() ? 'Count them' : `Counted ${number.text()}`}
        </Button>
      </div>
    </Dialog>
  )
}
