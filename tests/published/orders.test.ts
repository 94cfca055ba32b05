/** The cross pattern of circular flanges against the published sequences; exact. */
import { expect, test } from 'vitest'
import { tighteningOrder } from '../../shared/fastener'
import { CROSS } from './data/orders'

test.each(CROSS)('[FT16] %d bolts: %s (%s)', (bolts, sequence) => {
  expect(tighteningOrder(bolts, 'circle')).toEqual(sequence.split('-').map(Number))
})
