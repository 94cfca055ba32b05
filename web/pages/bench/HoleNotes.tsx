/** What is to be known of the holes before anything goes in: beside the work, as a stop in it, and from a head. */
import { createMemo, For, Show } from 'solid-js'
import { rightLengths } from '../../../shared/job/hole-words'
import type { AdoptedJoint } from '../../../shared/plan/types'
import { BoltInHole } from '../../drawings/BoltInHole'
import { sectionFor, sectionLabel } from '../../drawings/hole-section'
import { format } from '../../format'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { useBench } from './bench'
import { holesNamed, holeView, notedHoles } from './holes'
import './hole.css'

/** More drawings than this stand on their own sheets. */
const DRAWN = 3

/** Holes that are not as the maker left them, and bolts of another length, each with its section. */
export function HoleNotes() {
  const bench = useBench()
  const noted = bench.ofRound(notedHoles)
  return (
    <Show when={noted()?.length}>
      <section class="hole-notes stack" aria-label="Threads and holes">
        <h2>Threads and holes</h2>
        <ol>
          <For each={noted()}>
            {(hole, index) => (
              <li classList={{ stops: hole.against }}>
                <p>
                  <strong>{holesNamed(hole)}:</strong> {hole.is}.
                </p>
                <Show when={hole.fits}>
                  {(words) => <p classList={{ 'against-words': hole.against }}>{words()}</p>}
                </Show>
                <Show when={index() < DRAWN && hole.entry?.condition !== 'stripped' && hole.fit}>
                  {(fit) => (
                    <Show when={bench.joint()}>
                      {(joint) => (
                        <BoltInHole
                          section={sectionFor(fit())}
                          label={sectionLabel(joint(), fit(), hole.entry)}
                          against={hole.against}
                          height={190}
                        />
                      )}
                    </Show>
                  )}
                </Show>
                <Button onClick={() => bench.showHole(hole.position)}>Hole {hole.position}…</Button>
              </li>
            )}
          </For>
        </ol>
      </section>
    </Show>
  )
}

/** In the way of the next press: a thread that is stripped, or a bolt that must not go in as it is. */
export function HoleStop() {
  const bench = useBench()
  const first = bench.ofRound((job, round) => notedHoles(job, round).find(({ against }) => against))
  return (
    <Show when={first()}>
      {(hole) => (
        <section class="stop stack" role="alert">
          <h2>
            {hole().alike
              ? `This ${bench.round()?.joint.fastener} bottoms: do not fit it`
              : `Hole ${hole().position}: do not fit it like this`}
          </h2>
          <p>{hole().fits ?? 'Its thread is stripped. Have it renewed and record how.'}</p>
          <Show when={bench.narrow() || !hole().fits ? undefined : hole().fit}>
            {(fit) => <p>{rightLengths(fit().fit, format)}</p>}
          </Show>
          <Button wide onClick={() => bench.showHole(hole().position)}>
            {hole().fits ? 'Another length…' : 'Its repair…'}
          </Button>
        </section>
      )}
    </Show>
  )
}

/** On a head's own sheet: the hole below it. */
export function HolePress(props: { joint: AdoptedJoint; position: number }) {
  const bench = useBench()
  const scope = useJob()
  const view = createMemo(() => holeView(scope.planned(), props.joint, props.position))
  return (
    <section class="declare" aria-label="The hole of this place">
      <p>
        The hole: <strong>{view().is}</strong>
      </p>
      <div class="panel-buttons cluster">
        <Button onClick={() => bench.showHole(props.position)}>Thread and hole…</Button>
      </div>
    </section>
  )
}
