/** The stations of the step, and the passes of the round shown, as rows of plates: done, now, to come. */
import { createEffect, Index, on, Show } from 'solid-js'
import { gradeWords, passWords } from '../../../shared/plan/words'
import { format } from '../../format'
import { useBench } from './bench'
import { fastenerWords } from './cautions'
import { DeclareFasteners } from './FastenerPanel'
import { passViews } from './work'
import './plates.css'

export function StationRow() {
  const bench = useBench()
  let row: HTMLElement | undefined
  keepInView(
    () => row,
    () => bench.station().key,
  )
  return (
    <nav ref={row} class="plates stations cluster" aria-label="Work of this step">
      <Index each={bench.stations()}>
        {(station) => (
          <button
            type="button"
            class="plate"
            classList={{ done: station().done, shown: station().key === bench.station().key }}
            aria-current={station().key === bench.station().key ? 'true' : undefined}
            onClick={() => bench.openStation(station().key)}
          >
            <span>{station().title}</span>
            <span class="plate-tally">
              {station().done ? `${station().kind === 'sign' ? 'signed' : 'done'} ` : ''}
              {station().tally}
            </span>
          </button>
        )}
      </Index>
    </nav>
  )
}

/** On a phone a row is longer than the screen: what is shown is brought into it. */
function keepInView(row: () => HTMLElement | undefined, shown: () => unknown): void {
  createEffect(
    on(shown, () =>
      queueMicrotask(() => {
        const nav = row()
        const plate = nav?.querySelector<HTMLElement>('[aria-current]')
        if (nav && plate)
          nav.scrollLeft = plate.offsetLeft - nav.offsetLeft - (nav.clientWidth - plate.offsetWidth) / 2
      }),
    ),
  )
}

const STATE_WORDS = { done: 'done', now: 'now', to_come: 'to come' } as const

export function PassRow() {
  const bench = useBench()
  let row: HTMLElement | undefined
  keepInView(
    () => row,
    () => bench.pass(),
  )
  const views = bench.ofRound(passViews)
  return (
    <div class="pass-line cluster">
      <Show when={(views()?.length ?? 0) > 1}>
        <nav ref={row} class="plates passes cluster" aria-label="Passes">
          <Index each={views()}>
            {(view) => (
              <button
                type="button"
                class="plate pass"
                classList={{
                  done: view().state === 'done',
                  later: view().state === 'to_come',
                  shown: view().n === bench.pass(),
                  odd: view().flagged,
                }}
                aria-current={view().n === bench.pass() ? 'true' : undefined}
                aria-label={`Pass ${view().n}, ${passWords(view().pass, format)}, ${STATE_WORDS[view().state]}, ${view().reached} of ${view().of}${view().flagged ? ', flagged' : ''}`}
                onClick={() => bench.openPass({ round: bench.round()?.key ?? '', pass: view().n })}
              >
                <span>{passWords(view().pass, format)}</span>
                <span class="plate-tally">
                  {view().flagged
                    ? 'flag'
                    : view().state === 'done'
                      ? 'done'
                      : `${view().reached} of ${view().of}`}
                </span>
              </button>
            )}
          </Index>
        </nav>
      </Show>
      <JointWords />
      <Show when={bench.mine()}>
        <DeclareFasteners />
      </Show>
    </div>
  )
}

/** Lubrication first: the same number on a dry thread is another clamp. */
function JointWords() {
  const bench = useBench()
  return (
    <Show when={bench.joint()}>
      {(joint) => (
        <p class="joint-words">
          <Show when={joint().passes.length > 1}>
            <strong>
              Pass {bench.pass()} of {joint().passes.length}
            </strong>
            {' · '}
          </Show>
          <Show when={bench.round()?.leftOutIn}>
            {(from) => <strong class="against-words">Left out in {from()}, due here · </strong>}
          </Show>
          <strong>{joint().lubrication}</strong> · {fastenerWords(joint())} · {joint().thread}
          {joint().lengthMm === undefined ? '' : ` × ${format.number(joint().lengthMm ?? 0)} mm`} ·{' '}
          {gradeWords(joint())} · class {joint().class} joint
        </p>
      )}
    </Show>
  )
}
