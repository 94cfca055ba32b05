/** One head: every reading it ever had, what is odd and what to do, strike, and slackened. Nothing is dropped. */
import { createMemo, For, Show } from 'solid-js'
import { flagWords } from '../../../shared/job/kinds'
import type { Reading } from '../../../shared/job/types'
import { isSigned, positionState, standingReading, stands } from '../../../shared/job/verdicts'
import { numberWords } from '../../../shared/plan/order'
import { passWords } from '../../../shared/plan/words'
import { upperFirst } from '../../../shared/words'
import { format } from '../../format'
import { useJobDialogs } from '../../job/dialogs'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { useBench } from './bench'
import { adviceFor, interruptionWords } from './cautions'
import { FastenerPress } from './FastenerPanel'
import { HolePress } from './HoleNotes'
import { StrikeEntry } from './Strike'
import './head.css'

export function HeadPanel(props: { onAgain: (n: number) => void }) {
  const bench = useBench()
  const scope = useJob()
  const open = useJobDialogs()
  const n = () => bench.shownHead()
  const joint = () => bench.round()?.joint
  const readings = createMemo(() =>
    (scope.planned().readings[joint()?.id ?? ''] ?? []).filter((r) => r.position === n()),
  )
  const label = () => joint()?.positions.find((one) => one.n === n())?.label
  const called = () => {
    const one = joint()
    const at = n()
    return one && at !== undefined ? numberWords(one, at) : ''
  }
  const standing = () => {
    const one = joint()
    return one ? standingReading(scope.planned(), one, n() ?? 0, bench.pass()) : undefined
  }
  const flags = () => {
    const one = joint()
    return one && n() !== undefined ? positionState(scope.planned(), one, n() ?? 0).flags : []
  }
  const asksAngle = () => joint()?.passes[bench.pass() - 1]?.kind === 'angle'
  const slackened = () => {
    const at = n()
    if (at === undefined) return
    // Outside a slacken pass this takes the head back: all it has had is void, and stays readable.
    const { passes } = joint() ?? { passes: [] }
    const pass = passes.findIndex(({ kind }) => kind !== 'slacken') + 1
    const one = joint()
    if (one) void scope.send({ type: 'TakeReading', jointId: one.id, position: at, pass, how: 'slackened' })
    bench.showHead(undefined)
  }
  const leaveOut = () => {
    const fastener = { joint: joint()?.id ?? '', position: n() ?? 0 }
    bench.showHead(undefined)
    open({ dialog: 'leave_out', fastener })
  }
  return (
    <Dialog
      open={n() !== undefined}
      title={`${joint()?.title ?? ''}: ${called()}${label() ? `, ${label()}` : ''}`}
      onClose={() => bench.showHead(undefined)}
    >
      <Show when={flags().length > 0}>
        <div class="stop stack">
          <For each={flags()}>
            {(flag) => (
              <p>
                <strong>{upperFirst(flagWords(flag))}.</strong>{' '}
                {adviceFor(
                  flag,
                  readings().findLast((r) => stands(r) && r.flags.includes(flag)) ?? NO_READING,
                )}
              </p>
            )}
          </For>
          <Show when={(flags().includes('turned_again') || flags().includes('overshot')) && joint()}>
            {(one) => <p>{interruptionWords(scope.planned(), one(), bench.pass())}</p>}
          </Show>
        </div>
      </Show>
      <Show when={readings().length === 0}>
        <p class="pencil">No reading yet. Tap it when it is its turn.</p>
      </Show>
      <ol class="readings stack">
        <For each={readings()}>{(reading) => <ReadingLine reading={reading} />}</For>
      </ol>
      <Show when={bench.mine()}>
        <div class="panel-buttons cluster">
          <Show when={standing() && !asksAngle()}>
            <Button onClick={() => props.onAgain(n() ?? 0)}>Done again: record it again</Button>
          </Show>
          <Show when={readings().some(stands)}>
            <Button variant="rust" onClick={slackened}>
              Slackened: take it back
            </Button>
          </Show>
        </div>
        <Show when={readings().some(stands)}>
          <p class="small pencil">
            Taken back, this head starts again from pass 1; what it has had stays readable.
            <Show when={isSigned(scope.planned(), bench.step())}> It must be signed again.</Show>
          </p>
        </Show>
        <HolePress position={n() ?? 0} />
        <FastenerPress position={n() ?? 0} onDone={() => bench.showHead(undefined)} />
        <Show when={!readings().some(stands) && bench.round()?.leftOutIn === undefined}>
          <Button variant="quiet" onClick={leaveOut}>
            Leave out
          </Button>
        </Show>
      </Show>
    </Dialog>
  )
}

const VOID: Record<NonNullable<Reading['superseded']>['because'], string> = {
  slackened: 'slackened',
  retaken: 'done again',
  restarted: 'the round began again',
  refitted: 'the fastener was changed',
}
const NO_READING = { how: 'clicked', band: null, pass: 1 } as const

function ReadingLine(props: { reading: Reading }) {
  const bench = useBench()
  const scope = useJob()
  const sheet = () => bench.round()?.joint.passes[props.reading.pass - 1]
  const mayStrike = () =>
    stands(props.reading) && !scope.may({ type: 'StrikeReading', readingId: props.reading.id, reason: '-' })
  return (
    <li class="reading" classList={{ void: !stands(props.reading) }}>
      <p class="reading-head cluster level">
        <span class="reading-value">{valueWords(props.reading)}</span>
        <span class="pencil">
          pass {props.reading.pass}
          <Show when={sheet()}>{(pass) => `: ${passWords(pass(), format)}`}</Show>
        </span>
        <Stripe person={props.reading.by} />
        <span class="pencil">
          {props.reading.wrenchId ? `${props.reading.wrenchId}, ` : ''}
          {scope.words.moment(props.reading.doneAt)}
        </span>
      </p>
      <Show when={props.reading.flags.length > 0}>
        <p class="against-words">{props.reading.flags.map(flagWords).join('; ')}</p>
      </Show>
      <Show when={props.reading.struck}>
        {(struck) => (
          <p class="pencil">
            Struck by {scope.words.person(struck().by)}: {struck().reason}
          </p>
        )}
      </Show>
      <Show when={props.reading.superseded}>
        {(past) => (
          <p class="pencil">
            Void since {scope.words.moment(past().doneAt)}: {VOID[past().because]}
          </p>
        )}
      </Show>
      <Show when={mayStrike()}>
        <StrikeEntry
          onStrike={(reason) =>
            void scope.send({ type: 'StrikeReading', readingId: props.reading.id, reason })
          }
        />
      </Show>
    </li>
  )
}

/** What was read, as it was read; a click says the setting it clicked at. */
export function valueWords(reading: Reading): string {
  if (reading.how === 'slackened') return 'slackened'
  if (reading.how === 'counted' && reading.value === undefined) return 'counted'
  if (reading.how === 'turned') return `turned ${format.number(reading.value ?? 0)}°`
  const unit = reading.unit && reading.unit !== 'deg' ? reading.unit : ''
  const value = reading.value === undefined ? 'no number' : `${format.number(reading.value)} ${unit}`
  const inNm =
    reading.torqueNm !== undefined && unit !== 'N·m' ? ` (${format.torque(reading.torqueNm, 'N·m')} N·m)` : ''
  return `${reading.how === 'clicked' ? 'clicked at ' : reading.how === 'counted' ? 'counted at ' : ''}${value}${inNm}`
}
