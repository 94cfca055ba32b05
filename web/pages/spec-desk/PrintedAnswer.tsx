/** What the manual prints, read back pass by pass; what is unclear is asked, what contradicts itself is said. */
import { For, Match, Show, Switch } from 'solid-js'
import { doubtsInWords } from '../../../shared/fastener'
import { noteSentenceFor, remarkSentenceFor, specPassWords } from '../../../shared/spec'
import { format } from '../../format'
import { useCalculator } from './fields'
import { answerOf, inState } from './part'
import { contradictionWords } from './printed'
import { Readings } from './sheet'
import type { TorqueBeside } from './tension'
import { computedNm, kN, percent } from './words'

export function PrintedAnswer() {
  const { calculation } = useCalculator()
  const judged = () => calculation().printedJudged
  const doubts = () => {
    const found = judged()
    return found && found.verdict !== 'plausible' ? doubtsInWords(found, format) : []
  }
  const doubtful = () => calculation().printedDoubtful
  const stops = () => judged()?.verdict === 'impossible'
  return (
    <section class="desk-answer desk-printed stack" aria-labelledby="desk-printed">
      <h3 id="desk-printed">Printed: it counts before anything computed</h3>
      <Switch>
        <Match when={inState(calculation().printed, 'refused')}>
          {(unread) => <Readings of={unread()} field="printed" />}
        </Match>
        <Match when={inState(calculation().printed, 'read')}>
          {(printed) => (
            <>
              <Show when={contradictionWords(printed().spec)}>
                {(words) => <p class="sentence against">{words()}</p>}
              </Show>
              <Show when={!printed().spec.contradiction}>
                <ol class="desk-passes stack">
                  <For each={printed().spec.passes}>
                    {(pass, i) => (
                      <li classList={{ 'desk-pass-set': printed().toSet?.pass === i() + 1 }}>
                        <span class="strong large">
                          {specPassWords(pass, format)}
                          <Show when={printed().spec.passes.length > 1 && printed().toSet?.pass === i() + 1}>
                            <span class="pencil"> set below</span>
                          </Show>
                        </span>
                        <Show when={pass.kind === 'torque'}>
                          <span class="pencil">
                            {specPassWords(pass, format, 'lbf·ft')}, {specPassWords(pass, format, 'lbf·in')},{' '}
                            {specPassWords(pass, format, 'kgf·m')}
                          </span>
                        </Show>
                      </li>
                    )}
                  </For>
                </ol>
              </Show>
              <Show when={printed().spec.remark}>{(two) => <p>{remarkSentenceFor(two(), format)}</p>}</Show>
              <Show when={calculation().inputs.beside.trim()}>
                {(words) => <p>{noteSentenceFor(words())}</p>}
              </Show>
              <Show when={printed().seats && !doubtful()}>
                <p>
                  An angle follows: this torque only seats the joint, and is not to be held against the
                  computed band.
                </p>
              </Show>
              <Show when={doubts().length > 0}>
                <p classList={{ 'sentence against': doubtful() }}>
                  {stops() ? 'That cannot be right. ' : doubtful() ? 'Look at this again. ' : ''}
                  {doubts().join(' ')}
                  {doubtful() ? ' Check torque, unit, class and thread against the page' : ''}
                  {stops()
                    ? ', and ask the maker. No wrench is named for it.'
                    : doubtful()
                      ? ' before it is set.'
                      : ''}
                </p>
              </Show>
              <Show when={calculation().printedBeside}>{(beside) => <Beside beside={beside()} />}</Show>
            </>
          )}
        </Match>
      </Switch>
    </section>
  )
}

function Beside(props: { beside: TorqueBeside }) {
  const { calculation } = useCalculator()
  const lies = () =>
    ({
      below: 'below the computed band',
      within: 'within the computed band',
      above: 'above the computed band',
    })[props.beside.lies]
  return (
    <p>
      {format.number(props.beside.torqueNm, 2)} N·m lies {lies()}: it pulls {kN(props.beside.preloadLowN)} to{' '}
      {kN(props.beside.preloadHighN)} kN and uses {percent(props.beside.useLow)} to{' '}
      {percent(props.beside.useHigh)} of the yield stress, from rough to slippery.
      <Show when={props.beside.pastYield && !calculation().printedDoubtful}>
        {' '}
        Slipperier than the maker meant it, the bolt would be stretched for good: keep to the lubrication of
        the page.
      </Show>
      <Show when={props.beside.lies === 'below' && !calculation().printedDoubtful}>
        {' '}
        Makers print less where a gasket or a soft part sets the limit. Full use of this bolt would begin at{' '}
        {computedNm(answerOf(calculation().tension)?.low.torqueNm ?? 0)} N·m.
      </Show>
    </p>
  )
}
