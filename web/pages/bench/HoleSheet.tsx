/**
 * One hole: its section to scale with what goes into it, the lengths that are right, and what was found or done.
 *
 * A length pressed is only tried: the section and the words follow. It is recorded when somebody says that it goes in.
 */
import { createEffect, createMemo, createSignal, For, on, Show } from 'solid-js'
import { holeWords, rightLengths } from '../../../shared/job/hole-words'
import { FASTENER_CONDITIONS, type FastenerCondition, type HoleCondition } from '../../../shared/job/kinds'
import { lengthHere, longPart } from '../../../shared/job/verdicts'
import { upperFirst } from '../../../shared/words'
import { BoltInHole } from '../../drawings/BoltInHole'
import { sectionFor, sectionLabel } from '../../drawings/hole-section'
import { format } from '../../format'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { NumberPad } from '../../ui/NumberPad'
import { useBench } from './bench'
import { CuringWords } from './HoleCures'
import { holeView, mayGoIn, offeredLengths } from './holes'
import { InsertForm } from './InsertForm'
import './hole.css'
import './head.css'

export function HoleSheet() {
  const bench = useBench()
  const joint = () => bench.round()?.joint
  const close = () => bench.showHole(undefined)
  return (
    <Dialog
      open={bench.shownHole() !== undefined && joint() !== undefined}
      title={`${joint()?.title ?? ''}: hole ${bench.shownHole() ?? ''}`}
      onClose={close}
      broad
    >
      <Show when={bench.shownHole()}>{(n) => <Hole position={n()} />}</Show>
    </Dialog>
  )
}

function Hole(props: { position: number }) {
  const bench = useBench()
  const scope = useJob()
  const joint = () => bench.round()?.joint
  const [tried, setTried] = createSignal<number>()
  const [renewing, setRenewing] = createSignal(false)
  createEffect(
    on(
      () => props.position,
      () => setTried(undefined),
      { defer: true },
    ),
  )
  const view = createMemo(() => {
    const one = joint()
    return one && holeView(scope.planned(), one, props.position, tried())
  })
  const drawn = () => (view()?.entry?.condition === 'stripped' ? undefined : view()?.fit)
  const say = (condition: HoleCondition) => {
    const one = joint()
    if (one) void scope.send({ type: 'RecordHole', jointId: one.id, position: props.position, condition })
  }
  return (
    <Show when={joint()}>
      {(one) => (
        <>
          <div class="hole-sheet">
            <Show when={drawn()}>
              {(fit) => (
                <BoltInHole
                  section={sectionFor(fit())}
                  label={sectionLabel(one(), fit(), view()?.entry)}
                  against={view()?.against === true}
                  height={320}
                />
              )}
            </Show>
            <div class="stack">
              <p class="hole-is">
                <strong>{upperFirst(view()?.is ?? '')}.</strong>{' '}
                <Show when={!view()?.entry}>
                  <span class="pencil">Nothing else was recorded.</span>
                </Show>
              </p>
              <CuringWords head={props.position} />
              <Show when={view()?.fits}>
                {(says) => (
                  <p class="sentence" classList={{ against: view()?.against === true }}>
                    {says()}
                  </p>
                )}
              </Show>
              <Show when={drawn()}>{(fit) => <p>{rightLengths(fit().fit, format)}</p>}</Show>
              <Show when={view()?.gives}>{(gives) => <p class="small pencil">{gives()}</p>}</Show>
              <Show when={!one().hole}>
                <p class="pencil">
                  The plan does not give depth and clamped length of this hole, so no bolt length is checked.
                  Measure before it goes in.
                </p>
              </Show>
              <Show when={drawn() && bench.mine()}>
                <Lengths position={props.position} tried={tried()} onTry={setTried} />
              </Show>
            </div>
          </div>
          <Show when={bench.mine()}>
            <Show
              when={renewing()}
              fallback={
                <section class="declare" aria-label="What was found or done">
                  <p>What was found or done at this hole?</p>
                  <div class="panel-buttons cluster">
                    <Button onClick={() => say('worn')}>Worn</Button>
                    <Button onClick={() => say('stripped')}>Stripped</Button>
                    <Button onClick={() => setRenewing(true)}>Insert fitted…</Button>
                    <Show when={view()?.entry}>
                      <Button onClick={() => say('original')}>As the maker left it</Button>
                    </Show>
                  </div>
                </section>
              }
            >
              <InsertForm joint={one()} position={props.position} onDone={() => setRenewing(false)} />
            </Show>
          </Show>
          <History position={props.position} />
          <p class="small pencil">
            Computed from what was recorded. The maker’s information on repair and length counts first.
          </p>
        </>
      )}
    </Show>
  )
}

