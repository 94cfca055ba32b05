/**
 * “What does the scale say?” The number is read off the wrench, never offered: a number that is offered is
 * confirmed unread.
 */
import { createEffect, createMemo, createSignal, on, Show } from 'solid-js'
import { againstWrench, type Picked } from '../../../shared/wrench'
import { format } from '../../format'
import { Button } from '../../ui/Button'
import { NumberPad } from '../../ui/NumberPad'
import { AdapterAgain, AdapterLine } from './AdapterPanel'
import { useBench } from './bench'
import { type HeldUp, rangeWords, roomWords } from './wrench'
import './entry.css'

export function ScaleEntry(props: { onOther: () => void; onDone?: () => void }) {
  const bench = useBench()
  const [text, setText] = createSignal('')
  // By name, not by identity: an entry confirmed meanwhile must not rub out digits half typed.
  const target = createMemo(() => [bench.wrench()?.id, bench.pass(), bench.round()?.key].join(' '))
  createEffect(on(target, () => setText(''), { defer: true }))
  const wrench = () => bench.wrench()
  const value = () => (text() === '' || text() === '.' ? Number.NaN : Number(text()))
  const enter = () => {
    if (!Number.isFinite(value())) return
    bench.enterScale(value())
    setText('')
    props.onDone?.()
  }
  return (
    <Show when={bench.adapterState().kind !== 'ask'} fallback={<AdapterAgain />}>
      <section class="entry" aria-labelledby="scale-entry-title" tabIndex={-1}>
        <h2 id="scale-entry-title">What does the scale of {wrench()?.id} say?</h2>
        <p class="entry-display" aria-live="polite">
          <span>{text() || '–'}</span> <span class="entry-unit">{wrench()?.unit}</span>
        </p>
        <NumberPad
          value={text()}
          onChange={setText}
          onEnter={enter}
          decimal
          maxLength={6}
          label="Number on the scale"
        />
        <Button variant="main" wide disabled={!Number.isFinite(value())} onClick={enter}>
          {Number.isFinite(value())
            ? `The scale says ${format.number(value())} ${wrench()?.unit}`
            : 'Read it off the wrench'}
        </Button>
        <WrenchLine onOther={props.onOther} />
      </section>
    </Show>
  )
}

/** Which wrench this is about, what is on it, whether it can do the joint, and the way to another. */
export function WrenchLine(props: { onOther: () => void }) {
  const bench = useBench()
  const against = (one: Picked) => againstWrench(one).join('; ')
  return (
    <Show when={bench.wrenchChoice()}>
      {(one) => (
        <>
          <div class="wrench-line">
            <p>
              <strong>{one().wrench.id}</strong> {one().wrench.title} · {rangeWords(one().wrench)}
              <Show when={!one().fits}>
                <span class="against-words"> {against(one())}</span>
              </Show>
              <Show when={one().fits && lesser(one())}>
                {(words) => <span class="pencil"> · {words()}</span>}
              </Show>
              <Show
                when={one().fits && bench.wrenchChoices().find((other) => other.planned && other !== one())}
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
            <Button onClick={props.onOther}>Other wrench</Button>
          </div>
          <Show when={one().fits && roomWords(one())}>
            {(words) => (
              <p class="small" classList={{ pencil: one().room?.can === true }}>
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
const lesser = (one: Picked): string =>
  againstWrench({ ...one, against: one.against.filter((demerit) => demerit !== 'no_room') }).join('; ')

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
        The scale really says that
      </Button>
      <p class="small pencil">Readings at this setting are flagged and stop the signature.</p>
    </section>
  )
}
