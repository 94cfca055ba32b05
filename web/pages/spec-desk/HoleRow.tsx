/** The hole: what it is cut in, how deep, what is clamped; beside it whether the bolt fits and what strips first. */
import { For, Show } from 'solid-js'
import { CAUTIONS, HOLE_MATERIALS } from '../../../shared/fastener'
import { listed } from '../../../shared/words'
import { BoltInHole } from '../../drawings/BoltInHole'
import { format } from '../../format'
import { SelectInput, TextInput, useCalculator } from './fields'
import { type Fit, givesWayFirst, type Strip } from './hole'
import { answerOf } from './part'
import { Answer, Facts, Row, Sources } from './sheet'
import { firstWords, kN, LINKS, mm, VERDICTS } from './words'

const MATERIALS = [
  { value: '', title: 'not said' },
  ...HOLE_MATERIALS.map(({ id, words }) => ({ value: id, title: words })),
]

export function HoleRow() {
  const { calculation } = useCalculator()
  return (
    <Row
      title="The hole"
      asks={
        <>
          <SelectInput field="material" options={MATERIALS} />
          <div class="desk-pair">
            <TextInput field="length" hint="Under the head." inputMode="decimal" />
            <TextInput field="boltThread" hint="The standard’s unless entered." inputMode="decimal" />
            <TextInput field="stack" hint="Without the washer." inputMode="decimal" />
            <TextInput field="washer" hint="None unless entered." inputMode="decimal" />
            <TextInput field="threadDepth" hint="Full thread, from the face." inputMode="decimal" />
            <SelectInput
              field="bottom"
              options={[
                { value: 'blind', title: 'blind' },
                { value: 'through', title: 'open, or a nut' },
              ]}
            />
            <Show when={calculation().inputs.bottom !== 'through'}>
              <TextInput field="holeDepth" hint="To its thread’s end unless entered." inputMode="decimal" />
            </Show>
            <SelectInput
              field="insert"
              options={[
                { value: 'none', title: 'none' },
                { value: 'wire', title: 'wire insert' },
                { value: 'solid', title: 'solid insert' },
              ]}
            />
            <Show when={calculation().inputs.insert !== 'none'}>
              <TextInput field="insertLength" hint="1.5 d unless entered." inputMode="decimal" />
            </Show>
            <Show when={calculation().inputs.insert === 'solid'}>
              <TextInput field="insertOuter" hint="As M14x1.5." />
            </Show>
          </div>
        </>
      }
    >
      <Answer title="Will it strip?" part={calculation().strip}>
        {(result) => (
          <>
            <Links result={result()} />
            <Sources ids={result().strip.basis} of="the strip loads" />
          </>
        )}
      </Answer>
      <Answer title="Does the bolt fit?" part={calculation().fit}>
        {(result) => (
          <>
            <Fitted result={result()} />
            <Sources ids={result().fit.basis} of="the fit" />
          </>
        )}
      </Answer>
    </Row>
  )
}

function Links(props: { result: Strip }) {
  const { calculation } = useCalculator()
  const strip = () => props.result.strip
  const pulls = () => answerOf(calculation().recommended)?.preloadHighN
  const first = () => givesWayFirst(strip())
  const most = () => Math.max(strip().boltBreakN, strip().boltStripN, strip().holeStripN, pulls() ?? 0)
  const rows = () =>
    [
      ['bolt', strip().boltBreakN],
      ['bolt_thread', strip().boltStripN],
      ['hole_thread', strip().holeStripN],
    ] as const
  const from = () =>
    ({
      fit: 'the bolt in its hole',
      thread: 'the whole thread; how far the bolt reaches into it is not known',
      rule: 'taken as 1.5 d; nothing is entered',
    })[props.result.lengthFrom]
  return (
    <>
      <p class="sentence" classList={{ against: first() !== 'bolt' }}>
        {firstWords(strip(), first())}
      </p>
      <ul class="stack">
        <For each={rows()}>
          {([link, bears]) => (
            <li classList={{ 'desk-weakest': strip().weakest === link }}>
              <span>
                {LINKS[link]} <strong>at {kN(bears)} kN</strong>
                {strip().weakest === link && first() !== 'close' ? ' (first)' : ''}
              </span>
              <span class="desk-bar" aria-hidden="true">
                <span class="desk-bar-full" style={{ width: `${(bears / most()) * 100}%` }} />
                <Show when={pulls()}>{(pull) => <i style={{ left: `${(pull() / most()) * 100}%` }} />}</Show>
              </span>
            </li>
          )}
        </For>
      </ul>
      <Show when={pulls()}>
        {(pull) => (
          <p>
            The recommended torque pulls up to {kN(pull())} kN (the upright mark): the weakest link bears{' '}
            {format.number(strip().weakestN / pull(), 1)} times that.
          </p>
        )}
      </Show>
      <p>
        {mm(strip().usableMm)} mm of thread holds ({from()}). The bolt breaks first from{' '}
        {mm(strip().lengthForBoltFirstMm)} mm on; {mm(strip().lengthForStrongBoltMm)} mm with bolts a fifth
        stronger than their minimum. Hole: {strip().material.words}, shear strength{' '}
        {format.number(strip().holeShearMPa, 0)} MPa.
      </p>
      <ul class="desk-cautions stack close">
        <For each={strip().cautions.filter((code) => code !== 'maker_governs')}>
          {(code) => <li>{CAUTIONS[code]}</li>}
        </For>
      </ul>
      <p class="small pencil">
        Shear strength: {strip().material.source}
        {strip().material.status === 'memory' ? ' (from memory, not seen)' : ''}.
      </p>
    </>
  )
}

