/** What the section through a bolt and its hole draws, from the fit that was reckoned: lengths and words agree with it. */
import { fitWords, holeWords } from '../../shared/job/hole-words'
import type { HoleEntry } from '../../shared/job/types'
import { type BoltFit, longPart } from '../../shared/job/verdicts'
import type { Joint } from '../../shared/plan/types'
import { upperFirst } from '../../shared/words'
import { format } from '../format'
import type { BoltSection } from './bolt-in-hole'

export function sectionFor({ hole, lengthMm, fit }: BoltFit): BoltSection {
  const { stackMm, washerMm, aboveMm, threadMm, depthMm } = hole
  return {
    dMm: fit.thread.dMm,
    pitchMm: fit.thread.pitchMm,
    boltLengthMm: lengthMm,
    stackMm,
    ...(washerMm === undefined ? {} : { washerMm }),
    ...(aboveMm === undefined ? {} : { aboveMm }),
    threadDepthMm: threadMm,
    ...(depthMm === undefined ? {} : { holeDepthMm: depthMm }),
    // What it counts on: the least installed length, from the deepest it may sit.
    ...(fit.insert
      ? {
          insert: {
            kind: fit.insert.kind,
            lengthMm: fit.insert.usableMm,
            setDownMm: fit.insert.setDownMaxMm,
          },
        }
      : {}),
  }
}

/** The drawing in words, for who does not see it. */
export const sectionLabel = (joint: Joint, found: BoltFit, entry: HoleEntry | undefined): string =>
  `Section to scale. ${entry ? `${upperFirst(holeWords(entry, format))}. ` : ''}${fitWords(longPart(joint), found, format)}`
