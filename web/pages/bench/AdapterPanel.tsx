/**
 * An adapter on the wrench in hand: its length on the pad, how it stands to the handle, and the number that is then
 * to be set. Drawn to scale, so that a length typed for another shows.
 */
import { createEffect, createMemo, createSignal, For, Index, on, Show } from 'solid-js'
import type { Adapter } from '../../../shared/job/types'
import { hasTorqueScale, settingOn, wrenchSentence } from '../../../shared/wrench'
import { Lever } from '../../drawings/Lever'
import { format } from '../../format'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { NumberPad } from '../../ui/NumberPad'
import { padText } from '../../ui/pad-text'
import { ANGLES, adapterWords, angleWords, leverFault } from './adapter'
import { useBench } from './bench'
import { targetOf } from './phase'
import { appliesWords, shownOn } from './wrench'
import './adapter.css'

type Figure = 'adapterMm' | 'wrenchMm' | 'angleDeg'

export function AdapterPanel() {
  const bench = useBench()
  return (
    <Dialog
      open={bench.fitting() && bench.wrench()?.kind === 'click'}
      title={`Adapter on ${bench.wrench()?.id ?? ''}`}
      onClose={() => bench.setFitting(false)}
      broad
    >
      <AdapterForm />
    </Dialog>
  )
}

function AdapterForm() {
  const bench = useBench()
  const card = () => bench.wrench()?.lengthMm
  const now = bench.adapterState()
  const before = now.kind === 'on' ? now.adapter : now.kind === 'ask' ? now.before : undefined
  const [text, setText] = createSignal<Record<Figure, string>>({
    adapterMm: before ? String(before.adapterMm) : '',
    wrenchMm: card() === undefined && before && now.kind === 'on' ? String(before.wrenchMm) : '',
    angleDeg: String(before?.angleDeg ?? 0),
  })
  const [figure, setFigure] = createSignal<Figure>('adapterMm')
  /** The first digit after a figure is chosen begins it anew. */
  const [fresh, setFresh] = createSignal(true)
  createEffect(on(figure, () => setFresh(true)))
  const number = (of: Figure): number => {
    const digits = text()[of]
    return digits === '' || digits === '.' ? Number.NaN : Number(digits)
  }
  const adapter = createMemo((): Adapter | undefined => {
    const lever = {
      wrenchMm: card() ?? number('wrenchMm'),
      adapterMm: number('adapterMm'),
      angleDeg: number('angleDeg'),
    }
    return Object.values(lever).every(Number.isFinite) && lever.adapterMm > 0 ? lever : undefined
  })
  const fault = () => {
    const lever = adapter()
    return lever && leverFault(lever)
  }
  const sound = () => (fault() ? undefined : adapter())
  const set = () => {
    const wrench = bench.wrench()
    const target = targetOf(bench.sheet())
    const lever = sound()
    if (!wrench || !hasTorqueScale(wrench) || target === null || !lever) return undefined
    const setting = settingOn(wrench, target, bench.band(), lever)
    return { ...setting, shown: shownOn(setting, wrench) }
  }
  const plates = () => [
    { id: 'adapterMm' as const, title: 'Adapter, drive to fastener', unit: ' mm' },
    { id: 'angleDeg' as const, title: 'Angle to the handle', unit: '°' },
    ...(card() === undefined
      ? [{ id: 'wrenchMm' as const, title: 'Wrench, drive to mid-grip', unit: ' mm' }]
      : []),
  ]
  const type = (value: string) => {
    const was = text()[figure()]
    // Rubbing out shortens what stands; a digit on a figure just chosen replaces it.
    const next = fresh() && value.length > was.length ? value.slice(was.length) : value
    setFresh(false)
    setText({ ...text(), [figure()]: next === '.' ? '0.' : next })
  }
  const done = (fitted: Adapter | null) => {
    bench.setAdapter(fitted)
    bench.setFitting(false)
  }
  return (
    <div class="adapter">
      <div class="stack roomy">
        <div class="adapter-drawing">
          <Show
            when={adapter()}
            fallback={<p class="pencil">Enter the lengths to see the drawing: from drive to fastener.</p>}
          >
            {(lever) => <Lever adapter={lever()} label={adapterWords(lever())} width={320} height={150} />}
          </Show>
        </div>
        <fieldset class="adapter-angles">
          <legend>Angle to the handle</legend>
          <For each={ANGLES}>
            {({ deg, title, means }) => (
              <button
                type="button"
                class="adapter-angle"
                classList={{ shown: number('angleDeg') === deg }}
                aria-pressed={number('angleDeg') === deg}
                onClick={() => setText({ ...text(), angleDeg: String(deg) })}
              >
                <strong>{title}</strong>
                <span>{means}</span>
              </button>
            )}
          </For>
        </fieldset>
        <Show when={card()}>
          {(length) => (
            <p class="small pencil">
              {bench.wrench()?.id} is {format.number(length())} mm from drive to mid-grip, from its card. Pull
              there: the hand elsewhere is another lever.
            </p>
          )}
        </Show>
        <p class="small">
          A straight socket extension in line with the drive changes nothing: do not enter it here.
        </p>
      </div>
      <div class="stack roomy">
        <div class="adapter-figures">
          <Index each={plates()}>
            {(plate) => (
              <button
                type="button"
                class="adapter-figure"
                classList={{ shown: figure() === plate().id }}
                aria-pressed={figure() === plate().id}
                onClick={() => setFigure(plate().id)}
              >
                <span>{plate().title}</span>
                <strong>
                  {padText(text()[plate().id]) || '–'}
                  {plate().unit}
                </strong>
              </button>
            )}
          </Index>
        </div>
        <NumberPad value={text()[figure()]} onChange={type} decimal maxLength={6} label="Length or angle" />
        <div aria-live="polite">
          <Show when={fault()}>
            {(fault) => <p class="against-words">{wrenchSentence(fault(), format)}</p>}
          </Show>
          <Show when={set()}>
            {(setting) => (
              <p class="adapter-set">
                <strong>
                  Set {setting().shown} {setting().unit}
                </strong>{' '}
                · applies {appliesWords(setting())},{' '}
                <span classList={{ 'against-words': !setting().inBand }}>
                  {setting().inBand ? 'in band' : 'out of band'}
                </span>
              </p>
            )}
          </Show>
        </div>
        <Button variant="main" wide disabled={!sound()} onClick={() => done(sound() ?? null)}>
          {sound()
            ? `Adapter on: ${format.number(number('adapterMm'))} mm, ${angleWords(number('angleDeg'))}`
            : card() === undefined
              ? 'Enter both lengths'
              : 'Enter the length of the adapter'}
        </Button>
        <Show when={before}>
          <Button wide onClick={() => done(null)}>
            No adapter on it
          </Button>
        </Show>
      </div>
    </div>
  )
}

