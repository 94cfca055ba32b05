/** `readSpec` against what manuals print: whole notations, and the pairs two units were rounded to. */
import { describe, expect, test } from 'vitest'
import { readSpec } from '../../shared/spec'
import { toNm } from '../../shared/units'
import { PRINTED_SPECS } from './data/printed-specs'
import { PUBLISHED_PAIRS } from './data/torque-units'

describe('what manuals print', () => {
  test.each(PRINTED_SPECS)('$text', ({ text, unit, passes, contradicts }) => {
    const spec = readSpec(text)
    const nm = (value: number) => expect.closeTo(toNm(value, unit), 9)
    const named = (key: string, value: number | null) => (value === null ? {} : { [key]: nm(value) })
    const expected = passes.map((pass) => {
      if (typeof pass === 'number') return { kind: 'torque', nominalNm: nm(pass) }
      if (Array.isArray(pass))
        return {
          kind: 'torque',
          ...named('nominalNm', pass[0]),
          ...named('minNm', pass[1]),
          ...named('maxNm', pass[2]),
        }
      if ('deg' in pass) return { kind: 'angle', nominalDeg: pass.deg }
      return { kind: 'slacken', ...(pass.slacken === null ? {} : { nominalDeg: pass.slacken }) }
    })
    expect(spec).toEqual({ passes: expected, ...(contradicts ? { contradiction: expect.anything() } : {}) })
  })

  test.each(PUBLISHED_PAIRS)(
    '$id: $value $from and $printed $to do not contradict each other, either way',
    (pair) => {
      for (const text of [
        `${pair.value} ${pair.from} (${pair.printed} ${pair.to})`,
        `${pair.printed} ${pair.to} / ${pair.value} ${pair.from}`,
      ])
        expect(Object.keys(readSpec(text))).toEqual(['passes'])
    },
  )

  test.each(PUBLISHED_PAIRS)(
    '$id: two steps further off it is remarked, beyond 2.5 % they contradict each other',
    (pair) => {
      const first = toNm(pair.value, pair.from)
      const steps = [2, Math.ceil((0.03 * pair.printed) / pair.step) + 2]
      for (const [i, by] of steps.entries()) {
        const off = Number((pair.printed + by * pair.step).toFixed(2))
        const second = { text: `${off} ${pair.to}`, unit: pair.to, nominalNm: toNm(off, pair.to) }
        const near =
          i === 0 && Math.abs(second.nominalNm - first) <= 0.025 * Math.max(first, second.nominalNm)
        expect(readSpec(`${pair.value} ${pair.from} (${off} ${pair.to})`)).toHaveProperty(
          near ? 'remark.second' : 'contradiction.second',
          second,
        )
      }
    },
  )
})