/** The lengths to try, a pad for any other, and the press that says it goes in. */
function Lengths(props: {
  position: number
  tried: number | undefined
  onTry: (mm: number | undefined) => void
}) {
  const bench = useBench()
  const scope = useJob()
  const joint = () => bench.round()?.joint
  const [other, setOther] = createSignal(false)
  const [text, setText] = createSignal('')
  const offered = createMemo(() => {
    const one = joint()
    return one ? offeredLengths(one, holeView(scope.planned(), one, props.position)) : []
  })
  const here = () => {
    const one = joint()
    return one ? lengthHere(scope.planned(), one, props.position) : undefined
  }
  const said = () => scope.planned().fasteners[joint()?.id ?? '']?.[props.position]?.lengthMm
  const goesIn = (condition: FastenerCondition) => {
    const one = joint()
    const lengthMm = props.tried
    if (!one || lengthMm === undefined) return
    void scope.send({
      type: 'PlaceFasteners',
      jointId: one.id,
      positions: [props.position],
      condition,
      lengthMm,
    })
    props.onTry(undefined)
    setOther(false)
  }
  const type = (value: string) => {
    setText(value)
    const mm = Number(value)
    props.onTry(value !== '' && Number.isFinite(mm) && mm > 0 && mm <= 5000 ? mm : undefined)
  }
  return (
    <section class="hole-lengths stack" aria-label="Lengths">
      <div class="panel-buttons cluster">
        <For each={offered()}>
          {(mm) => (
            <button
              type="button"
              class="plate"
              classList={{ shown: (props.tried ?? here()) === mm }}
              aria-pressed={(props.tried ?? here()) === mm}
              onClick={() => {
                setOther(false)
                props.onTry(mm === here() && said() !== undefined ? undefined : mm)
              }}
            >
              {format.number(mm)} mm
              <span class="plate-tally">
                {mm === said() ? 'in it' : mm === joint()?.lengthMm ? 'the plan’s' : ''}
              </span>
            </button>
          )}
        </For>
        <Button aria-expanded={other()} onClick={() => setOther(!other())}>
          Another length
        </Button>
      </div>
      <Show when={other()}>
        <div class="entry">
          <p class="entry-display" aria-live="polite">
            <span>{text() || '–'}</span> <span class="entry-unit">mm</span>
          </p>
          <NumberPad value={text()} onChange={type} decimal maxLength={6} label="Length in mm" />
        </div>
      </Show>
      <Show when={props.tried}>
        {(mm) => (
          <div class="panel-buttons cluster">
            <For each={joint() ? mayGoIn(joint() as NonNullable<ReturnType<typeof joint>>) : []}>
              {(condition, index) => (
                <Button variant={index() === 0 ? 'main' : undefined} onClick={() => goesIn(condition)}>
                  {format.number(mm())} mm goes in, {FASTENER_CONDITIONS[condition]}
                </Button>
              )}
            </For>
          </div>
        )}
      </Show>
      <Show when={said()}>
        {(mm) => (
          <p class="pencil">
            A {longPart(joint() as NonNullable<ReturnType<typeof joint>>)} of {format.number(mm())} mm is said
            to be in it.
          </p>
        )}
      </Show>
    </section>
  )
}

/** All that was recorded of this hole, the newest first. */
function History(props: { position: number }) {
  const bench = useBench()
  const scope = useJob()
  const entries = createMemo(() =>
    (scope.planned().holes[bench.round()?.joint.id ?? ''] ?? [])
      .filter(({ position }) => position === props.position)
      .toReversed(),
  )
  return (
    <Show when={entries().length > 0}>
      <ol class="readings stack" aria-label="What was recorded">
        <For each={entries()}>
          {(entry) => (
            <li class="reading">
              <p class="reading-head cluster level">
                <span class="reading-value">{upperFirst(holeWords(entry, format))}</span>
                <Stripe person={entry.by} />
                <span class="pencil">
                  {scope.words.moment(entry.doneAt)}
                  {entry.doneBy ? `, done by ${entry.doneBy}` : ''}
                  {entry.curesUntil === undefined
                    ? ''
                    : `, cures until ${scope.words.moment(entry.curesUntil)}`}
                </span>
              </p>
              <Show when={entry.note}>{(note) => <p>“{note()}”</p>}</Show>
            </li>
          )}
        </For>
      </ol>
    </Show>
  )
}