/** Beside the wrench in hand: what is on it, and the way to say so. */
export function AdapterLine() {
  const bench = useBench()
  return (
    <Show
      when={bench.wrench()?.kind === 'click'}
      fallback={
        <Show when={bench.wrench()?.kind === 'indicating'}>
          <p class="small pencil">
            With a crowfoot this wrench shows another torque than the fastener gets. Only click wrenches can
            be computed with one here.
          </p>
        </Show>
      }
    >
      <div class="wrench-line">
        <p>
          <Show
            when={bench.adapter()}
            fallback={
              <>
                No crowfoot on it.{' '}
                <span class="pencil">A straight extension in line with the drive changes nothing.</span>
              </>
            }
          >
            {(adapter) => (
              <>
                <strong>Adapter on:</strong> {adapterWords(adapter())}
              </>
            )}
          </Show>
        </p>
        <Button onClick={() => bench.setFitting(true)}>
          {bench.adapter() ? 'Change adapter' : 'Adapter on…'}
        </Button>
      </div>
    </Show>
  )
}

/** The number is not asked before it is known through which lever it goes. */
export function AdapterAgain() {
  const bench = useBench()
  const scope = useJob()
  const question = () => {
    const state = bench.adapterState()
    return state.kind === 'ask' ? state : undefined
  }
  return (
    <Show when={question()}>
      {(question) => (
        <section class="entry" aria-labelledby="adapter-again-title" tabIndex={-1}>
          <h2 id="adapter-again-title">Is the adapter on {bench.wrench()?.id}?</h2>
          <p>
            {scope.words.person(question().last.by)} last set {question().last.wrenchId} here through{' '}
            {adapterWords(question().last.adapter as Adapter)}, {scope.words.moment(question().last.doneAt)}.
          </p>
          <Lever adapter={question().before} label={adapterWords(question().before)} />
          <Show when={question().sound}>
            <Button variant="main" wide onClick={() => bench.setAdapter(question().before)}>
              On, as it was: {format.number(question().before.adapterMm)} mm,{' '}
              {angleWords(question().before.angleDeg)}
            </Button>
          </Show>
          <Button wide onClick={() => bench.setFitting(true)}>
            Another, or another way
          </Button>
          <Button wide onClick={() => bench.setAdapter(null)}>
            No adapter on it
          </Button>
        </section>
      )}
    </Show>
  )
}
