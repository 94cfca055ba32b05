/**
 * Proof loads of nuts, N, as ISO 898-2:1992 prints them for coarse threads. From memory, not seen: the printed loads are stress area
 * times proof stress, cut to three or four digits; half a per cent covers that.
 */
import { describe, expect, test } from 'vitest'
import { thread } from '../../shared/fastener'
import { nutOf } from '../../shared/fastener/nut'
import { isRefusal } from '../../shared/log'

const PROOF_LOADS: [size: string, nut: string, loadN: number][] = [
  ['M5', '8', 12_140],
  ['M6', '8', 17_200],
  ['M8', '8', 31_800],
  ['M10', '8', 50_500],
  ['M12', '8', 74_200],
  ['M16', '8', 138_200],
  ['M20', '8', 225_400],
  ['M6', '10', 20_900],
  ['M8', '10', 38_100],
  ['M10', '10', 60_300],
  ['M12', '10', 88_500],
  ['M16', '10', 164_900],
  ['M10', '6', 39_400],
  ['M12', '5', 51_400],
  ['M12', '12', 100_300],
]

describe('ISO 898-2, proof loads of nuts (memory)', () => {
  test.each(PROOF_LOADS)('[FT21] %s class %s: %d N', (size, nut, loadN) => {
    const read = thread(size)
    if (isRefusal(read)) throw new Error(read.refused)
    const found = nutOf(nut, read)?.proofN ?? 0
    expect(Math.abs(found / loadN - 1)).toBeLessThan(0.005)
  })
  test('[FT21] a class that is none is none, and an inch nut has no such class', () => {
    const [metric, inch] = [thread('M10'), thread('3/8-16')]
    if (isRefusal(metric) || isRefusal(inch)) throw new Error('no thread')
    expect([nutOf('8.8', metric), nutOf('9', metric), nutOf('', metric), nutOf('8', inch)]).toEqual(
      Array(4).fill(undefined),
    )
    expect(nutOf('class 8 nut', metric)?.bolt).toBe('8.8')
  })
})
