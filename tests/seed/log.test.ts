/** The demo shop's log: nothing refused, and the same to the last byte each time. */
import { expect, test } from 'vitest'
import { demoShop } from './shop'

test('the past plays without a refusal, and twice to the same chain heads', async () => {
  const [first, second] = [await demoShop(), await demoShop()]
  const heads = await first.store.streams()
  expect(heads.map(({ stream }) => stream).sort()).toEqual([
    'job:e-101',
    'job:e-102',
    'job:e-103',
    'job:e-104',
    'job:e-105',
    'job:e-106',
    'job:e-107',
    'job:e-108',
    'shop',
  ])
  expect(await second.store.streams()).toEqual(heads)
})