const SHANK = 'It fits only if it is threaded further than the standard makes it.'

function Fitted(props: { result: Fit }) {
  const fit = () => props.result.fit
  const verdict = () => (props.result.lengthMm === undefined ? undefined : fit().verdict)
  /** Said only of a bolt that fits by its lengths: what is graver goes first. */
  const shank = () =>
    verdict() === 'good' || verdict() === 'near_bottom' ? fit().assumed?.follows : undefined
  const against = () => verdict() !== undefined && (verdict() !== 'good' || shank() !== undefined)
  const lengths = () => {
    const right = fit().rightLengthsMm
    return right.length === 0
      ? 'No standard length is right here: change the stack, the washer or the hole.'
      : `Right here: ${listed(right.map((length) => mm(length)))} mm.`
  }
  // A bolt that reaches deeper than there is thread is held by no more than there is.
  const held = () => Math.min(1, (props.result.section?.threadDepthMm ?? Infinity) / fit().engagementMm)
  const facts = () => [
    ['holds', `${mm(fit().engagementMm * held())} mm (${format.number(fit().engagementD * held(), 1)} d)`],
    ['should hold', `${mm(fit().minEngagementMm)} mm`],
    ...(fit().assumed && props.result.lengthMm !== undefined
      ? [['its own thread', `${mm(fit().assumed?.boltThreadMm ?? 0)} mm (assumed)`]]
      : []),
    ...(fit().clearanceMm < 0
      ? [[props.result.through ? 'stands out by' : 'too long by', `${mm(-fit().clearanceMm)} mm`]]
      : [['left at the bottom', `${mm(fit().clearanceMm)} mm`]]),
    ...(props.result.through ? [] : [['should be left', `${mm(fit().wantedClearanceMm)} mm`]]),
  ]
  const words = () =>
    `${verdict() ? VERDICTS[verdict() as 'good'] : ''} ${facts()
      .map(([name, value]) => `${name} ${value}`)
      .join(', ')}.`
  return (
    <>
      <Show when={verdict()}>
        {(verdict) => (
          <p class="sentence" classList={{ against: against() }}>
            {shank() ? SHANK : VERDICTS[verdict()]}
          </p>
        )}
      </Show>
      <div class="desk-fit">
        <Show when={props.result.section}>
          {(section) => <BoltInHole section={section()} label={words()} against={against()} height={300} />}
        </Show>
        <div>
          <Show when={verdict()}>
            <Facts of={facts()} />
          </Show>
          <p>
            <strong>{lengths()}</strong> It holds enough from {mm(fit().shortestMm)} mm on and clears up to{' '}
            {mm(fit().longestMm)} mm.
          </p>
          <Show when={props.result.lengthMm === undefined}>
            <p>No bolt length is entered, so there is no verdict and no drawing.</p>
          </Show>
          <Show when={props.result.lengthFromThread}>
            <p>The length of {mm(props.result.lengthMm ?? 0)} mm is the one written with the thread.</p>
          </Show>
          <Show when={props.result.holeDepthTaken}>
            <p class="pencil">The hole is drawn no deeper than its thread: its depth is not entered.</p>
          </Show>
          <ul class="desk-cautions stack close">
            <For each={fit().cautions}>{(code) => <li>{CAUTIONS[code]}</li>}</For>
          </ul>
        </div>
      </div>
    </>
  )
}
