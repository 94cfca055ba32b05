/**
 * One joint of the record: its bolt map and what it asks in the heading, then each fastener pass by pass.
 *
 * A table of its own, so that its headings repeat on paper. Drawn when it is near.
 */
import { createMemo, For, Show, untrack } from 'solid-js'
import { conditionWords } from '../../../shared/job/kinds'
import type { Reading, SettledValue, WrenchThen } from '../../../shared/job/types'
import { bandFor, setViews, standingFlags } from '../../../shared/job/verdicts'
import { takenAsPrinted } from '../../../shared/plan/fasteners'
import { indexPlan } from '../../../shared/plan/read'
import type { Joint } from '../../../shared/plan/types'
import { bandWords, passesWords, passWords } from '../../../shared/plan/words'
import { ended, type Words } from '../../../shared/words'
import { BoltMap } from '../../drawings/BoltMap'
import { headsOf } from '../../drawings/heads'
import { format } from '../../format'
import { Stripe } from '../../people/Stripe'
import { useNear } from '../../ui/near'
import { createSame } from '../../ui/same'
import { Findable } from '../../ui/Turn'
import { Moment } from '../Moment'
import { photoAddress } from '../photos/photos'
import { type JobView, useJobView } from '../scope'
import { SettledInFull } from '../settled/Settled'
import { type SignerPair, signersOf } from '../step/step-view'
import { fastenerWords } from '../step/step-words'
import { PassBar } from './PassBar'
import {
  type Counted,
  countLines,
  groupText,
  type JointGroup,
  type Row,
  reachedWords,
  remarks,
  rowsOf,
  sameLine,
  showNm,
  verdictWords,
  waiversOfRow,
  waiversOfSets,
  waiverWords,
} from './rows'
import { VerdictMark } from './VerdictMark'
import type { AuditLine } from './verdict'

export function RecordGroup(props: { group: JointGroup | undefined }) {
  return <Show when={props.group}>{(group) => <Group group={group()} />}</Show>
}

/** Until it is near: its name, its room, and the words by which the browser's search finds it. */
function Group(props: { group: JointGroup }) {
  const view = useJobView()
  const joint = createMemo(() => props.group.joint)
  // One reading anywhere must not draw the whole record again.
  const lines = createSame(() => props.group.lines, sameLine)
  const rows = () => lines().reduce((sum, line) => sum + rowsOf(line).length, 0)
  const { drawn, place } = useNear().line(untrack(rows))
  const isOpen = () => lines().some(({ passes }) => passes.some(({ reading }) => isFlagged(view, reading)))
  return (
    <section
      class="record-group"
      classList={{ 'group-waits': !drawn() }}
      id={`joint-${joint().id}`}
      aria-labelledby={`head-${joint().id}`}
      ref={place}
      tabindex={drawn() ? undefined : 0}
      data-open={!drawn() && isOpen() ? '' : undefined}
      style={{ '--rows': rows() }}
    >
      <Show
        when={drawn()}
        fallback={
          <>
            <h3 id={`head-${joint().id}`}>{joint().title}</h3>
            <Findable words={groupText({ ...props.group, lines: lines() }, view.words)} />
          </>
        }
      >
        <Drawn step={props.group.step} joint={joint()} lines={lines()} />
      </Show>
    </section>
  )
}

