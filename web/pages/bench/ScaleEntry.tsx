/**
 * “What does the scale say?” The number is read off the wrench, never offered: a number that is offered is
 * confirmed unread.
 */
import { createEffect, createMemo, on, Show } from 'solid-js'
import { againstWrench, inRange, type Picked } from '../../../shared/wrench'
import { format } from '../../format'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { AdapterAgain, AdapterLine } from './AdapterPanel'
import { useBench } from './bench'
import { createNumber, NumberEntry } from './NumberEntry'
import { type HeldUp, outOfReachWords, rangeWords, roomWords } from './wrench'
import './entry.css'

export function ScaleEntry(props: { onDone?(): void }) {
  const bench = useBench()
  const number = createNumber()
  // By name, not by identity: an entry confirmed meanwhile must not rub out digits half typed.
  const target = createMemo(() => [bench.wrench()?.id, bench.pass(), bench.round()?.key].join(' '))
  createEffect(on(target, number.clear, { defer: true }))
  const wrench = () => bench.wrench()
  const outOfReach = () => {
    const inHand = wrench()
    return inHand && !number.isEmpty() && !inRange(inHand, number.value())
      ? outOfReachWords(inHand, number.value())
      : undefined
  }
  const enter = () => {
    if (number.isEmpty()) return
    bench.enterScale(number.value())
    number.clear()
    props.onDone?.()
  }
  return (
    <Show when={bench.adapterState().kind !== 'ask'} fallback={<AdapterAgain />}>
      <section class="entry" aria-labelledby="scale-entry-title" tabIndex={-1}>
        <h2 id="scale-entry-title">What is {wrench()?.id} set to?</h2>
        <NumberEntry
          number={number}
          unit={wrench()?.unit}
          onEnter={enter}
          decimal
          maxLength={6}
          label="Number on the scale"
        />
        <Show when={outOfReach()}>
          {(words) => (
            <p class="sentence against" role="alert">
              {words()}
            </p>
          )}
        </Show>
        <Button variant={outOfReach() ? undefined : 'main'} wide disabled={number.isEmpty()} onClick={enter}>
          {number.isEmpty()
            ? 'Enter the number first'
            : `It is set to ${format.number(number.value())} ${wrench()?.unit}`}
        </Button>
        <WrenchLine />
      </section>
    </Show>
  )
}

/** On a phone. */
export function ScaleDialog(props: { onClose(): void }) {
  return (
    <Dialog open title="The number on the scale" onClose={props.onClose}>
      <ScaleEntry onDone={props.onClose} />
    </Dialog>
  )
}

/** Which wrench this is about, what is on it, whether it can do the joint, and the way to another. */
export function WrenchLine() {
  const bench = useBench()
  const against = (choice: Picked) => againstWrench(choice, format).join('; ')
  return (
    <Show when={bench.wrenchChoice()}>
      {(choice) => (
        <>
          <div class="wrench-line">
            <p>
              <strong>{choice().wrench.id}</strong> {choice().wrench.title} · {rangeWords(choice().wrench)}
              <Show when={!choice().fits}>
                <span class="against-words"> {against(choice())}</span>
              </Show>
              <Show when={choice().fits && lesser(choice())}>
                {(words) => <span class="pencil"> · {words()}</span>}
              </Show>
              <Show
                when={
                  choice().fits && bench.wrenchChoices().find((other) => other.planned && other !== choice())
                }
              >
                {(planned) => (
                  <span class="pencil">
                    {' '}
                    in place of {planned().wrench.id}
                    {planned().against.length > 0 ? ` (${against(planned())})` : ''}
                  </span>
                )}
              </Show>
            </p>
            <Button onClick={() => bench.open({ dialog: 'wrenches' })}>Other wrench</Button>
          </div>
          <Show when={choice().fits && roomWords(choice())}>
            {(words) => (
              <p class="small" classList={{ pencil: choice().room?.can === true }}>
                {words()}
              </p>
            )}
          </Show>
          <AdapterLine />
        </>
      )}
    </Show>
  )
}

/** What speaks against it without ruling it out; that it has no room is a sentence of its own. */
const lesser = (choice: Picked): string =>
  againstWrench(
    { ...choice, against: choice.against.filter((demerit) => demerit !== 'no_room') },
    format,
  ).join('; ')

/** The number entered does not fit as it stands: both readings, and the two ways on. */
export function HeldUpPanel(props: { why: HeldUp; scaleId: string }) {
  const bench = useBench()
  return (
    <section class="stop stack" role="alert" tabIndex={-1}>
      <h2>{props.why.title}</h2>
      {props.why.sentences.map((sentence) => (
        <p>{sentence}</p>
      ))}
      <Button variant="main" wide onClick={bench.reenterScale}>
        Set it again and enter
      </Button>
      <Button wide onClick={() => bench.confirmScale(props.scaleId)}>
        It really is set to that
      </Button>
      <p class="small pencil">Readings at this setting are flagged and stop the signature.</p>
    </section>
  )
}
