/** What a PIN may be. */
import { expect, test } from 'vitest'
import { isTooEasyPin, PIN_FORM } from '../../shared/pin'

const all = Array.from({ length: 10_000 }, (_, n) => String(n).padStart(4, '0'))

test('[PE15] too easy: all alike, runs up and down, repeated and paired digits, years, patterns of the keys', () => {
  const easy = [
    ...['0000', '7777', '111111'],
    ...['1234', '4321', '7890', '0123', '9012', '3210', '456789', '987654321098'],
    ...['1212', '6969', '123123', '12341234'],
    ...['1122', '4455', '112233'],
    ...['1900', '1984', '2026', '2099'],
    ...['2580', '0852', '1236', '1478', '3698', '147896', '1379', '9713', '2468', '8642'],
  ]
  expect(easy.filter((pin) => !isTooEasyPin(pin))).toEqual([])
  expect(easy.every((pin) => PIN_FORM.test(pin))).toBe(true)
})

test('[PE15] what is none of these may be chosen, a year among more digits too', () => {
  const fine = ['4711', '1357', '7063', '1899', '2100', '19847', '1223', '1238', '25800', '9753', '81746']
  expect(fine.filter(isTooEasyPin)).toEqual([])
})

test('[PE15] of ten thousand four-digit PINs 544 are too easy', () => {
  const easy = all.filter(isTooEasyPin)
  // 10 alike, 20 runs, 90 of two digits in turn, 90 pairs and 200 years make some 400; the rest are lines over the keys.
  expect(easy).toHaveLength(544)
})