function Drawn(props: JointGroup) {
  const view = useJobView()
  const joint = () => props.joint
  const heads = createSame(() => headsOf(view.planned(), view.shop(), props.step, joint()))
  const signers = createSame(() => signersOf(setViews(view.planned(), props.step)))
  const settled = createSame(() => Object.entries(view.job().settled[joint().id] ?? {}))
  const counted = createMemo(() => countLines(props.lines))
  const bands = () => [...new Set(joint().bands.flatMap((band) => (band ? [bandWords(band, format)] : [])))]
  return (
    <>
      <header class="group-head">
        <div class="group-map">
          <BoltMap
            positions={joint().positions}
            outline={joint().outline}
            heads={heads()}
            height={joint().positions.length > 3 ? 200 : 160}
            fit
            label={`Bolt map of ${joint().title}`}
          />
        </div>
        <div>
          <h3 id={`head-${joint().id}`}>{joint().title}</h3>
          <p>
            {props.step.id} {props.step.title}
          </p>
          <p>
            {fastenerWords(joint())}, {joint().lubrication}, class {joint().class}
            {joint().use.kind === 'one_use' ? ', one-use' : ''}
          </p>
          <p>
            <b>{passesWords(joint().passes, format)}</b>
            <Show when={bands().length > 0}>
              <span class="pencil">, band {bands().join(', ')}</span>
            </Show>
          </p>
          <p class="strong">{groupWords(counted(), joint().positions.length)}</p>
          <For each={settled()}>{([pass, value]) => <SettledInFull value={value} of={`Pass ${pass}`} />}</For>
          <AsPrinted joint={joint()} />
          <For each={signers()}>{(pair) => <Signed pair={pair} />}</For>
          <For each={waiversOfSets(props.lines)}>
            {(waiver) => (
              <p class="group-settled">
                Second signature {waiverWords(waiver, { ...view.words, moment: format.dateAndTime })}
              </p>
            )}
          </For>
        </div>
      </header>
      <table class="record-table">
        <caption class="unseen">{joint().title}, fastener by fastener</caption>
        <thead>
          <tr>
            <th scope="col">Fastener</th>
            <th scope="col">Asked</th>
            <th scope="col">Reached</th>
            <th scope="col">Against its band</th>
            <th scope="col">Wrench, its check</th>
            <th scope="col">Done by</th>
            <th scope="col">Second</th>
            <th scope="col">When</th>
            <th scope="col">Stands</th>
          </tr>
        </thead>
        <tbody>
          <For each={props.lines}>
            {(line) => <For each={rowsOf(line)}>{(row) => <RecordRow row={row} />}</For>}
          </For>
        </tbody>
      </table>
    </>
  )
}

const isFlagged = (view: JobView, reading: Reading | undefined): boolean =>
  reading !== undefined && standingFlags(view.job(), reading).length > 0

/** Says so when a filter leaves some of the joint out. */
function groupWords({ fasteners, proven, accepted, final, flagged, open }: Counted, all: number): string {
  const shown = fasteners < all ? `${fasteners} of ${all} shown: ` : ''
  if (proven === fasteners) return `${shown}${fasteners === 1 ? 'signed off' : `all ${fasteners} signed off`}`
  const parts = [
    `${proven} of ${fasteners} signed off`,
    accepted > 0 ? `${accepted} accepted with a reason` : '',
    final > 0 ? `${final} final` : '',
    flagged > 0 ? `${flagged} flagged` : '',
    open > 0 ? `${open} open` : '',
  ]
  return shown + parts.filter(Boolean).join(', ')
}

function RecordRow(props: { row: Row }) {
  const view = useJobView()
  const { line, pass, reading, earlier, lead } = props.row
  /** A settled value's band judges what was recorded before it, too. */
  const band = () => (view.job().settled[line.joint]?.[pass.pass] ? settledBand() : undefined)
  const settledBand = () => {
    const joint = indexPlan(view.planned().plan).jointById.get(line.joint)
    return joint && bandFor(view.planned(), joint, pass.pass)
  }
  const flagged = createMemo(() => !earlier && isFlagged(view, reading))
  const onPaper = { ...view.words, moment: format.dateAndTime }
  const remarkIn = (words: Words) =>
    [
      reading ? remarks(reading, words) : '',
      ...waiversOfRow(props.row).map((waiver) => waiverWords(waiver, words)),
    ]
      .filter(Boolean)
      .join('; ')
  const remark = createMemo(() => remarkIn(view.words))
  return (
    <tr
      classList={{
        'row-earlier': earlier,
        'row-lead': lead,
        'row-flagged': flagged(),
        'row-open': reading === undefined,
        'row-said': remark() !== '',
      }}
      data-open={flagged() ? '' : undefined}
      tabindex={flagged() ? -1 : undefined}
    >
      <th scope="row" class="cell-name">
        <span class="cell-n">{line.position}</span> {line.label ?? ''}
        <Show when={lead && line.fastener}>
          {(state) => <span class="cell-condition">{conditionWords(state())}</span>}
        </Show>
      </th>
      <td class="cell-asked">
        <span class="pencil">{pass.pass}.</span>{' '}
        {askedWords(props.row, view.job().settled[line.joint]?.[pass.pass])}
      </td>
      <td class="cell-reached">
        <Show
          when={reading}
          fallback={<span class="pencil">{pass.state === 'by_clock' ? 'by the clock' : 'not yet'}</span>}
        >
          {(taken) => (earlier ? <s>{reachedWords(taken())}</s> : reachedWords(taken()))}
        </Show>
      </td>
      <td class="cell-band">
        <Show when={!earlier && reading}>
          {(taken) => (
            <PassBar
              asked={pass.asked}
              band={band() ?? taken().band}
              readings={[taken()]}
              earlier={pass.earlier}
            />
          )}
        </Show>
      </td>
      <td class="cell-wrench">
        <Show when={reading?.wrenchId}>
          {(wrenchId) => (
            <>
              {wrenchId()} <Checked wrench={reading?.wrench} />
            </>
          )}
        </Show>
      </td>
      <td class="cell-by">
        <Show when={reading}>{(taken) => <Stripe person={taken().by} />}</Show>
      </td>
      <td class="cell-second">
        <Show when={lead && line}>{(line) => <Second line={line()} />}</Show>
      </td>
      <td class="cell-when">
        <Show when={reading}>{(taken) => <Moment at={taken().doneAt} />}</Show>
      </td>
      <td class="cell-stands">
        <Show when={lead && !flagged()}>
          <span class={`verdict verdict-${line.verdict}`}>
            <VerdictMark verdict={line.verdict} /> {verdictWords(line)}
          </span>
        </Show>
        <Show when={remark()}>
          <span class="remark screen-only" classList={{ against: flagged() }}>
            {remark()}
          </span>
          <span class="remark paper-only">{remarkIn(onPaper)}</span>
        </Show>
      </td>
    </tr>
  )
}

