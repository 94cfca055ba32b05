/**
 * The sealant clock in words. Pure.
 *
 * Full (bench): how long is left, that it is late, how long it cures and what waits, and the press that comes next.
 * Compact (engine): how long it is open or cures, while that matters.
 */
import { type SealantState, sealantState } from '../../../shared/job/clocks'
import type { PlannedJob } from '../../../shared/job/types'
import { indexPlan } from '../../../shared/plan/read'
import type { AdoptedStep } from '../../../shared/plan/types'
import { listed, upperFirst, type Words } from '../../../shared/words'
import { format } from '../../format'

const MINUTE = 60_000

/** `7:05` under an hour, `1:07:05` above. */
export function countdown(ms: number): string {
  const seconds = Math.max(0, Math.floor(ms / 1000))
  const h = Math.floor(seconds / 3600)
  const m = Math.floor((seconds % 3600) / 60)
  const two = (n: number) => String(n).padStart(2, '0')
  return h > 0 ? `${h}:${two(m)}:${two(seconds % 60)}` : `${m}:${two(seconds % 60)}`
}

interface ClockView {
  state: SealantState['state']
  /** The big figures of a running clock. */
  figure?: string
  line: string
  /** `flange sealant open 4 of 8 min`: for a clock that runs or ran over. */
  brief?: string
  /** The press that records the next fact. */
  press?: { does: 'start' | 'close'; label: string }
}

export function clockView(job: PlannedJob, step: AdoptedStep, now: number, words: Words): ClockView {
  const state = sealantState(job, step, now)
  const product = step.sealant?.product ?? ''
  const minutes = step.sealant?.closeWithinMinutes ?? 0
  const within = format.duration(minutes)
  switch (state.state) {
    case 'none':
      return { state: 'none', line: '' }
    case 'not_started':
      return {
        state: 'not_started',
        line: `${upperFirst(product)}: last fastener in within ${within} of the first bead.`,
        press: { does: 'start', label: 'First bead laid' },
      }
    case 'open':
      return {
        state: 'open',
        figure: countdown(state.closeBy - now),
        line: `Left to close ${product}, by ${words.moment(state.closeBy)}.`,
        brief: `${product} open ${minutes - Math.ceil((state.closeBy - now) / MINUTE)} of ${within}`,
        press: { does: 'close', label: 'Last fastener in' },
      }
    case 'late':
      return state.closedAt === undefined
        ? {
            state: 'late',
            figure: `+${countdown(now - state.closeBy)}`,
            line: `Past the time of ${product}, which was ${words.moment(state.closeBy)}. If the last fastener was in by then, ask the supervisor; otherwise clean it off and lay a new bead.`,
            brief: `${product} open for longer than ${within}`,
            press: { does: 'close', label: 'Last fastener in, late' },
          }
        : {
            state: 'late',
            line: `Closed at ${words.moment(state.closedAt)}, past ${words.moment(state.closeBy)}. Clean it off and lay a new bead, or ask the supervisor.`,
            brief: `${product} was open for longer than ${within}`,
            press: { does: 'start', label: 'Cleaned off, new bead laid: start again' },
          }
    case 'curing':
      return {
        state: 'curing',
        line: `Cures until ${words.moment(state.until)}${waits(step)}.`,
        brief: `${product} cures until ${words.moment(state.until)}`,
      }
    case 'cured':
      return { state: 'cured', line: `Cured since ${words.moment(state.since)}.` }
  }
}

function waits(step: AdoptedStep): string {
  const before = step.sealant?.before ?? []
  return before.length > 0 ? `: ${listed(before)} ${before.length === 1 ? 'waits' : 'wait'}` : ''
}

/** For a gate that asks for cured sealant: each step's clock. */
export function cureWords(job: PlannedJob, stepIds: readonly string[], now: number, words: Words): string {
  const { stepById } = indexPlan(job.plan)
  return stepIds
    .flatMap((id) => {
      const step = stepById.get(id)
      if (!step?.sealant) return []
      const { state, line } = clockView(job, step, now, words)
      return [`${id} ${step.title}: ${state === 'not_started' ? 'no bead recorded yet.' : line}`]
    })
    .join(' ')
}
