/** Claiming, with what it would hide asked first: class B and C knowingly, class A only on a supervisor's waiver. */

import { A } from '@solidjs/router'
import { createMemo, For, Show } from 'solid-js'
import { inPlaceBefore } from '../../../shared/job/verdicts'
import { indexPlan } from '../../../shared/plan/read'
import type { Fasteners } from '../../../shared/plan/types'
import { positionsInWords } from '../../../shared/words'
import { benchHref } from '../../hrefs'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { useBench } from './bench'
import { lacksWords } from './cautions'
import { LeftNote, useStopped } from './HandoverWords'

export function ClaimPanel() {
  const bench = useBench()
  const scope = useJob()
  const stopped = useStopped()
  const claim = (hidesKnowingly?: boolean) => ({
    type: 'ClaimStep' as const,
    stepId: bench.step().id,
    ...(hidesKnowingly ? { hidesKnowingly } : {}),
  })
  const refusal = createMemo(() => scope.may(claim()))
  const hides = () => {
    const why = refusal()
    return why?.code === 'asks_before_hiding' ? why.data.behind : undefined
  }
  /** What it lacks tells whether it is a minute's work or an afternoon's. */
  const lacks = (behind: Fasteners): string => {
    const joint = indexPlan(scope.planned().plan).jointById.get(behind.joint)
    const inPlace = inPlaceBefore(scope.planned(), behind, bench.step()).positions
    return joint ? lacksWords(scope.planned(), joint, inPlace) : 'not signed off'
  }
  return (
    <Show
      when={refusal()}
      fallback={
        <>
          <LeftNote narrow />
          <Button variant="main" wide class="tall" onClick={() => void scope.send(claim())}>
            {stopped() ? 'Claim and continue' : 'Claim step'}
          </Button>
        </>
      }
    >
      {(why) => (
        <Show
          when={hides()}
          fallback={
            <>
              {/* The hold itself stands right above, with its clear. */}
              <Show when={why().code !== 'on_hold'}>
                <p class="sentence against">{why().sentence}</p>
              </Show>
              <Show when={why().code === 'would_hide_unproven'}>
                <p>
                  If it must be covered now, a supervisor can accept that with a reason on the audit page. The
                  record then says so.
                </p>
              </Show>
              <A class="button wide" href={benchHref(scope.planned().id)}>
                What can I work on?
              </A>
            </>
          }
        >
          {(behind) => (
            <section class="stop stack" aria-label="What this step would cover">
              <h2>This step covers what is not signed off yet</h2>
              <ul>
                <For each={behind()}>
                  {(fasteners) => (
                    <li>
                      {fasteners.title}
                      {fasteners.positions ? ` ${positionsInWords(fasteners.positions)}` : ''}:{' '}
                      {lacks(fasteners)}
                    </li>
                  )}
                </For>
              </ul>
              <Button wide class="tall" onClick={() => void scope.send(claim(true))}>
                I know: claim step
              </Button>
              <A class="button wide" href={benchHref(scope.planned().id)}>
                Have it finished first
              </A>
              <p class="small">The record will say that you knew.</p>
            </section>
          )}
        </Show>
      )}
    </Show>
  )
}