/** Whose word stands on these fasteners, and since when. */
function Signed(props: { pair: SignerPair }) {
  const view = useJobView()
  return (
    <p class="pencil">
      {props.pair.sets.length > 0 ? `${props.pair.sets.join(', ')}: signed` : 'Signed'} by{' '}
      {view.words.person(props.pair.first.by)}, <Moment at={props.pair.first.doneAt} />
      <Show when={props.pair.second}>
        {(second) => (
          <>
            ; second {view.words.person(second().by)}, <Moment at={second().doneAt} />
            {second().late ? ', late: it was covered already' : ''}
            {second().through === 'own_recheck' ? ', second-signed by the same person' : ''}
          </>
        )}
      </Show>
    </p>
  )
}

/** The date of the wrench's last check, as known when the reading was taken. */
function Checked(props: { wrench: WrenchThen | undefined }) {
  return (
    <span class="wrench-checked">
      <Show when={props.wrench?.lastCheckedAt} fallback="check not entered">
        {(at) => (
          <>
            <span class="unseen">checked </span>
            {format.date(at())}
          </>
        )}
      </Show>
    </span>
  )
}

function Second(props: { line: AuditLine }) {
  return (
    <Show when={props.line.secondAsked} fallback={<span class="pencil">–</span>}>
      <Show when={props.line.second} fallback={<span class="pencil">{missingSecond(props.line)}</span>}>
        {(second) => (
          <>
            <Stripe person={second().by} />
            <Show when={second().late}>
              <span class="against small"> late</span>
            </Show>
            <Show when={second().through === 'own_recheck'}>
              <span class="small"> own look</span>
            </Show>
          </>
        )}
      </Show>
    </Show>
  )
}

function missingSecond({ first, look, waivers }: AuditLine): string {
  if (waivers.some(({ what }) => what.kind === 'second')) return 'accepted with a reason'
  if (look) return 'look noted'
  return first ? 'missing' : 'needed'
}

/** A torque its fastener cannot bear by what can be computed, and why it was taken all the same: with the page. */
function AsPrinted(props: { joint: Joint }) {
  const taken = () =>
    props.joint.passes.flatMap((pass, i) =>
      pass.kind === 'torque' && takenAsPrinted(pass) ? [{ pass: i + 1, ...pass.asPrinted }] : [],
    )
  return (
    <For each={taken()}>
      {({ pass, torqueNm, maxNm = torqueNm, photo, reason }) => (
        <p class="group-settled">
          Pass {pass}: {showNm(torqueNm)} N·m{maxNm > torqueNm ? `, ${showNm(maxNm)} N·m at most,` : ''} taken
          as printed, though it is more than the fastener bears by what can be computed. {ended(reason)}{' '}
          <a href={photoAddress({ sha256: photo })} target="_blank" rel="noreferrer">
            Photo of the page
          </a>
          , check number {photo.slice(0, 12)}
        </p>
      )}
    </For>
  )
}

function askedWords({ pass }: Row, settled: SettledValue | undefined): string {
  if (settled) return `${showNm(settled.torqueNm)} N·m, decided here`
  return passWords(pass.asked, format)
}
