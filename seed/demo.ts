/**
 * The demonstration's past: everything that happened at Tarn Quay up to D0 09:45, as commands in the order of time.
 *
 * Only commands, never rows, and nothing from chance: the same day gives the same log to the last byte, as long as
 * the desk takes its ids from `idsFrom` meanwhile. A command that is refused is a mistake in a story, and ends the
 * play with the refusal's own sentence.
 */
import { bodyHash, type Desk, type StreamName } from '../server/desk'
import type { People } from '../server/people'
import type { PhotoShelf } from '../server/photos/shelf'
import type { JobCommand } from '../shared/job/commands'
import type { Instant } from '../shared/log'
import type { Plan } from '../shared/plan/types'
import type { ShopCommand } from '../shared/shop/types'
import { OPENS_AT, type ShopClock } from './clock'
import { ENGINES } from './engines'
import { idsFrom } from './ids'
import type { Picture } from './pictures'
import { type Story, told } from './play'
import { PEOPLE, PINS, planFile, shopBook } from './shop'

export interface Sending {
  at: Instant
  person: string
  stream: StreamName
  command: JobCommand | ShopCommand
}

export interface Past {
  sendings: Sending[]
  pictures: Picture[]
}

/** Where the ids of events begin; those of commands have a start of their own. */
export const EVENT_IDS = 101
const COMMAND_IDS = 102

/** A command arrives a moment after it was made. */
const ON_THE_WIRE_MS = 400

/** What stands in the yard beside the eight engines, and plans that no file holds. */
export interface Yard {
  stories: readonly Story[]
  plans: readonly Plan[]
}

const NOTHING_MORE: Yard = { stories: [], plans: [] }

/** The whole past, in the order of time; within one moment, in the order the stories tell it. */
export function pastOf(clock: ShopClock, repo: string, yard: Yard = NOTHING_MORE): Past {
  const plans = new Map([
    ...[...new Set(ENGINES.map(({ planId }) => planId))].map((id) => [id, planFile(repo, id)] as const),
    ...yard.plans.map((plan) => [plan.id, plan] as const),
  ])
  const stories = [...ENGINES, ...yard.stories].map((story) => {
    const plan = plans.get(story.planId)
    if (!plan) throw new Error(`No plan ${story.planId}.`)
    return told(story, plan, clock)
  })
  const sendings: Sending[] = [
    ...shopBook(clock, [...plans.values()]).map((sent) => ({ ...sent, stream: 'shop' as const })),
    ...stories.flatMap(({ jobId, sent }) => sent.map((one) => ({ ...one, stream: `job:${jobId}` as const }))),
  ]
  const opensAt = clock.at(0, OPENS_AT)
  const ahead = sendings.find(({ at }) => at >= opensAt)
  if (ahead) throw new Error(`${ahead.stream} ${ahead.command.type} lies after the shop opens.`)
  return {
    sendings: sendings.sort((a, b) => a.at - b.at),
    pictures: stories.flatMap(({ pictures }) => pictures),
  }
}

export interface SeedParts {
  desk: Desk
  people: Pick<People, 'setPin'>
  photos: Pick<PhotoShelf, 'put'>
  clock: ShopClock
  /** The repository's folder, for the plan files. */
  repo: string
  yard?: Yard
}

export interface DemoPerson {
  id: string
  name: string
  pin: string
}

export async function seedDemo({
  desk,
  people,
  photos,
  clock,
  repo,
  yard,
}: SeedParts): Promise<DemoPerson[]> {
  const pins = PEOPLE.map(({ id }) => people.setPin(id, PINS[id] as string))
  const { sendings, pictures } = pastOf(clock, repo, yard)
  for (const { photo, bytes } of pictures) await photos.put(photo.sha256, bytes)
  await play(desk, sendings)
  await Promise.all(pins)
  return PEOPLE.map(({ id, name }) => ({ id, name, pin: PINS[id] as string }))
}

/** Sent without waiting, so that they share commits; the desk keeps their order. */
async function play(desk: Desk, sendings: readonly Sending[]) {
  const newId = idsFrom(COMMAND_IDS)
  const answers = sendings.map(({ at, person, stream, command }) => {
    const sent = { ...command, commandId: newId(), doneAt: at }
    return desk.submit({
      stream,
      command: sent,
      bodyHash: bodyHash(stream, sent),
      asker: { person, through: 'sign_in' },
      receivedAt: at + ON_THE_WIRE_MS,
    })
  })
  for (const [index, answer] of (await Promise.all(answers)).entries())
    if (!answer.ok) {
      const { person, stream, command, at } = sendings[index] as Sending
      const when = new Date(at).toString().slice(0, 21)
      throw new Error(
        `${when}, ${stream}, ${command.type} by ${person}: ${answer.sentence} ${JSON.stringify(command)}`,
      )
    }
}
