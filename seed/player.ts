/**
 * Plays the rest of the day: sends each moment's commands through the desk when the shop's clock has come to them.
 *
 * It promises:
 * - Only commands, each under the person the day names, one after another in the order of time.
 * - Whoever joins in is not in its way: what a moment sends is reckoned from the job as it stands then. A refusal
 *   is told with its sentence; the person of that moment stops there, and the day goes on with the next one.
 * - Paused, the shop's clock goes on like the one on the wall. What it passes meanwhile is sent when the day goes
 *   on, late and under its own time, as anything that waited for the network.
 * - At once and by single steps the clock is put forward from command to command and stands in between, so that the
 *   same day gives the same times.
 */
import { bodyHash, type Desk, type StreamName } from '../server/desk'
import type { JobCommand } from '../shared/job/commands'
import type { Instant } from '../shared/log'
import type { DemoMoment, DemoRefusal, DemoSpeed } from '../shared/protocol'
import type { ShopClock } from './clock'
import type { Moment } from './day'
import type { Pace } from './pace'

/** Between two commands of one moment: a nut, a click, the next nut. */
export const HAND_MS = 12_000

export interface PlayerParts {
  moments: readonly Moment[]
  clock: ShopClock
  pace: Pace
  desk: Pick<Desk, 'submit' | 'job'>
  newId(): string
  /** Calls back after so many milliseconds of the wall's clock; what it gives back calls it off. */
  after(ms: number, then: () => void): () => void
  /** Something that shows has changed. */
  changed(): void
  failed(error: unknown): void
}

export interface Player {
  moments: readonly DemoMoment[]
  state(): { playing: boolean; speed: DemoSpeed; begun: number; refused: readonly DemoRefusal[] }
  /** While the commands of the day are on their way. */
  sending(): boolean
  play(): Promise<void>
  pause(): Promise<void>
  /** The next moment to its end, or what is left of the one that has begun. */
  step(): Promise<void>
  setSpeed(speed: DemoSpeed): Promise<void>
  /** Sends nothing more; resolves when what was on its way is answered. */
  close(): Promise<void>
}

interface Sending {
  due: Instant
  doneAt: Instant
  command: JobCommand
}

export function makePlayer({ moments: told, clock, pace, desk, newId, ...outward }: PlayerParts): Player {
  const dueOf = (moment: Moment) => clock.at(0, moment.sentAt ?? moment.at)
  const moments = [...told].sort((a, b) => dueOf(a) - dueOf(b))
  const refused: DemoRefusal[] = []
  let begun = 0
  let left: Sending[] = []
  let playing = false
  let closed = false
  let speed: DemoSpeed = 60
  let sending = false
  let callOff = () => {}
  let queue: Promise<void> = Promise.resolve()

  /** One thing after another, whoever asks. */
  function inTurn(work: () => Promise<void> | void): Promise<void> {
    queue = queue
      .then(() => (closed ? undefined : work()))
      .catch((error: unknown) => {
        playing = false
        outward.failed(error)
      })
    return queue
  }

  const nextDue = (): Instant | undefined => {
    if (left[0]) return left[0].due
    const moment = moments[begun]
    return moment && dueOf(moment)
  }

  function setPace() {
    pace.run(!playing ? 1 : speed === 'at_once' ? 0 : speed)
  }

  function arm() {
    callOff()
    if (!playing) return
    const due = nextDue()
    if (due === undefined) {
      playing = false
      setPace()
      return outward.changed()
    }
    const wait = speed === 'at_once' ? 0 : Math.max(0, (due - pace.now()) / speed)
    callOff = outward.after(
      wait,
      () =>
        void inTurn(async () => {
          if (!playing) return
          await one()
          arm()
        }),
    )
  }

  /** The next moment begins, or its next command is sent. */
  async function one() {
    const due = nextDue()
    if (due === undefined) return
    pace.forward(due)
    if (left.length === 0) await begin()
    else await send(left.shift() as Sending)
    outward.changed()
  }

  async function begin() {
    const moment = moments[begun] as Moment
    begun += 1
    const job = await desk.job(moment.jobId)
    const at = clock.at(0, moment.at)
    left = (job ? moment.commands(job) : []).map((command, n) => {
      const doneAt = at + n * HAND_MS
      return { command, doneAt, due: moment.sentAt ? dueOf(moment) : doneAt }
    })
  }

  async function send({ command, doneAt }: Sending) {
    const moment = moments[begun - 1] as Moment
    const stream: StreamName = `job:${moment.jobId}`
    const sent = { ...command, commandId: newId(), doneAt }
    sending = true
    const answer = await desk
      .submit({
        stream,
        command: sent,
        bodyHash: bodyHash(stream, sent),
        asker: { person: moment.person, through: 'sign_in' },
        receivedAt: pace.now(),
      })
      .finally(() => {
        sending = false
      })
    if (answer.ok) return
    const { code, sentence } = answer
    refused.push({
      moment: begun - 1,
      code,
      sentence,
      foreseen: code === moment.refused,
      leftOut: left.length,
    })
    left = []
  }

  return {
    moments: moments.map((moment) => ({
      at: clock.at(0, moment.at),
      due: dueOf(moment),
      person: moment.person,
      jobId: moment.jobId,
      shows: moment.shows,
    })),
    state: () => ({ playing, speed, begun, refused: [...refused] }),
    sending: () => sending,
    play: () =>
      inTurn(() => {
        playing = nextDue() !== undefined
        setPace()
        outward.changed()
        arm()
      }),
    pause: () =>
      inTurn(() => {
        callOff()
        playing = false
        setPace()
        outward.changed()
      }),
    step: () =>
      inTurn(async () => {
        callOff()
        pace.run(0)
        if (left.length === 0) await one()
        while (left.length > 0) await one()
        setPace()
        outward.changed()
        arm()
      }),
    setSpeed: (next) =>
      inTurn(() => {
        speed = next
        setPace()
        outward.changed()
        arm()
      }),
    async close() {
      callOff()
      await inTurn(() => {
        closed = true
        playing = false
      })
    },
  }
}
