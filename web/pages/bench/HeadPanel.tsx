/** One head: every reading it ever had, what is odd and what to do, strike, and slackened. Nothing is dropped. */
import { createMemo, For, Show } from 'solid-js'
import { flagWords } from '../../../shared/job/kinds'
import type { Reading } from '../../../shared/job/types'
import { isSigned, positionState, standingReading, stands } from '../../../shared/job/verdicts'
import { numberWords } from '../../../shared/plan/order'
import type { AdoptedJoint, Pass } from '../../../shared/plan/types'
import { passWords } from '../../../shared/plan/words'
import { upperFirst } from '../../../shared/words'
import { format } from '../../format'
import { useJobDialogs } from '../../job/dialogs'
import { reachedWords, remarks } from '../../job/record/rows'
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

interface HeadPanelProps {
  joint: AdoptedJoint
  position: number
  onClose(): void
}

export function HeadPanel(props: HeadPanelProps) {
  const bench = useBench()
  const scope = useJob()
  const open = useJobDialogs()
  const readings = createMemo(() =>
    (scope.planned().readings[props.joint.id] ?? []).filter(({ position }) => position === props.position),
  )
  const isRead = () => readings().some(stands)
  const label = () => props.joint.positions.find(({ n }) => n === props.position)?.label
  const flags = () => positionState(scope.planned(), props.joint, props.position).flags
  const mayRepeat = () =>
    standingReading(scope.planned(), props.joint, props.position, bench.pass()) &&
    props.joint.passes[bench.pass() - 1]?.kind !== 'angle'
  /** With a click wrench one press, else its number is asked. */
  const repeat = () => {
    props.onClose()
    if (bench.wrench()?.kind === 'click' && bench.scale()) bench.record(props.position, 'clicked')
    else if (bench.sheet()?.kind === 'slacken') bench.record(props.position, 'slackened')
    else bench.askNumber()
  }
  /** Outside a slacken pass this takes the head back: all it has had is void, and stays readable. */
  const takeBack = () => {
    const pass = props.joint.passes.findIndex(({ kind }) => kind !== 'slacken') + 1
    const { joint, position } = props
    void scope.send({ type: 'TakeReading', jointId: joint.id, position, pass, how: 'slackened' })
    props.onClose()
    // What it owes now comes first: another pass of it would be flagged.
    bench.openNextPass()
  }
  const leaveOut = () => {
    const fastener = { joint: props.joint.id, position: props.position }
    props.onClose()
    open({ dialog: 'leave_out', fastener })
  }
  return (
    <Dialog
      open
      title={`${props.joint.title}: ${numberWords(props.joint, props.position)}${label() ? `, ${label()}` : ''}`}
      onClose={props.onClose}
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
          <Show when={flags().includes('turned_again') || flags().includes('overshot')}>
            <p>{interruptionWords(scope.planned(), props.joint, bench.pass())}</p>
          </Show>
        </div>
      </Show>
      <ol class="readings stack">
        <For each={readings()} fallback={<li class="pencil">No reading yet. Tap it when it is its turn.</li>}>
          {(reading) => <ReadingLine reading={reading} asked={props.joint.passes[reading.pass - 1]} />}
        </For>
      </ol>
      <Show when={bench.mine()}>
        <div class="panel-buttons cluster">
          <Show when={mayRepeat()}>
            <Button onClick={repeat}>Done again: record it again</Button>
          </Show>
          <Show when={isRead()}>
            <Button variant="rust" onClick={takeBack}>
              Slackened: record it
            </Button>
          </Show>
        </div>
        <Show when={isRead()}>
          <p class="small pencil">
            Slackened, it starts again from pass 1. What was recorded of it stays.
            <Show when={isSigned(scope.planned(), bench.step())}> It must be signed again.</Show>
          </p>
        </Show>
        <HolePress joint={props.joint} position={props.position} />
        <FastenerPress joint={props.joint} position={props.position} onDone={props.onClose} />
        <Show when={!isRead() && bench.round()?.leftOutIn === undefined}>
          <Button variant="quiet" onClick={leaveOut}>
            Leave out
          </Button>
        </Show>
      </Show>
    </Dialog>
  )
}

const NO_READING = { how: 'clicked', band: null, pass: 1 } as const

function ReadingLine(props: { reading: Reading; asked: Pass | undefined }) {
  const scope = useJob()
  const isStanding = () => stands(props.reading)
  const mayStrike = () =>
    isStanding() && !scope.may({ type: 'StrikeReading', readingId: props.reading.id, reason: '-' })
  return (
    <li class="reading" classList={{ void: !isStanding() }}>
      <p class="reading-head cluster level">
        <span class="reading-value">{upperFirst(reachedWords(props.reading))}</span>
        <span class="pencil">
          pass {props.reading.pass}
          <Show when={props.asked}>{(pass) => `: ${passWords(pass(), format)}`}</Show>
        </span>
        <Stripe person={props.reading.by} />
        <span class="pencil">
          {props.reading.wrenchId ? `${props.reading.wrenchId}, ` : ''}
          {scope.words.moment(props.reading.doneAt)}
        </span>
      </p>
      <Show when={remarks(props.reading, scope.words)}>
        {(words) => <p class={isStanding() ? 'against-words' : 'pencil'}>{upperFirst(words())}</p>}
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
