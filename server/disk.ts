/** What a disk that is full, read-only or failing is called in a sentence; its own codes help nobody. */
import { Refused } from './settings'

const FULL = 'the disk is full'
const READ_ONLY = 'it cannot be written to by this account: the folder or the disk is read-only'
const FAILING = 'the disk does not answer as it should'

/** By the code of Node's or SQLite's error. */
const PROBLEMS: Record<string, string> = {
  ENOSPC: FULL,
  EDQUOT: FULL,
  SQLITE_FULL: FULL,
  EACCES: READ_ONLY,
  EPERM: READ_ONLY,
  EROFS: READ_ONLY,
  SQLITE_READONLY: READ_ONLY,
  SQLITE_CANTOPEN: READ_ONLY,
  ENOTDIR: 'a file stands where a folder should be',
  EFBIG: 'a file would become larger than this disk or this account allows',
  EIO: FAILING,
  SQLITE_IOERR: FAILING,
}

/** What is wrong with the disk, where that is what an error says; it may stand in its cause. */
export function diskProblem(error: unknown): string | undefined {
  if (!(error instanceof Error)) return undefined
  const code = String((error as { code?: unknown }).code ?? '')
  return PROBLEMS[code] ?? PROBLEMS[code.split('_').slice(0, 2).join('_')] ?? diskProblem(error.cause)
}

/** For whoever stands at a screen: what is so, and what to do. */
export function diskSentence(error: unknown): string | undefined {
  switch (diskProblem(error)) {
    case FULL:
      return 'The disk of the shop’s server is full; nothing was recorded. Make room on it, then try again.'
    case READ_ONLY:
      return 'The shop’s server cannot write to its data folder; nothing was recorded. Let it write there again, then try again.'
    case FAILING:
      return 'The disk of the shop’s server is failing; nothing was recorded. Look at it before anything else, then try again.'
    default:
      return undefined
  }
}

/** Runs `work`; where the disk is what stops it, that is refused in a sentence that names the place. */
export function fromDisk<T>(place: string, work: () => T): T {
  try {
    return work()
  } catch (error) {
    const problem = diskProblem(error)
    if (problem) throw new Refused(onDisk(place, problem), { cause: error })
    throw error
  }
}

export const onDisk = (place: string, problem: string): string =>
  `Nothing can be written in ${place}: ${problem}. Put that right, or choose another folder.`
