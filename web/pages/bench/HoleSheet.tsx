/**
 * One hole: its section to scale with what goes into it, the lengths that are right, and what was found or done.
 *
 * A length pressed is only tried: the section and the words follow. It is recorded when somebody says that it goes in.
 */
import { createEffect, createMemo, createSignal, For, on, Show } from 'solid-js'
import { rightLengths } from '../../../shared/job/hole-words'
import { FASTENER_CONDITIONS, type FastenerCondition, type HoleCondition } from '../../../shared/job/kinds'
import { lengthHere, longPart } from '../../../shared/job/verdicts'
import type { AdoptedJoint } from '../../../shared/plan/types'
import { upperFirst } from '../../../shared/words'
import { BoltInHole } from '../../drawings/BoltInHole'
import { sectionFor, sectionLabel } from '../../drawings/hole-section'
import { format } from '../../format'
import { entryWords } from '../../job/record/hole-rows'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { useBench } from './bench'
import { CuringWords } from './HoleCures'
import { holeView, mayGoIn, offeredLengths } from './holes'
import { InsertForm } from './InsertForm'
import { createNumber, NumberEntry } from './NumberEntry'
import './hole.css'
import './head.css'

interface HoleProps {
  joint: AdoptedJoint
  position: number
}

export function HoleSheet(props: HoleProps & { onClose(): void }) {
  const bench = useBench()
  const scope = useJob()
  const [tried, setTried] = createSignal<number>()
  const [renewing, setRenewing] = createSignal(false)
  const view = createMemo(() => holeView(scope.planned(), props.joint, props.position, tried()))
  const drawn = () => (view().entry?.condition === 'stripped' ? undefined : view().fit)
  const record = (condition: HoleCondition) =>
    void scope.send({ type: 'RecordHole', jointId: props.joint.id, position: props.position, condition })
  return (
    <Dialog open title={`${props.joint.title}: hole ${props.position}`} onClose={props.onClose} broad>
      <div class="hole-sheet">
        <Show when={drawn()}>
          {(fit) => (
            <BoltInHole
              section={sectionFor(fit())}
              label={sectionLabel(props.joint, fit(), view().entry)}
              against={view().against}
              height={320}
            />
          )}
        </Show>
        <div class="stack">
          <p class="hole-is">
            <strong>{upperFirst(view().is)}.</strong>{' '}
            <Show when={!view().entry}>
              <span class="pencil">Nothing else was recorded.</span>
            </Show>
          </p>
          <CuringWords head={props.position} />
          <Show when={view().fits}>
            {(words) => (
              <p class="sentence" classList={{ against: view().against }}>
                {words()}
              </p>
            )}
          </Show>
          <Show when={drawn()}>{(fit) => <p>{rightLengths(fit().fit, format)}</p>}</Show>
          <Show when={view().gives}>{(words) => <p class="small pencil">{words()}</p>}</Show>
          <Show when={!props.joint.hole}>
            <p class="pencil">
              The plan does not give depth and clamped length of this hole, so no bolt length is checked.
              Measure before it goes in.
            </p>
          </Show>
          <Show when={drawn() && bench.mine()}>
            <Lengths joint={props.joint} position={props.position} tried={tried()} onTry={setTried} />
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
                <Button onClick={() => record('worn')}>Worn</Button>
                <Button onClick={() => record('stripped')}>Stripped</Button>
                <Button onClick={() => setRenewing(true)}>Insert fitted…</Button>
                <Show when={view().entry}>
                  <Button onClick={() => record('original')}>As the maker left it</Button>
                </Show>
              </div>
            </section>
          }
        >
          <InsertForm joint={props.joint} position={props.position} onDone={() => setRenewing(false)} />
        </Show>
      </Show>
      <History joint={props.joint} position={props.position} />
      <p class="small pencil">
        Computed from what was recorded. The maker’s information on repair and length counts first.
      </p>
    </Dialog>
  )
}

interface LengthsProps extends HoleProps {
  tried: number | undefined
  onTry(mm: number | undefined): void
}

/** The lengths to try, a pad for any other, and the press that says it goes in. */
function Lengths(props: LengthsProps) {
  const bench = useBench()
  const scope = useJob()
  const [other, setOther] = createSignal(false)
  const number = createNumber()
  createEffect(
    on(
      number.text,
      () => {
        const mm = number.value()
        props.onTry(mm > 0 && mm <= 5000 ? mm : undefined)
      },
      { defer: true },
    ),
  )
  const options = createMemo(() =>
    offeredLengths(props.joint, holeView(scope.planned(), props.joint, props.position)),
  )
  const here = () => lengthHere(scope.planned(), props.joint, props.position)
  const recorded = () => scope.planned().fasteners[props.joint.id]?.[props.position]?.lengthMm
  const isShown = (mm: number) => (props.tried ?? here()) === mm
  const goesIn = (condition: FastenerCondition, lengthMm: number) => {
    bench.place(props.joint, [props.position], condition, { lengthMm })
    props.onTry(undefined)
    setOther(false)
  }
  return (
    <section class="hole-lengths stack" aria-label="Lengths">
      <div class="panel-buttons cluster">
        <For each={options()}>
          {(mm) => (
            <button
              type="button"
              class="plate"
              classList={{ shown: isShown(mm) }}
              aria-pressed={isShown(mm)}
              onClick={() => {
                setOther(false)
                props.onTry(mm === here() && recorded() !== undefined ? undefined : mm)
              }}
            >
              {format.number(mm)} mm
              <span class="plate-tally">
                {mm === recorded() ? 'in it' : mm === props.joint.lengthMm ? 'the plan’s' : ''}
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
          <NumberEntry number={number} unit="mm" decimal maxLength={6} label="Length in mm" />
        </div>
      </Show>
      <Show when={props.tried}>
        {(mm) => (
          <div class="panel-buttons cluster">
            <For each={mayGoIn(props.joint)}>
              {(condition, index) => (
                <Button variant={index() === 0 ? 'main' : undefined} onClick={() => goesIn(condition, mm())}>
                  {format.number(mm())} mm goes in, {FASTENER_CONDITIONS[condition]}
                </Button>
              )}
            </For>
          </div>
        )}
      </Show>
      <Show when={recorded()}>
        {(mm) => (
          <p class="pencil">
            A {longPart(props.joint)} of {format.number(mm())} mm is said to be in it.
          </p>
        )}
      </Show>
    </section>
  )
}

/** All that was recorded of this hole, the newest first. */
function History(props: HoleProps) {
  const scope = useJob()
  const entries = createMemo(() =>
    (scope.planned().holes[props.joint.id] ?? [])
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
                <span class="reading-value">{upperFirst(entryWords(entry, scope.words))}</span>
                <Stripe person={entry.by} />
                <span class="pencil">{scope.words.moment(entry.doneAt)}</span>
              </p>
              <Show when={entry.note}>{(note) => <p>“{note()}”</p>}</Show>
            </li>
          )}
        </For>
      </ol>
    </Show>
  )
}
