/** What lies beside the log and is not in it: photos by their hashes, PIN rows by their seals. */
import { join } from 'node:path'
import type { Job } from '../../shared/job/types'
import type { Plan } from '../../shared/plan/types'
import { counted, listed } from '../../shared/words'
import { sha256OfFile } from '../files'
import { makeSeals } from '../people/seal'
import { photosIn, placeOfPhoto } from '../photos/shelf'
import type { Reader } from './reader'
import type { Fault } from './report'

/** A photo that must be there, and of which job or plan it is. */
export interface NamedPhoto {
  sha256: string
  of: string
  jobId?: string
}

/** Of those taken, the ones whose bytes the log says have arrived. */
export const photosOfJob = ({ id, number, photos, plan }: Job): NamedPhoto[] => [
  ...photos.filter(({ arrived }) => arrived).map(({ sha256 }) => ({ sha256, of: number, jobId: id })),
  ...(plan ? photosOfPlan(plan, number) : []),
]

/** Pages that a torque was taken from as printed. */
export const photosOfPlan = ({ steps }: Pick<Plan, 'steps'>, of: string): NamedPhoto[] =>
  steps
    .flatMap(({ joints = [] }) => joints)
    .flatMap(({ passes }) => passes)
    .flatMap((pass) =>
      pass.kind === 'torque' && pass.asPrinted ? [{ sha256: pass.asPrinted.photo, of }] : [],
    )

export async function checkPhotos(
  folder: string,
  named: ReadonlyMap<string, NamedPhoto>,
  told: () => Promise<void>,
): Promise<{ faults: Fault[]; photos: number }> {
  const faults: Fault[] = []
  const there = new Set<string>()
  for (const sha256 of photosIn(folder)) {
    there.add(sha256)
    const owner = named.get(sha256)
    if ((await sha256OfFile(join(folder, placeOfPhoto(sha256)))) !== sha256)
      faults.push(photoFault(sha256, owner, `is damaged: its bytes are not the ones that were taken`))
    await told()
  }
  for (const [sha256, owner] of named)
    if (!there.has(sha256))
      faults.push(photoFault(sha256, owner, 'is missing, though the log says that it arrived'))
  return { faults, photos: there.size }
}

function photoFault(sha256: string, owner: NamedPhoto | undefined, what: string): Fault {
  const path = `photos/${sha256.slice(0, 2)}/${sha256}`
  return {
    kind: 'photo',
    ...(owner?.jobId === undefined ? {} : { jobId: owner.jobId, number: owner.of }),
    sentence: `A photo${owner ? ` of ${owner.of}` : ' that no entry names'} ${what}. Copy ${path} from a backup.`,
  }
}

export interface PinsCheck {
  faults: Fault[]
  notes: string[]
}

/**
 * `nameOf` gives a person's name; `wereSealed`: marks are there, and they came with the seals; `toldOf`: when the log says that
 * somebody's PIN was set, where it says so, or that they have none.
 */
export function checkPins(
  pins: NonNullable<ReturnType<Reader['pins']>>,
  pepper: Uint8Array | undefined,
  nameOf: (personId: string) => string,
  wereSealed: boolean,
  toldOf: (personId: string) => number | 'none' | undefined,
): PinsCheck {
  const { rows, seal } = pins
  if (rows.length === 0 && seal === undefined) return { faults: [], notes: [] }
  if (!pepper)
    return { faults: [], notes: ['PINs were not compared: the pepper they are sealed with is not here.'] }
  if (seal === undefined && !wereSealed)
    return { faults: [], notes: ['PINs are not sealed yet; the next start does that.'] }
  const seals = makeSeals(pepper)
  const odd = rows.filter((row) => !seals.holds(row))
  const whole = seal !== undefined && seals.sealOf(rows) === seal
  const fault = (sentence: string): Fault => ({ kind: 'pin', sentence })
  if (!whole && rows.length > 0 && odd.length === rows.length)
    return {
      faults: [
        fault(
          'No PIN here was set with this pepper, so nobody can sign in. Put the pepper back from the secrets of a backup, or set every PIN anew with "npm run pin -- NAME".',
        ),
      ],
      notes: [],
    }
  if (odd.length > 0)
    return {
      faults: [
        fault(
          `The PIN of ${listed(odd.map(({ personId }) => nameOf(personId)))} was changed in the database behind the server’s back, and signs nobody in. Set it anew with "npm run pin -- NAME".`,
        ),
      ],
      notes: [],
    }
  if (!whole)
    return {
      faults: [
        fault(
          `Somebody’s PIN was taken out of the database, put in, or put back to an earlier one behind the server’s back; ${counted(rows.length, 'PIN')} ${rows.length === 1 ? 'is' : 'are'} there. Set anew the PIN of whoever cannot sign in, with "npm run pin -- NAME", and ask who had the database in hand.`,
        ),
      ],
      notes: [],
    }
  const untold = rows.filter(({ personId, setAt }) => (toldOf(personId) ?? setAt) !== setAt)
  if (untold.length > 0)
    return {
      faults: [
        fault(
          `The PIN of ${listed(untold.map(({ personId }) => nameOf(personId)))} is not the one whose setting the log tells of: it was set without an entry, by somebody who had the whole data folder in hand. Set it anew with "npm run pin -- NAME", and ask who that was.`,
        ),
      ],
      notes: [],
    }
  return { faults: [], notes: [] }
}
