/** A proposal in full: the torque, what it does to each link, what held it down, the cautions, formula and source one touch away. */
import { For, Show } from 'solid-js'
import {
  heldWords,
  inputsWords,
  kiloNewton,
  LINK_WORDS,
  type Proposal,
  type ProposalResults,
} from '../../../shared/fastener'
import { counted, upperFirst } from '../../../shared/words'
import { LinkBars } from '../../drawings/LinkBars'
import { format } from '../../format'
import { STATUS_WORDS } from '../../ui/Basis'
import './proposal.css'
import '../../ui/unfold.css'

/** `folded`: beside the value it was taken for, whose basis says in words what it was reckoned from and what held it down. */
export function ProposalShown(props: { proposal: Proposal; folded?: boolean }) {
  const results = () => props.proposal.results
  return (
    <div class="proposal stack roomy">
      <p classList={{ 'proposal-torque': !props.folded }}>
        <b>{format.torque(results().torqueNm, 'N·m')}</b> N·m{' '}
        <span class="pencil">proposed, no limit above {format.number(results().ceilingNm, 1)}</span>
      </p>
      <Show when={!props.folded}>
        <p>{weakestWords(results())}</p>
        <Show when={heldWords(results(), format)}>
          {(why) => <p class="proposal-held sentence">{upperFirst(why())}.</p>}
        </Show>
      </Show>
      <LinkBars
        links={linksOf(results())}
        preloadLowN={results().preloadLowN}
        preloadHighN={results().preloadHighN}
        show={(n) => `${kiloNewton(n, format)} kN`}
      />
      <Show when={!props.folded}>
        <p class="small pencil">Reckoned from {inputsWords(props.proposal.inputs, format)}.</p>
      </Show>
      <details class="proposal-more unfold" open={!props.folded}>
        <summary>{counted(props.proposal.cautions.length, 'caution')}</summary>
        <ul class="bulleted stack">
          <For each={props.proposal.cautions}>{(caution) => <li>{caution}</li>}</For>
        </ul>
      </details>
      <details class="proposal-more unfold">
        <summary>Formula and source</summary>
        <dl>
          <For each={props.proposal.basis}>
            {(basis) => (
              <>
                <dt>{basis.title}</dt>
                <dd>
                  {basis.formula}
                  <span class="pencil">
                    {' '}
                    {basis.source} ({STATUS_WORDS[basis.status]})
                  </span>
                </dd>
              </>
            )}
          </For>
        </dl>
      </details>
    </div>
  )
}

const weakestWords = ({ weakest, margin }: ProposalResults): string =>
  `The weakest link is ${LINK_WORDS[weakest]}: it bears ${format.number(margin, 1)} times the highest preload.`

const linksOf = ({ boltN, boltThreadN, holeThreadN, weakest }: ProposalResults) => [
  { words: 'bolt', bearsN: boltN, weakest: weakest === 'bolt' },
  { words: 'bolt’s thread', bearsN: boltThreadN, weakest: weakest === 'bolt_thread' },
  { words: 'thread of the hole', bearsN: holeThreadN, weakest: weakest === 'hole_thread' },
]
