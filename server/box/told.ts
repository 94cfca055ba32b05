/** What devices are told of the log's epoch. */
import type { LogEpoch } from '../../shared/protocol'
import type { Box } from './box'

export function epochTold(box: Box): LogEpoch {
  const { id, number } = box.epoch()
  return { id, number, coveredSeq: box.coveredSeq() }
}
